"""The form of a session plan: settings and the row of exercises as typed, and what the pressed button does to it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from app.web.typed import typed_text, whole_number
from curriculum.faults import N_, Fault, RefusedError
from curriculum.fields import NUMBER
from curriculum.repertoire.edition import Edition
from curriculum.repertoire.exercise import BAR_LOCKS
from curriculum.sessions.plan import LONGEST, Plan
from curriculum.sessions.plan_builder import Wish, build_plan

MOST_EXERCISES = 120
LONGEST_TITLE = 80
TEXTS = ("title", "level", "minutes", "factor", "intake", "close", "foot_bar")


@dataclass(frozen=True, slots=True)
class PlanForm:
    """A plan as typed; `do` is the button that was pressed."""

    title: str = ""
    level: str = ""
    minutes: str = "55"
    factor: str = ""
    intake: str = ""
    close: str = ""
    foot_bar: str = ""
    client: tuple[str, ...] = ()
    apparatus: tuple[str, ...] = ()
    exercises: tuple[str, ...] = ()
    add: str = ""
    do: str = "keep"
    version: int = 0

    @classmethod
    def typed(cls, form: Mapping[str, Sequence[str]]) -> "PlanForm":
        """The form as it was sent."""
        return cls(
            **{name: typed_text(form, name) for name in TEXTS},
            client=tuple(form.get("client", ())),
            apparatus=tuple(form.get("apparatus", ())),
            exercises=tuple(form.get("exercises", ())),
            add=typed_text(form, "add"),
            do=typed_text(form, "do") or "keep",
            version=whole_number(typed_text(form, "version")),
        )

    @classmethod
    def of(cls, plan: Plan, edition: Edition, version: int) -> "PlanForm":
        """The form that shows a plan; a proposal stays on the apparatus that it is on."""
        used = {one.apparatus for one in edition.exercises if one.id in plan.exercises}
        apparatus = tuple(one.id for one in edition.apparatus if one.id in used)
        number = "" if plan.factor == 1 else f"{float(plan.factor):g}"
        minutes = "" if plan.minutes is None else str(plan.minutes)
        times = [str(seconds // 60) if seconds else "" for seconds in (plan.intake, plan.close)]
        return cls(
            plan.title,
            plan.level,
            minutes,
            number,
            *times,
            plan.foot_bar,
            plan.client,
            apparatus,
            plan.exercises,
            version=version,
        )

    def plan(self, edition: Edition) -> Plan:
        """The plan that results from form and button; refuses what can't be read, all at once."""
        faults: list[Fault] = []
        known = {one.id for one in edition.exercises}
        exercises = tuple(id for id in self._moved(faults, known) if id in known)
        minutes = self._whole("minutes", 1, LONGEST, faults) if self.minutes else None
        intake, close = (
            self._whole(name, 0, 120, faults) if getattr(self, name) else 0 for name in ("intake", "close")
        )
        factor = Fraction(self.factor.replace(",", ".")) if NUMBER.fullmatch(self.factor.replace(",", ".")) else None
        if self.factor and (factor is None or not 1 <= factor <= 10):
            faults.append(Fault("not-a-factor", N_("a number from 1 to 10"), field="factor"))
        if len(self.title) > LONGEST_TITLE:
            faults.append(Fault("too-long", N_("keep this under {most} letters"), {"most": LONGEST_TITLE}, "title"))
        if len(exercises) > MOST_EXERCISES:
            faults.append(Fault("too-many", N_("at most {most} exercises"), {"most": MOST_EXERCISES}, "add"))
        if faults:
            raise RefusedError(faults)
        plan = Plan(
            exercises, " ".join(self.title.split()), self._one(self.level, [one.id for one in edition.levels]),
            tuple(one.code for one in edition.cautions if one.code in self.client), factor or Fraction(1),
            intake * 60, close * 60, minutes, self._one(self.foot_bar, BAR_LOCKS),
        )  # fmt: skip
        return self._proposed(plan, edition) if self.do == "propose" else plan

    def _moved(self, faults: list[Fault], known: set[str]) -> tuple[str, ...]:
        """The row after the pressed button: `up-3`, `down-3`, `out-3`, `add`."""
        row = list(self.exercises)
        what, _, place = self.do.partition("-")
        at = whole_number(place)
        if what == "add":
            if self.add not in known:
                faults.append(Fault("nothing-chosen", N_("choose an exercise"), field="add"))
            row.append(self.add)
        elif what == "out" and 0 <= at < len(row):
            row.pop(at)
        elif what in ("up", "down") and 0 <= at < len(row):
            other = at - 1 if what == "up" else at + 1
            if 0 <= other < len(row):
                row[at], row[other] = row[other], row[at]
        return tuple(row)

    def _proposed(self, plan: Plan, edition: Edition) -> Plan:
        """The best selection for the settings, in place of the row; title and settings stay."""
        if plan.minutes is None:
            raise RefusedError([Fault("no-minutes", N_("say how many minutes there are"), field="minutes")])
        if not plan.level:
            raise RefusedError([Fault("no-level", N_("choose the highest level"), field="level")])
        apparatus = tuple(one.id for one in edition.apparatus if one.id in self.apparatus)
        wish = Wish(
            plan.minutes, plan.level, plan.client, plan.factor, plan.intake, plan.close, plan.foot_bar, apparatus
        )
        return replace(plan, exercises=build_plan(edition, wish).plan.exercises)

    def _whole(self, name: str, low: int, high: int, faults: list[Fault]) -> int:
        text = getattr(self, name)
        if text.isascii() and text.isdecimal() and len(text) < 6 and low <= int(text) <= high:
            return int(text)
        sentence = N_("a whole number from {low} to {high}")
        faults.append(Fault("not-whole", sentence, {"low": low, "high": high}, name))
        return low

    def _one(self, value: str, allowed: Sequence[str]) -> str:
        return value if value in allowed else ""
