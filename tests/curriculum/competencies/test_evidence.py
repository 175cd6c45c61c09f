"""What evidence shows: cases worked by hand from the rule in the docstring of `curriculum.competencies.evidence`.

The rule is this project's own (a school's statement of it), so the cases are worked from its sentences, one each.
"""

from datetime import date
from fractions import Fraction

import pytest

from curriculum.competencies.evidence import (
    Evidence,
    NotedSession,
    ScoredPart,
    ScoredStrand,
    ShownActivity,
    ShownStrand,
    counting,
    coverage_of,
    evidence_of_practical,
    evidence_of_session,
)
from curriculum.competencies.notes import NotedExercise, NotedFault

MONDAY, TUESDAY, FRIDAY = date(2026, 3, 2), date(2026, 3, 3), date(2026, 3, 6)
ORDER = {"hundred": "circles", "circles": "frog", "frog": ""}
MENDED = NotedFault("chin", ("correction",))
EASED = NotedFault("chin", ("step-head-down",))


def session(day: date, activity: str, *lines: NotedExercise, state: str = "signed_off", host: str = "Greta") -> list:
    return list(evidence_of_session(NotedSession(day, state, (activity,), lines, host), ORDER.get))


def line(activity: str, exercise: str = "hundred", cues: tuple = (), faults: tuple = ()) -> NotedExercise:
    return NotedExercise(activity, exercise, cues, faults)


def grounds(*evidence: Evidence, exercise: str = "hundred") -> dict[str, str]:
    shown = coverage_of(exercise, evidence)
    return {one.strand: one.ground for one in shown.strands if one.ground != "none"}


@pytest.mark.parametrize(
    ("activity", "state", "standing"),
    [
        ("observation", "signed_off", "covered"),
        ("observation", "accepted", "covered"),
        ("observation", "registered", "covered"),
        ("observation", "attested", "open"),
        ("observation", "waiting", "waiting"),
        ("observation", "not_sent", "waiting"),
        ("observation", "sent_back", "open"),
        ("observation", "withdrawn", "open"),
        ("self_practice", "attested", "covered"),
        ("assisting", "signed_off", "covered"),
        ("workshop", "registered", "open"),
        ("sailing", "signed_off", "open"),
    ],
)
def test_what_counts_comes_from_the_activity_and_the_sessions_state(activity: str, state: str, standing: str) -> None:
    assert counting(activity, state) == standing


@pytest.mark.parametrize(
    ("activity", "covers"),
    [
        ("observation", "observed"),
        ("self_practice", "practised"),
        ("assisting", "assisted"),
        ("practice_teaching", "taught"),
        ("supervised_teaching", "taught"),
    ],
)
def test_the_activity_word_says_what_is_covered(activity: str, covers: str) -> None:
    shown = coverage_of("hundred", session(MONDAY, activity, line(activity)))
    assert [one for one, state in shown.activities if state.state == "covered"] == [covers]
    assert shown.of(covers) == ShownActivity("covered", 1, MONDAY, "Greta")


def test_two_signed_and_one_waiting_is_covered_twice_on_the_newest_signed_day() -> None:
    evidence = [
        *session(MONDAY, "observation", line("observation")),
        *session(TUESDAY, "observation", line("observation"), host="Oskar"),
        *session(FRIDAY, "observation", line("observation"), state="waiting"),
    ]
    assert coverage_of("hundred", evidence).of("observed") == ShownActivity("covered", 2, TUESDAY, "Oskar")


def test_only_waiting_is_waiting_and_covers_no_strand() -> None:
    evidence = session(FRIDAY, "observation", line("observation", cues=(1,)), state="waiting")
    shown = coverage_of("hundred", evidence)
    assert shown.of("observed") == ShownActivity("waiting", 0, FRIDAY, "Greta")
    assert shown.is_open
    assert grounds(*evidence) == {}


def test_a_note_whose_activity_the_corrected_session_no_longer_has_says_nothing() -> None:
    noted = NotedSession(MONDAY, "signed_off", ("observation",), (line("practice_teaching"),), "Greta")
    assert list(evidence_of_session(noted, ORDER.get)) == []


def test_watching_notices_what_was_ticked_and_nothing_else() -> None:
    assert grounds(*session(MONDAY, "observation", line("observation"))) == {}
    cues = session(MONDAY, "observation", line("observation", cues=(2,)))
    assert grounds(*cues) == {"cue": "noticed"}
    both = session(MONDAY, "assisting", line("assisting", cues=(2,), faults=(NotedFault("chin"),)))
    assert grounds(*both) == {"cue": "noticed", "see-and-correct": "noticed"}


def test_teaching_tries_the_set_up_and_what_the_ticks_say() -> None:
    def taught(**ticks: tuple) -> dict[str, str]:
        return grounds(*session(MONDAY, "practice_teaching", line("practice_teaching", **ticks)))

    assert taught() == {"set-up": "tried"}
    assert taught(cues=(1,)) == {"set-up": "tried", "cue": "tried"}
    assert taught(faults=(NotedFault("chin"),)) == {"set-up": "tried"}, "seen, but not mended"
    assert taught(faults=(MENDED,)) == {"set-up": "tried", "see-and-correct": "tried"}
    assert taught(faults=(EASED,)) == {"set-up": "tried", "see-and-correct": "tried", "adapt": "tried"}


def test_teaching_the_one_that_follows_too_tries_the_transition_of_the_first() -> None:
    evidence = session(MONDAY, "practice_teaching", *(line("practice_teaching", one) for one in ("hundred", "circles")))
    assert grounds(*evidence) == {"set-up": "tried", "transition": "tried"}
    assert grounds(*evidence, exercise="circles") == {"set-up": "tried"}


def test_a_signature_of_the_supervising_teacher_is_the_higher_ground() -> None:
    evidence = [
        *session(FRIDAY, "practice_teaching", line("practice_teaching")),
        *session(MONDAY, "supervised_teaching", line("supervised_teaching"), host="Vida"),
    ]
    (set_up, *_) = coverage_of("hundred", evidence).strands
    assert set_up == ShownStrand("set-up", "supervised", 1, MONDAY, "Vida")
    alone = session(MONDAY, "supervised_teaching", line("supervised_teaching"), host="")
    assert grounds(*alone) == {"set-up": "tried"}, "accepted without a host: nobody supervised on record"


def part(day: date, share: Fraction, reached: bool) -> list[Evidence]:
    scored = ScoredPart(day, "Piet, Runa", ("hundred", "hundred", "frog"), (ScoredStrand("cue", share, reached),))
    return list(evidence_of_practical([scored]))


def test_a_practical_assesses_every_exercise_set_in_its_part_once() -> None:
    evidence = part(MONDAY, Fraction(3, 4), True)
    assert coverage_of("hundred", evidence).of("assessed") == ShownActivity("covered", 1, MONDAY, "Piet, Runa")
    assert coverage_of("frog", evidence).of("assessed").state == "covered"
    assert coverage_of("circles", evidence).is_open


def test_of_two_practicals_the_newest_speaks_not_the_best() -> None:
    evidence = [*part(MONDAY, Fraction(3, 4), True), *part(FRIDAY, Fraction(1, 2), False)]
    cue = next(one for one in coverage_of("hundred", evidence).strands if one.strand == "cue")
    assert cue == ShownStrand("cue", "assessed", 2, FRIDAY, "Piet, Runa", Fraction(1, 2), False)


def test_assessed_is_the_highest_ground_whatever_came_later() -> None:
    later = session(FRIDAY, "supervised_teaching", line("supervised_teaching", cues=(1,)))
    assert grounds(*part(MONDAY, Fraction(1, 2), False), *later)["cue"] == "assessed"


def test_feedback_of_a_supervising_teacher_is_of_the_fourth_ground_and_covers_no_activity() -> None:
    feedback = Evidence("hundred", None, MONDAY, True, "Vida", supervised=True, strands=("adapt",))
    shown = coverage_of("hundred", [feedback])
    assert grounds(feedback) == {"adapt": "supervised"}
    assert shown.is_open
