"""`hours assess` against a second solution of the same program, written apart from it: scipy's milp, nothing merged.

Both solve the optimum described in the package docstring; a difference is an error in one of the two.
THROUGHLINE_MORE_EXAMPLES=2000 tries so many examples of each kind, other ones each time.
"""

import os

from hypothesis import HealthCheck, given, settings

from tests.assessments.hours.oracle.command import assess
from tests.assessments.hours.oracle.comparing import differences
from tests.assessments.hours.oracle.hard_cases import hard_files
from tests.assessments.hours.oracle.strategies import Files, files

MORE = int(os.environ.get("THROUGHLINE_MORE_EXAMPLES", "0"))
SHARED_FOLDER = [HealthCheck.function_scoped_fixture, HealthCheck.too_slow, HealthCheck.data_too_large]


def examples(count: int) -> settings:
    return settings(
        max_examples=MORE or count,
        derandomize=not MORE,
        database=None,
        deadline=None,
        suppress_health_check=SHARED_FOLDER,
    )


@examples(60)
@given(files())
def test_sets_with_every_kind_of_rule_are_refused_or_solved_alike(tmp_path, case: Files):
    assert differences(case, assess(case, tmp_path)) == []


@examples(60)
@given(hard_files())
def test_sets_in_which_many_rules_bind_at_once_are_solved_alike(tmp_path, case: Files):
    assert differences(case, assess(case, tmp_path)) == []
