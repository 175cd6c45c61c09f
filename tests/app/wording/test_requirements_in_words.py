"""Requirement sets in words: the sentences of a set known by heart, and no construct of any set left unsaid.

The constructs are taken from the language itself (the fields of its values), not from what the wording knows of: each is
changed in turn, and the words must change with it.
"""

import dataclasses
from collections.abc import Iterator, Mapping
from fractions import Fraction

import pytest
import yaml
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from app.files.requirements import requirements_from_file, requirements_from_text
from app.settings import ROOT
from app.wording.requirements import in_plain_words
from curriculum.requirements.amounts import Share
from curriculum.requirements.requirement_set import PROOFS, RequirementSet
from tests.app.pages.disguise import LOCALE, MADE_HERE, disguise
from tests.assessments.hours.oracle.strategies import requirement_sets

# Where a construct stands in the file, what names it there, and the edition (which stands above the words) are not said.
NOT_SAID = {"line", "id", "edition"}
EVERYTHING = """
title: Everything the language can say
unit: 50 min
counts: [signed_off]
fields: {mode: [live, recorded], room: [north, south]}
window: {months: 1, least_months: 1, extension_months: 1, lapses_after_months: 1}
signing: {within_days: 14, at_once: 50 h, host_day: 12 h}
modules: [{module: workshop-1, missed_at_most: 2}]
categories:
  - id: watching
    title: Watching
    accepts: {activity: observation, mode: [live, recorded]}
    counts: [signed_off, attested, registered, accepted]
    unit: 45 min
    at_least: 40 h
    at_most: 120 %
    of_which:
      - {id: w-mat, title: On the mat, accepts: {apparatus: mat}, at_least: 1/1}
    limits:
      - {id: w-rec, accepts: {mode: recorded}, at_most: 25 %}
      - {id: w-day, per: day, at_most: 90 min}
      - {id: w-week, per: week, accepts: {mode: live}, at_most: 10 % of credited}
      - {id: w-session, per: session, at_most: 2 h}
      - {id: w-host, per: host, accepts: {mode: live}, at_most: 50 % of all-hours}
    variety:
      - {id: w-hosts, of: host, at_least: 1}
      - {id: w-weeks, of: week, at_least: 3, each: 60 min, accepts: {mode: live}}
      - {id: w-rooms, of: room, at_least: 2, each: 5 %}
    credit:
      round_down_to: 15 min
      sessions: [{from: 50 min, to: 60 min, as: 60 min}, {from: 2 h, as: 1 h}]
      weights: [{accepts: {late: yes}, as: 50 %}, {as: 75 %}]
  - {id: free, accepts: {activity: teaching}, at_least: 0 h}
totals:
  - {id: all-hours, title: All hours, of: all, at_least: 100 h}
  - {id: some, of: [watching, free], accepts: {mode: live}, at_least: 1 h}
limits:
  - {id: daily, per: day, at_most: 8 h}
  - {id: remote, accepts: {mode: recorded}, at_most: 30 % of all-hours}
choose: [{id: pick, at_least: 1, among: [watching, free]}]
gates:
  - {id: opens, category: free, when: [{category: watching, accepts: {mode: live}, at_least: 90 min}, {total: all, at_least: 2 h},
     {practical: safety}, {document: insurance}, {module: workshop-1}]}
""".replace("1/1", "33.3 %")


def said(requirements: RequirementSet) -> tuple[str, ...]:
    return in_plain_words(requirements).texts


def sentences(requirements: RequirementSet) -> list[str]:
    found = in_plain_words(requirements)
    return [one.text for part in (found.overall, *(one.sentences for one in found.categories)) for one in part]


def other_values(value: object, name: str) -> Iterator[object]:
    """The same construct with something else in it, or without it."""
    if isinstance(value, bool) or value is None:
        yield {"at_most": Fraction(7), "most": Fraction(999), "round_down_to": Fraction(7)}.get(name, 7)
    elif isinstance(value, Fraction):
        yield value + 7
    elif isinstance(value, int):
        yield value + 1
    elif isinstance(value, str):
        yield from _other_texts(value, name)
    elif isinstance(value, Share):
        yield from (Share(value.part + 1, value.of), Share(value.part, "another"), value.part * 60)
    elif isinstance(value, Mapping):
        yield {**value, "further": ("column",)}
        yield from ({**value, key: (*some, "another")} for key, some in value.items())
        yield from ({one: some for one, some in value.items() if one != key} for key in value)
    elif isinstance(value, tuple):
        yield from _other_lists(value, name)


def _other_texts(value: str, name: str) -> Iterator[str]:
    if name == "kind":
        yield from {"practical", "document", "module", "category", "total"} - {value}
    elif name in ("per", "of"):
        yield from {"day", "week", "session", "host", "further"} - {value}
    elif name == "category":
        yield "another"
    else:
        yield f"{value} or so"


def _other_lists(value: tuple, name: str) -> Iterator[tuple]:
    yield from (value[:place] + value[place + 1 :] for place in range(len(value)) if len(value) > 1 or name == "of")
    if name == "counts":
        yield from ((*value, proof) for proof in PROOFS if proof not in value)
    elif name in ("of", "among"):
        yield (*value, "another")
    for place, one in enumerate(value):
        if dataclasses.is_dataclass(one):
            yield from ((*value[:place], other, *value[place + 1 :]) for other in changed(one))


def changed(value: object) -> Iterator[object]:
    """A value of the language with one construct changed, each in turn."""
    for field in dataclasses.fields(value):
        inner = getattr(value, field.name)
        if field.name in NOT_SAID:
            continue
        some = changed(inner) if dataclasses.is_dataclass(inner) and not isinstance(inner, Share) else None
        for other in some or other_values(inner, field.name):
            yield dataclasses.replace(value, **{field.name: other})


def same_meaning(one: RequirementSet, other: RequirementSet) -> bool:
    """A condition that is a fact has neither minutes nor entries; that such a field changes says nothing."""

    def plain(requirements: RequirementSet) -> RequirementSet:
        gates = tuple(
            dataclasses.replace(gate, when=tuple(_plain(condition) for condition in gate.when))
            for gate in requirements.gates
        )
        return dataclasses.replace(requirements, gates=gates)

    return plain(one) == plain(other)


def _plain(condition):  # noqa: ANN001, ANN202 - a Condition
    if condition.kind in ("practical", "document", "module"):
        return dataclasses.replace(condition, at_least=Fraction(0), accepts={})
    return dataclasses.replace(condition, name="") if condition.kind == "total" else condition


def check(requirements: RequirementSet) -> int:
    """Every construct is said, and no place stays open; how many constructs were changed."""
    before, tried = said(requirements), 0
    assert not [text for text in before if "{" in text or "}" in text or "%(" in text]
    assert all(text.endswith(".") for text in sentences(requirements))
    for other in changed(requirements):
        if same_meaning(requirements, other):
            continue
        tried += 1
        assert said(other) != before, f"left unsaid: {other}"
    return tried


@settings(
    max_examples=60, derandomize=True, database=None, deadline=None, phases=(Phase.explicit, Phase.generate),
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)  # fmt: skip
@given(doc=requirement_sets())
def test_no_construct_of_a_made_up_set_is_left_unsaid(doc: dict) -> None:
    assert check(requirements_from_text(yaml.safe_dump(doc, sort_keys=False), "set.yaml")) > 10


def test_no_construct_of_a_set_with_everything_is_left_unsaid() -> None:
    assert check(requirements_from_text(EVERYTHING, "everything.yaml")) > 150


def test_every_sentence_of_a_set_with_everything_is_translated() -> None:
    language = disguise().of(LOCALE)
    texts = in_plain_words(requirements_from_text(EVERYTHING, "everything.yaml"), language).texts
    own = {"Everything", "the", "language", "can", "say", "Watching", "On", "mat", "All", "hours", "free"}
    own |= {"Teaching", "North", "South", "late", "Yes", "room", "safety", "insurance", "workshop", "some"}
    for text in texts:
        left = {word for piece in MADE_HERE.split(text) for word in piece.replace("-", " ").split()}
        latin = {
            word.strip("“”.,:;()") for word in left if any(letter.isascii() and letter.isalpha() for letter in word)
        }
        assert latin <= own, text


SENTENCES = [
    "The hours are to be done within 18 months of enrolment.",
    "The training takes at least 10 months.",
    "The school may extend the time, by 6 months for each extension.",
    "Time that is older than 36 months lapses and no longer counts.",
    "Over everything together, at least 450 h are needed.",
    "Over everything together, at most 8 h may count on one day.",
    "At least 100 h are needed.",
    "Beyond 140 h, nothing more is credited here.",
    "At least 40 h of it must be time with apparatus “Reformer”.",
    "At most 25 h (25 % of the 100 h asked for here) may count of time with medium “Recorded”.",
    "At most 4 h may count here on one day.",
    "At most 50 h (50 % of the 100 h asked for here) may count here with one and the same host.",
    "The credit is spread over at least 3 different hosts, each with 2 h or more.",
    "At least 9 h of it must be time with apparatus “Mat”.",
    "The credit of time with stage of the client “Beginner” is spread over at least 3 different clients.",
    "Time counts here from the day by which 10 h that can count are done in “Observed teaching” with medium “In the room”.",
    "Time counts here from the day by which 200 h that can count are done, and the document “insurance” is handed in and valid.",
]


@pytest.mark.parametrize("sentence", SENTENCES)
def test_the_seeded_set_reads_as_it_is_written(sentence: str) -> None:
    """Each sentence says a line of seed_data/requirements/comprehensive.yaml, put into words by hand."""
    requirements = requirements_from_file(ROOT / "seed_data" / "requirements" / "comprehensive.yaml")
    assert sentence in said(requirements)


@pytest.mark.parametrize(
    "sentence",
    [
        "An hour is 45 minutes here; times on this page are by the clock.",
        "At least 30 h are needed.",
        "The hours are to be done within 1 month of enrolment.",
        "Beyond 36 h (120 % of the 30 h asked for here), nothing more is credited here.",
        "At least 9 h 59.4 min of it must be time with apparatus “Mat”.",
        "At most 10 % of what is credited here in the end may count in one calendar week of time with medium “In the room”.",
        "At most 50 % of what is credited for “All hours” in the end may count with one and the same host of time with medium"
        " “In the room”.",
        "The credit is spread over at least 1 host.",
        "The credit of time with medium “In the room” is spread over at least 3 different calendar weeks, each with 1 h or more.",
        "The credit is spread over at least 2 different values of “room”, each with 1 h 30 min or more.",
        "Each entry is rounded down to whole steps of 15 min.",
        "An entry of 50 min to 1 h counts as 1 h.",
        "Failing that, an entry of 1 h 30 min or more counts as 1 h.",
        "Of time with “late” “Yes”, 50 % count.",
        "Failing that, 75 % count.",
        "No time of its own is asked for here.",
        "At least 1 of these is to be reached, and the others are free: “Watching”, “free”.",
    ],
)
def test_a_set_with_everything_reads_as_it_is_written(sentence: str) -> None:
    """Put into words by hand; where `h` is 45 minutes, 40 h are 30 by the clock."""
    assert sentence in said(requirements_from_text(EVERYTHING, "everything.yaml"))


@given(minutes=st.integers(1, 100_000), places=st.sampled_from([1, 3, 7]))
@settings(max_examples=50, derandomize=True, database=None, deadline=None)
def test_a_time_reads_back_to_the_hundredth_of_a_minute(minutes: int, places: int) -> None:
    from app.wording.languages import ENGLISH
    from app.wording.requirement_amounts import time_text

    asked = Fraction(minutes, places)
    words = time_text(asked, ENGLISH).replace(",", "").split()
    read = sum(
        Fraction(number) * {"h": 60, "min": 1}[unit] for number, unit in zip(words[::2], words[1::2], strict=True)
    )
    assert abs(read - asked) <= Fraction(1, 200)
