"""An invented exercise with any of its fields filled goes through YAML and back and is the same (a property)."""

from fractions import Fraction

import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from app.files.repertoire import edition_from_documents, edition_texts
from curriculum.repertoire.comparing import compare_editions
from curriculum.repertoire.exercise import FAMILIES, LEVERS, WEIGHTS
from tests.curriculum.repertoire.cast import edition, exercise, series, shared

# Whatever a teacher types, in one line: reading makes several blanks one, so that is no loss.
WORDS = st.text(
    st.characters(codec="utf-8", exclude_categories=("Cc", "Cs", "Cf", "Zl", "Zp", "Cn", "Co")), min_size=1, max_size=40
).map(lambda text: " ".join(text.split()) or "x")
IDS = st.from_regex(r"[a-z0-9][a-z0-9.-]{0,12}", fullmatch=True)
LEVELS = st.sampled_from(["basic", "intermediate", "advanced"])


def each(**fields: st.SearchStrategy) -> st.SearchStrategy:
    return st.lists(st.fixed_dictionaries(fields), min_size=1, max_size=3)


STEPS = st.lists(
    st.fixed_dictionaries({"id": IDS, "changes": st.sampled_from(LEVERS), "does": WORDS}),
    min_size=1, max_size=3, unique_by=lambda one: one["id"],
)  # fmt: skip
FIELDS = st.fixed_dictionaries(
    {"id": st.just("a"), "name": WORDS, "level": LEVELS, "repetitions": st.sampled_from(["10", "3-5", "5 each side", "3 sets of 5", "10 breaths"]),
     "families": st.lists(st.sampled_from(FAMILIES), min_size=1, max_size=3, unique=True)},
    optional={
        "aim": WORDS,
        "source": WORDS,
        "worth": st.integers(1, 9).map(str),
        "spot": st.sampled_from(["yes", "no"]),
        "spotting": WORDS,
        "confirm": st.lists(st.sampled_from(["place", "repetitions", "level"]), min_size=1, max_size=3, unique=True),
        "set_up": st.fixed_dictionaries(
            {"springs": st.sampled_from(["4", "1-3", "all"])},
            optional={"foot_bar": st.sampled_from(["up", "down"]), "body": WORDS, "checks": st.lists(WORDS, min_size=1, max_size=3)},
        ),
        "mount": each(way=WORDS),
        "dismount": each(way=WORDS, level=LEVELS),
        "cues": each(say=WORDS),
        "faults": st.lists(
            st.fixed_dictionaries({"id": IDS, "sees": WORDS, "cause": WORDS, "correct": WORDS, "weight": st.sampled_from(WEIGHTS)}),
            min_size=1, max_size=3, unique_by=lambda one: one["id"],
        ),
        "progressions": STEPS,
        "adaptations": each(when=WORDS, change=WORDS, why=WORDS),
        "cautions": st.lists(st.sampled_from(["pregnancy", "knee"]), min_size=1, max_size=2, unique=True),
        "transitions": each(to=st.just("b"), seconds=st.integers(0, 90).map(str), steps=st.lists(WORDS, min_size=1, max_size=3)),
        "lineages": each(lineage=WORDS, name=WORDS),
    },
)  # fmt: skip
RHYTHMS = st.one_of(
    st.fixed_dictionaries({"seconds": st.fractions(Fraction(1, 2), 60, max_denominator=8).map(lambda one: f"{float(one):g}")}),
    st.fixed_dictionaries({"tempo": st.sampled_from(["3 out, 3 in", "1 up, 5 down"]), "beats": st.integers(30, 120).map(str)}),
)  # fmt: skip


@given(FIELDS, RHYTHMS)
@settings(max_examples=150, deadline=None)
def test_an_edition_written_and_read_again_teaches_the_same(fields: dict, rhythm: dict) -> None:
    texts = {
        "edition.yaml": yaml.safe_dump(shared(), allow_unicode=True),
        "all.yaml": yaml.safe_dump(series({**fields, **rhythm}, exercise("b")), allow_unicode=True),
    }
    first = edition_from_documents(texts)
    again = edition_from_documents(edition_texts(first))
    assert compare_editions(first, again).same
    assert again == first


def test_the_property_would_notice_a_loss() -> None:
    """The comparison is not blind: another name is told."""
    assert not compare_editions(edition(exercise("a")), edition(exercise("a", name="Other"))).same
