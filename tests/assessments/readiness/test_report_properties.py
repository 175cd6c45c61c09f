"""Properties of any readiness report, and earliest days computed a second way: by brute longest path."""

from datetime import timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from assessments.readiness.criteria import Criterion, ReadinessCriteria
from assessments.readiness.evidence import Evidence, ModuleEvidence
from assessments.readiness.report import report
from tests.assessments.readiness.cast import ON


@st.composite
def programmes(draw):
    made = []
    for place in range(draw(st.integers(1, 6))):
        before = [one.id for one in made]
        gates = tuple(draw(st.lists(st.sampled_from(before), unique=True, max_size=3))) if before else ()
        made.append(Criterion(f"c{place}", "module", f"c{place}", "C", gates, takes_days=draw(st.integers(0, 90))))
    done = draw(st.lists(st.sampled_from([one.id for one in made]), unique=True))
    shuffled = tuple(draw(st.permutations(made)))
    evidence = Evidence(modules=tuple(ModuleEvidence(id, "completed", ON) for id in done))
    return ReadinessCriteria("p", "P", "1", shuffled), evidence, set(done)


def longest(criteria, id, done):
    one = next(one for one in criteria.criteria if one.id == id)
    return one.takes_days + max((longest(criteria, gate, done) for gate in one.after if gate not in done), default=0)


@settings(deadline=None, max_examples=150)
@given(programmes())
def test_earliest_days_are_longest_paths_and_gates_come_first(made):
    criteria, evidence, done = made
    found = report(criteria, evidence, ON)
    place = {gap.criterion: number for number, gap in enumerate(found.gaps)}
    assert set(place) == {one.id for one in criteria.criteria} - done
    for gap in found.gaps:
        assert gap.earliest == ON + timedelta(days=longest(criteria, gap.criterion, done))
        assert all(place[gate] < place[gap.criterion] for gate in gap.waits_for)
        assert gap.can_start_today == (not gap.waits_for)


@settings(deadline=None, max_examples=100)
@given(programmes(), st.integers(0, 400))
def test_the_deadline_can_be_met_exactly_when_nothing_is_late(made, days):
    criteria, evidence, _ = made
    found = report(criteria, evidence, ON, certificate_day=ON + timedelta(days=days))
    assert found.feasible == (not any(gap.late for gap in found.gaps))
