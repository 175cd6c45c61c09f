"""The form of a drawing: which exams, from which exercises, and what each list must keep."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from app.queries.lists import DrawingChoices
from app.use_cases.drawing_lists import DrawLists
from app.web.typed import typed_text, typed_whole
from curriculum.faults import N_, Fault, RefusedError

NUMBERS = ("tasks", "factor", "each", "minutes", "shared", "tolerance", "family", "recent")
NEEDED = ("tasks", "factor")
FRACTIONS = ("factor", "minutes", "tolerance")
BOUNDS = {"tasks": (1, 60), "factor": (1, 10)}
LONGEST = 400
NUMBER = N_("must be a number from {least} to {most}")


@dataclass(frozen=True, slots=True)
class ListForm:
    """A drawing as typed; `id` is made once with the form."""

    id: str
    practical: str = ""
    part: str = ""
    exams: tuple[str, ...] = ()
    apparatus: tuple[str, ...] = ()
    levels: tuple[str, ...] = ()
    tasks: str = ""
    factor: str = "2.25"
    each: str = ""
    minutes: str = ""
    shared: str = ""
    tolerance: str = ""
    family: str = ""
    recent: str = ""
    reason: str = ""
    relax: tuple[str, ...] = ()

    @classmethod
    def typed(cls, form: Mapping[str, Sequence[str]]) -> "ListForm":
        """The form as it was sent."""
        several = {name: tuple(form.get(name, ())) for name in ("exams", "apparatus", "levels", "relax")}
        single = ("id", "practical", "part", "reason", *NUMBERS)
        return cls(**{name: typed_text(form, name) for name in single}, **several)

    def begun(self, choices: DrawingChoices) -> "ListForm":
        """The form as it begins: exams without a list, every apparatus and level, as many tasks as the part names."""
        apparatus, levels = (tuple(id for id, _ in pairs) for pairs in (choices.apparatus, choices.levels))
        return replace(self, exams=choices.without, apparatus=apparatus, levels=levels, tasks=str(choices.number))

    def request(self) -> DrawLists:
        """The drawing asked for; refuses what can't be read, all at once."""
        faults: list[Fault] = []
        numbers = {name: self._number(name, faults) for name in NUMBERS}
        if not self.exams:
            faults.append(Fault("no-exams", N_("choose at least one exam"), field="exams"))
        for name in ("apparatus", "levels"):
            if not getattr(self, name):
                faults.append(Fault("none-chosen", N_("choose at least one"), field=name))
        if len(self.reason) > LONGEST:
            faults.append(Fault("too-long", N_("keep this under {most} letters"), {"most": LONGEST}, "reason"))
        if not 0 < len(self.id) <= 36:
            faults.append(Fault("no-id", N_("this form is damaged; open the page again")))
        if faults:
            raise RefusedError(faults)
        clauses = _clauses(numbers)
        chosen = (self.exams, self.apparatus, self.levels)
        how = (numbers["factor"], clauses, self.reason.strip(), bool(self.relax))
        return DrawLists(self.id, self.practical, self.part, *chosen, *how)

    def _number(self, name: str, faults: list[Fault]) -> float | None:
        text = getattr(self, name)
        if not text and name not in NEEDED:
            return None
        least, most = BOUNDS.get(name, (0, 600))
        if name not in FRACTIONS:
            return typed_whole(text, name, least, most, faults)
        try:
            number = float(text.replace(",", "."))
            if least <= number <= most:
                return number
        except ValueError:
            pass
        faults.append(Fault("not-a-number", NUMBER, {"least": least, "most": most}, name))
        return None


def _clauses(numbers: Mapping[str, float | None]) -> dict[str, object]:
    """The clauses of a specification, as the command line writes them; what was left open is no clause."""
    clauses: dict[str, object] = {"tasks": numbers["tasks"]}
    for name, key, inner in (
        ("each", "floors", "apparatus"),
        ("minutes", "minutes", "at_most"),
        ("shared", "overlap", "at_most"),
        ("tolerance", "difficulty", "tolerance"),
        ("family", "caps", "family"),
        ("recent", "recently_drawn", "at_most"),
    ):
        if numbers[name] is not None:
            clauses[key] = {inner: numbers[name]}
    return clauses
