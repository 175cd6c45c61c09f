"""The second-marking sample. Its shares are common practice; SHA-256 is FIPS 180-4."""

from datetime import date
from fractions import Fraction

from assessments.practicals.deciding import sample_reasons
from assessments.practicals.result import Recommendation
from assessments.practicals.sample import changed, first_exams, first_result, lot
from tests.assessments.practicals.cast import level_sheet, practical

MADE = practical({"one": 100}, {"c": 100}, lowest=0, highest=20, band={"marks": 5})


def test_a_number_is_the_head_of_a_published_digest():
    # SHA-256 of one blank, as sha256sum of coreutils gives it.
    assert lot("", "") == 0x36A9E7F1C95B8 / 16**13


def test_a_tenth_is_about_a_tenth():
    # 2000 exams at a tenth: 200 expected, standard deviation 13.4; four of them either side.
    drawn = sum(lot("a seed", f"exam-{number}") < 0.1 for number in range(2000))
    assert 146 <= drawn <= 254


def test_an_examiners_first_exam_is_the_first_of_which_they_sent_a_sheet():
    when = {"x": (date(2026, 3, 1), 600), "y": (date(2026, 3, 1), 700), "z": (date(2026, 3, 2), 500)}
    sent = {"z": {"ada", "bo"}, "x": {"ada"}, "y": {"bo"}}
    assert first_exams(sent, when) == {"x", "y"}


def test_the_first_sheets_say_what_is_sampled_and_the_further_one_what_changes():
    first = (level_sheet(MADE, "a", 16), level_sheet(MADE, "b", 16))
    # 80 lies on the edge of 5 marks about 75
    assert sample_reasons(MADE.sample, first_result(MADE, first), False, 1) == ("inside-band",)
    assert changed(MADE, first) is None
    # with 10 the three average 70: fail; with 16 they stay at 80: pass
    low = changed(MADE, (*first, level_sheet(MADE, "c", 10, second_marking=True)))
    assert (low.before, low.after, low.differs) == (Recommendation.SECOND_MARKING, Recommendation.FAIL, True)
    clear = (level_sheet(MADE, "a", 18), level_sheet(MADE, "b", 18))
    same = changed(MADE, (*clear, level_sheet(MADE, "c", 17, second_marking=True)), Fraction(1))
    assert (same.after, same.differs) == (Recommendation.PASS, False)
