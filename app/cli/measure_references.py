"""`throughline measure references FOLDER`: every open reference value beside the value computed here."""

import argparse
import io
import json
import re
import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import redirect_stdout
from pathlib import Path

from app.cli import measure as MEASURE
from app.cli import reference_values_direct as direct
from app.cli.measure_options import plain
from app.cli.reference_cases import CASES as TABLES
from app.cli.reference_cases_models import CASES as MODELS
from app.cli.speaking import spoken
from app.wording.references import reference_sentences, reference_table
from assessments.measurement.reference_value import NOT_COMPUTED, ReferenceValue, why_not
from curriculum.faults import N_, Fault, RefusedError

EXPECTED = "expected_open.json"
# Where the list's makers keep a program or fetched it tells a reader nothing.
FOUND_WHERE = re.compile(r" \((scripts|PyPI)[^()]*\)")


def add_to(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("folder", metavar="FOLDER", type=Path, help=f"the folder with {EXPECTED} and its tables")
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="answer in JSON")
    form.add_argument("--markdown", action="store_true", help="answer as a table in Markdown")
    parser.set_defaults(act=measure)


def measure(options: argparse.Namespace) -> int:
    """Compute and compare; the exit status is 2 when a value differs by more than its tolerance."""
    values = list(reference_values(options.folder))
    if options.json:
        print(json.dumps(plain([_row(value) for value in values]), indent=1, ensure_ascii=False))
    else:
        say = reference_table if options.markdown else reference_sentences
        print("\n".join(say(values, spoken())))
    return 0 if not any(value.differs for value in values) else 2


def reference_values(folder: Path) -> Iterator[ReferenceValue]:
    """Every value of the folder's list in its order; `RefusedError` when the list can't be read."""
    entries = _entries(folder)
    found, near = _computed(folder)
    for entry in entries:
        name = entry["id"]
        for key, value in entry["values"].items():
            tolerance = max(near.get((name, key), 0.0), value.get("suggested_tolerance") or 1e-6)
            computed = found.get((name, key), NOT_COMPUTED)
            published, by = value.get("published"), FOUND_WHERE.sub("", value["recomputed"][0]["by"])
            yield ReferenceValue(name, key, value["expected"], computed, tolerance, published, by, why_not(name, key))


def _entries(folder: Path) -> Sequence[Mapping[str, object]]:
    path = folder / EXPECTED
    try:
        return json.loads(path.read_text(encoding="utf-8"))["entries"]
    except (OSError, ValueError, KeyError, TypeError) as error:
        sentence = N_("can't be read: {problem}")
        raise RefusedError([Fault("unreadable", sentence, {"problem": error}, EXPECTED, None, str(path))]) from error


def _computed(folder: Path) -> tuple[dict[tuple[str, str], object], dict[tuple[str, str], float]]:
    found: dict[tuple[str, str], object] = {}
    near: dict[tuple[str, str], float] = {}

    def keep(entry: str, values: Mapping[str, object]) -> None:
        found.update({(entry, key): value for key, value in values.items()})

    for case in (*TABLES, *MODELS):
        print(f"{case.entry} …", file=sys.stderr, flush=True)
        answer = answered(folder, case.words)
        keep(case.entry, {key: read(answer) for key, read in case.reads.items()})
        near |= {(case.entry, key): tolerance for key, tolerance in case.near.items()}
        if case.entry in ("mfrm_small_rsm", "mfrm_small_pcm") and answer["estimator"] == "marginal":
            keep(case.entry, direct.recovery(folder, case.entry, answer))
    keep("peng_subkoviak_normal_table", direct.normal_table())
    keep("stanislaw_todorov_1999", direct.detection_example())
    keep("macmillan_creelman_table", direct.detection_table())
    keep("hofstee_no_solution", direct.no_solution())
    keep("unbalanced_pxr_in_t", direct.uncorrected_sums(folder))
    keep("mfrm_weak_link", direct.within_team(folder))
    keep("ata_12_2forms", direct.assembly(folder))
    return found, near


def answered(folder: Path, words: Sequence[str]) -> Mapping[str, object]:
    """The answer of `throughline measure WORDS … --json`, a word that ends in .csv being a file of the folder."""
    placed = [str(folder / word) if word.endswith(".csv") else word for word in words]
    parser = argparse.ArgumentParser()
    MEASURE.add_to(parser)
    options = parser.parse_args([*placed, "--json"])
    said = io.StringIO()
    with redirect_stdout(said):
        options.act(options)
    return json.loads(said.getvalue())


def _row(value: ReferenceValue) -> dict[str, object]:
    return {
        "entry": value.entry,
        "value": value.key,
        "expected": value.expected,
        "by": value.by,
        "published": value.published,
        "computed": None if value.computed is NOT_COMPUTED else value.computed,
        "tolerance": value.tolerance,
        "agrees": value.agrees,
        "why_not": value.why_not.text() if value.computed is NOT_COMPUTED and value.why_not else None,
    }
