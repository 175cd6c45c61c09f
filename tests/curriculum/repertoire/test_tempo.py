"""Counts and seconds; the figures are common practice: one count a second, three out and three in."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from curriculum.repertoire.tempo import Bout, Phase, Repetitions, Tempo, repetitions_from, seconds_of, tempo_from

TENDON_STRETCH = "4 × (3 down, 3 up) + 3 × (3 down, 1 up) + 3 × (1 down, 3 up)"


def seconds(tempo: str, repetitions: str, beats: int = 60):
    return seconds_of(tempo_from(tempo), repetitions_from(repetitions), beats)


def test_ten_repetitions_of_three_out_and_three_in_take_a_minute():
    assert seconds("3 out, 3 in", "10") == 60  # common practice


def test_the_changing_rhythm_of_the_tendon_stretch_takes_48_seconds():
    assert seconds(TENDON_STRETCH, "10") == 4 * (3 + 3) + 3 * (3 + 1) + 3 * (1 + 3) == 48  # common practice


def test_a_hundred_arm_beats_are_ten_breaths_of_five_and_five():
    assert seconds("5 in, 5 out", "10 breaths") == 100  # Pilates and Miller 1945: 100 beats, five in and five out


def test_twice_as_many_beats_a_minute_take_half_the_time():
    assert seconds("3 out, 3 in", "10", beats=120) == 30


def test_each_side_and_each_way_double():
    assert repetitions_from("5 each way each leg").total == 20


def test_sets_multiply():
    assert repetitions_from("3 sets of 4-6").total == 18


def test_a_plan_counts_the_higher_number():
    assert repetitions_from("8–10").total == 10


@pytest.mark.parametrize(
    "text", ["", "ten", "0", "5-3", "5 each", "5 each side each side", "3 sets", "-3", "5 each tail"]
)
def test_what_is_not_repetitions_is_told_apart(text):
    assert repetitions_from(text) is None


@pytest.mark.parametrize(
    "text", ["", "3", "out", "0 out", "3 out 3 in", "4 × 3 out", "0 × (3 out)", "3 out,", "(3 out)"]
)
def test_what_is_not_a_tempo_is_told_apart(text):
    assert tempo_from(text) is None


PHASES = st.lists(
    st.builds(Phase, st.integers(1, 60), st.sampled_from(["out", "in", "way down"])), min_size=1, max_size=4
)
BOUTS = st.lists(st.builds(Bout, st.integers(1, 50), PHASES.map(tuple)), min_size=1, max_size=4)


@given(st.one_of(PHASES.map(lambda one: Tempo((Bout(None, tuple(one)),))), BOUTS.map(lambda one: Tempo(tuple(one)))))
def test_a_tempo_is_read_as_it_is_written(tempo):
    assert tempo_from(str(tempo)) == tempo


@given(
    st.integers(1, 100),
    st.integers(0, 100),
    st.lists(st.sampled_from(["side", "way", "leg"]), unique=True).map(tuple),
    st.integers(1, 9),
    st.sampled_from(["", "breaths", "pairs"]),
)
def test_repetitions_are_read_as_they_are_written(fewest, more, each, sets, unit):
    repetitions = Repetitions(fewest, fewest + more, each, sets, unit)
    assert repetitions_from(str(repetitions)) == repetitions
