import pytest

from assessments.measurement.limits import DEFAULT_LIMITS, Limit
from assessments.measurement.statistic import NO_VARIATION, measured, undefined

LIMIT = Limit({"units": 10}, {"units": 30})
GOOD = measured(0.7, 0.5, 0.8, 9)


def test_too_few_data_hold_the_number_back_and_say_why():
    held = LIMIT.applied(GOOD, units=9)
    assert (held.estimate, held.low, held.high, held.n) == (None, None, None, 9)
    assert held.withheld.text() == "rests on 9 units; at least 10 are needed"


def test_asked_for_anyway_the_reason_becomes_a_flag():
    shown = LIMIT.applied(GOOD, anyway=True, units=9)
    assert shown.estimate == 0.7
    assert shown.withheld is None
    assert [flag.code for flag in shown.flags] == ["too-few"]


@pytest.mark.parametrize(("units", "flags"), [(10, ["few"]), (29, ["few"]), (30, [])])
def test_thin_data_are_flagged(units, flags):
    assert [flag.code for flag in LIMIT.applied(GOOD, units=units).flags] == flags


def test_what_is_undefined_stays_so_anyway():
    assert LIMIT.applied(undefined(9, NO_VARIATION), anyway=True, units=9).withheld == NO_VARIATION


def test_no_default_flags_below_what_it_withholds():
    limits = (getattr(DEFAULT_LIMITS, name) for name in DEFAULT_LIMITS.__dataclass_fields__)
    for limit in limits:
        if isinstance(limit, Limit):
            assert all(limit.flag.get(thing, least) >= least for thing, least in limit.withhold.items())


def test_a_number_that_is_not_finite_is_no_number():
    assert measured(float("nan"), 0, 1, 5).withheld.code == "undefined"
