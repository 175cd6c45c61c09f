"""Lengths are worked by hand from the values in each test."""

import re
from datetime import date
from types import SimpleNamespace

from curriculum.repertoire.tempo import tempo_from

from .page import line, part


def spans(picture: str, kind: str) -> list[tuple[float, float]]:
    drawn = re.sub(r'<svg class="key".*?</svg>', "", picture, flags=re.DOTALL)
    found = re.findall(rf'<line class="{kind}" x1="([\d.]+)%?" x2="([\d.]+)%"', drawn)
    return [(float(start), float(end)) for start, end in found]


def cohort(*lines: SimpleNamespace) -> str:
    scale = SimpleNamespace(
        starts=date(2026, 1, 1),
        ends=date(2028, 3, 11),
        today=date(2026, 7, 20),
        today_text="20 Jul 2026",
        ticks=[(date(2026, 1, 1), "Jan 2026")],
    )
    return part("trainee_line", "cohort_lines", lines, scale)


def steps(*lengths: int) -> list[SimpleNamespace]:
    kinds = ("exercise", "gap")
    return [
        SimpleNamespace(
            kind=kinds[place % 2],
            name=f"Step {place}",
            seconds=seconds,
            start_text="",
            length_text="",
            note="",
        )
        for place, seconds in enumerate(lengths)
    ]


def plan(asked: int, *lengths: int) -> str:
    made = SimpleNamespace(
        title="Basic",
        seconds=sum(lengths),
        asked_seconds=asked,
        length_text="",
        asked_text="",
        steps=steps(*lengths),
    )
    return part("plan_line", "plan_line", made)


def test_the_ink_is_the_share_credited_and_the_ticks_follow_it():
    picture = part("trainee_line", "trainee_line", line())
    assert spans(picture, "credited") == [(0, 30)]
    assert spans(picture, "waiting") == [(30, 40)]


def test_today_stands_where_the_calendar_stands():
    assert spans(part("trainee_line", "trainee_line", line()), "today") == [(50, 50)]


def test_more_than_is_needed_does_not_draw_past_the_end():
    picture = part("trainee_line", "trainee_line", line(credited=9000))
    assert spans(picture, "credited") == [(0, 100)]
    assert spans(picture, "waiting") == []


def test_waiting_is_drawn_only_as_far_as_what_is_needed():
    assert spans(part("trainee_line", "trainee_line", line(waiting=9000)), "waiting") == [(30, 100)]


def test_nothing_needed_is_a_line_full_of_ink():
    assert spans(
        part("trainee_line", "trainee_line", line(needed=0, credited=0, waiting=0)),
        "credited",
    ) == [(0, 100)]


def test_a_forecast_past_the_window_is_dotted_and_the_window_gives_way():
    late = line(forecast=date(2027, 5, 16), forecast_text="16 May 2027")
    picture = part("trainee_line", "trainee_line", late)
    assert spans(picture, "late") == [(80, 100)]
    assert spans(picture, "credited") == [(0, 24)]
    assert "Forecast: 16 May 2027." in picture


def test_a_forecast_far_away_takes_at_most_half_a_window_more():
    late = line(forecast=date(2040, 1, 1), forecast_text="1 Jan 2040")
    assert spans(part("trainee_line", "trainee_line", late), "late") == [(66.67, 100)]


def test_a_cohort_shares_one_scale_of_time():
    later = line(enrolled=date(2027, 2, 5), ends=date(2028, 3, 11), today=date(2026, 7, 20))
    picture = cohort(line(), later)
    assert spans(picture, "credited") == [(0, 15), (50, 65)]
    assert spans(picture, "today") == [(25, 25), (25, 25)]


def test_every_line_says_in_words_what_it_draws():
    picture = cohort(line(), line(name="Bram Sele"))
    assert picture.count('role="img"') == picture.count("<title>") == picture.count("<desc>") == 2
    assert "Bram Sele: 30 h of 100 h credited" in picture
    assert "State: Behind plan." in picture
    assert picture.count("<details") == 1


def test_a_plan_leaves_its_gaps_open():
    assert spans(plan(1000, 400, 200, 400), "credited") == [(0, 40), (60, 100)]


def test_what_runs_over_the_session_is_ticked():
    picture = plan(800, 400, 200, 400)
    assert spans(picture, "credited") == [(0, 40), (60, 80)]
    assert spans(picture, "waiting") == [(80, 100)]


def test_an_exercise_wholly_after_the_end_has_no_ink():
    picture = plan(500, 400, 200, 400)
    assert spans(picture, "credited") == [(0, 40)]
    assert spans(picture, "waiting") == [(60, 100)]


def test_a_plan_without_time_is_still_drawn():
    assert "<svg" in plan(0)


def test_the_rhythm_takes_the_tempo_as_it_is():
    picture = part(
        "rhythm",
        "rhythm",
        "Leg lowers",
        tempo_from("4 × (3 down, 3 up) + 3 × (3 down, 1 up)"),
        1,
        "",
    )
    assert spans(picture, "credited") == [(0, 50), (0, 75)]
    assert spans(picture, "to-do") == [(50, 100), (75, 100)]
    assert "4 ×" in picture
    assert "3 down, 1 up" in picture


def test_a_rhythm_for_any_number_shows_the_repetitions_given():
    assert "10 ×" in part("rhythm", "rhythm", "Toes", tempo_from("3 out, 3 in"), 10, "")
