"""What a drawing was made from, as kept (JSON) and as the files that draw the same lists on the command line."""

import csv
import io
import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict

import yaml

from assessments.practicals.bank import BankExercise
from assessments.practicals.drawn_list import Broken, Drawing, DrawnList

Pairs = Mapping[tuple[str, str], float]
FIRST = ("exercise", "difficulty", "minutes", "recently_drawn")


def bank_json(bank: Sequence[BankExercise], pairs: Pairs) -> str:
    """The bank and its transitions, to be kept."""
    rows = [[one.id, one.difficulty, one.minutes, one.recently_drawn, dict(one.fields)] for one in bank]
    return json.dumps({"bank": rows, "pairs": [[a, b, seconds] for (a, b), seconds in pairs.items()]})


def bank_csv(kept: str) -> str:
    """The kept bank as `throughline practicals draw --bank` reads it."""
    rows = json.loads(kept)["bank"]
    names = list(dict.fromkeys(name for *_, fields in rows for name in fields))
    lines = [[id, repr(difficulty), repr(minutes), recent, *(fields.get(name, "") for name in names)]
             for id, difficulty, minutes, recent, fields in rows]  # fmt: skip
    return _csv([[*FIRST, *names], *lines])


def transitions_csv(kept: str) -> str:
    """The kept transitions as `--transitions` reads them."""
    return _csv([["from", "to", "seconds"], *json.loads(kept)["pairs"]])


def specification_yaml(kept: str) -> str:
    """The kept specification as `--specification` reads it."""
    return yaml.safe_dump(json.loads(kept), allow_unicode=True, sort_keys=False)


def drawing_json(drawn: Drawing) -> str:
    """The lists and what is proven of them, to be kept."""
    return json.dumps(asdict(drawn))


def drawing_from(kept: str) -> Drawing:
    """A drawing as it was kept."""
    found = json.loads(kept)
    lists = tuple(DrawnList(**_frozen(one)) for one in found.pop("lists"))
    broken = tuple(Broken(**one) for one in found.pop("broken", ()))
    return Drawing(lists, **_frozen(found), broken=broken)


def _frozen(found: Mapping[str, object]) -> dict[str, object]:
    return {name: tuple(value) if isinstance(value, list) else value for name, value in found.items()}


def _csv(rows: Sequence[Sequence[object]]) -> str:
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows(rows)
    return text.getvalue()
