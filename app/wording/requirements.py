"""A requirement set in plain words: every construct of its language as one whole sentence."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from app.wording.languages import ENGLISH, Language
from app.wording.requirement_amounts import (
    accepts_text,
    amount_text,
    both,
    counted,
    either,
    field_text,
    quoted,
    share_text,
    time_text,
    values_text,
)
from app.wording.requirement_sentences import CAPS, FACTS, LOGGED, OVERALL, PROOFS, TOTALS, VARIETY
from curriculum.faults import N_
from curriculum.requirements.requirement_set import (
    Cap,
    Category,
    Choice,
    Condition,
    Credit,
    Floor,
    Gate,
    ModuleRule,
    RequirementSet,
    SessionLine,
    Signing,
    Total,
    Variety,
    Weight,
    Window,
)

Titles = Mapping[tuple[str, str], str]


@dataclass(frozen=True, slots=True)
class Said:
    """One construct in words: `kind` names the construct, `id` the rule's or category's own id ("" if it has none)."""

    kind: str
    id: str
    title: str
    text: str


@dataclass(frozen=True, slots=True)
class SaidCategory:
    """A category with its name and a sentence for each of its constructs, its gates among them."""

    id: str
    name: str
    sentences: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class SaidSet:
    """A whole set in words: what holds for all of it, then each category."""

    title: str
    overall: tuple[Said, ...]
    categories: tuple[SaidCategory, ...]

    @property
    def texts(self) -> tuple[str, ...]:
        """Every title and sentence, in order."""
        said = [*self.overall]
        found = [self.title]
        for one in self.categories:
            said += one.sentences
            found.append(one.name)
        return (*found, *(text for one in said for text in (one.title, one.text)))


def in_plain_words(requirements: RequirementSet, language: Language = ENGLISH, titles: Titles | None = None) -> SaidSet:
    """Every construct of a set as a sentence; `titles` are those of practicals, documents and modules by (kind, id)."""
    names = {one.id: one.name for one in requirements.categories}
    names |= {one.id: one.title or one.id for one in requirements.rules()}
    says = _Saying(requirements, language, names, titles or {})
    categories = tuple(SaidCategory(one.id, one.name, tuple(says.category(one))) for one in requirements.categories)
    return SaidSet(requirements.title, tuple(says.overall()), categories)


class _Saying:
    """Says the constructs of one set in one language."""

    def __init__(
        self, requirements: RequirementSet, language: Language, names: Mapping[str, str], titles: Titles
    ) -> None:
        self.requirements, self.language, self.names, self.titles = requirements, language, names, titles

    def overall(self) -> Iterator[Said]:
        """What holds for the whole set."""
        yield from self._window(self.requirements.window)
        yield from self._signing(self.requirements.signing)
        yield from (self._module(one) for one in self.requirements.modules)
        yield from (self._total(one) for one in self.requirements.totals)
        yield from (self._cap("limit", one, OVERALL, Fraction(0)) for one in self.requirements.limits)
        yield from (self._choice(one) for one in self.requirements.choose)
        for name, values in self.requirements.fields.items():
            shown = either(values_text(name, values, self.language), self.language)
            sentence = N_("Only these values can occur for {field}: {values}.")
            yield self._said("field", name, sentence, field=field_text(name, self.language), values=shown)
        if self.requirements.unit != 60:
            yield self._unit(
                self.language.ngettext(
                    "Where the set says “h” over everything together, it means {number} minute; times here are by the clock.",
                    "Where the set says “h” over everything together, it means {number} minutes; times here are by the clock.",
                    self.requirements.unit,
                )
            )

    def category(self, one: Category) -> Iterator[Said]:
        """A category, its rules and its gates."""
        need, what = time_text(one.at_least, self.language), accepts_text(one.accepts, self.language)
        if one.at_least:
            yield self._said("need", one.id, N_("At least {time} are needed."), time=need)
        else:
            yield self._said("need", one.id, N_("No time of its own is asked for here."))
        yield self._said("accepts", one.id, N_("It takes time with {what}."), what=what)
        proofs = either([self.language(PROOFS[proof]) for proof in one.counts], self.language)
        yield self._said("counts", one.id, N_("Time counts once it is {proofs}."), proofs=proofs)
        if one.unit != 60:
            yield self._unit(
                self.language.ngettext(
                    "An hour is {number} minute here; times on this page are by the clock.",
                    "An hour is {number} minutes here; times on this page are by the clock.",
                    one.unit,
                )
            )
        if one.at_most is not None:
            amount = amount_text(one.at_most, one.at_least, self.names, self.language)
            yield self._said("at_most", one.id, N_("Beyond {amount}, nothing more is credited here."), amount=amount)
        yield from (self._floor(floor) for floor in one.of_which)
        yield from (self._cap("limit", cap, CAPS, one.at_least) for cap in one.limits)
        yield from (self._variety(rule, one.at_least) for rule in one.variety)
        yield from self._credit(one.credit)
        yield from (self._gate(gate) for gate in self.requirements.gates if gate.category == one.id)

    def _said(self, kind: str, id: str, sentence: str, title: str = "", /, **values: object) -> Said:
        return Said(kind, id, title, self.language(sentence, **values))

    def _unit(self, text: str) -> Said:
        return Said("unit", "", "", text)

    def _floor(self, one: Floor) -> Said:
        time, what = time_text(one.at_least, self.language), accepts_text(one.accepts, self.language)
        sentence = (
            N_("At least {time} of it must be time with {what}.") if what else N_("At least {time} of it are needed.")
        )
        return self._said("of_which", one.id, sentence, one.title, time=time, what=what)

    def _cap(self, kind: str, one: Cap, sentences: Mapping[tuple[str, bool], str], need: Fraction) -> Said:
        per = one.per if one.per in ("", "day", "week", "session") else "value"
        values = {
            "amount": amount_text(one.at_most, need, self.names, self.language),
            "what": accepts_text(one.accepts, self.language),
            "field": field_text(one.per, self.language) if per == "value" else "",
        }
        return self._said(kind, one.id, sentences[per, bool(one.accepts)], one.title, **values)

    def _variety(self, one: Variety, need: Fraction) -> Said:
        values = {
            "number": counted(one.of, one.at_least, self.language),
            "each": amount_text(one.each, need, self.names, self.language),
            "what": accepts_text(one.accepts, self.language),
        }
        sentence = VARIETY[one.each != 1, bool(one.accepts)]
        return self._said("variety", one.id, sentence, one.title, **values)

    def _credit(self, one: Credit) -> Iterator[Said]:
        for number, line in enumerate(one.sessions):
            yield self._session_line(line, number == 0)
        if one.round_down_to is not None:
            step = time_text(one.round_down_to, self.language)
            yield self._said("rounding", "", N_("Each entry is rounded down to whole steps of {time}."), time=step)
        for number, weight in enumerate(one.weights):
            yield self._weight(weight, number == 0)

    def _session_line(self, one: SessionLine, first: bool) -> Said:
        values = {
            "least": time_text(one.least, self.language),
            "most": "" if one.most is None else time_text(one.most, self.language),
            "time": time_text(one.counts_as, self.language),
        }
        if one.most is None:
            sentence = N_("An entry of {least} or more counts as {time}.")
            later = N_("Failing that, an entry of {least} or more counts as {time}.")
        else:
            sentence = N_("An entry of {least} to {most} counts as {time}.")
            later = N_("Failing that, an entry of {least} to {most} counts as {time}.")
        return self._said("session", "", sentence if first else later, **values)

    def _weight(self, one: Weight, first: bool) -> Said:
        values = {"share": share_text(one.part, self.language), "what": accepts_text(one.accepts, self.language)}
        if one.accepts:
            sentence = N_("Of time with {what}, {share} count.")
            later = N_("Failing that, {share} count of time with {what}.")
        else:
            sentence, later = N_("Of all time here, {share} count."), N_("Failing that, {share} count.")
        return self._said("weight", "", sentence if first else later, **values)

    def _total(self, one: Total) -> Said:
        values = {
            "time": time_text(one.at_least, self.language),
            "what": accepts_text(one.accepts, self.language),
            "names": both(self._named(one.of), self.language),
        }
        return self._said("total", one.id, TOTALS[bool(one.of), bool(one.accepts)], one.title, **values)

    def _choice(self, one: Choice) -> Said:
        text = self.language.ngettext(
            "At least {number} of these is to be reached, and the others are free: {names}.",
            "At least {number} of these are to be reached, and the others are free: {names}.",
            one.at_least,
            names=self.language.listed(self._named(one.among)),
        )
        return Said("choose", one.id, one.title, text)

    def _gate(self, one: Gate) -> Said:
        conditions = both([self._condition(condition) for condition in one.when], self.language)
        sentence = N_("Time counts here from the day by which {conditions}.")
        return self._said("gate", one.id, sentence, one.title, conditions=conditions)

    def _condition(self, one: Condition) -> str:
        if one.kind in FACTS:
            name = self.titles.get((one.kind, one.name), one.name)
            return self.language(FACTS[one.kind], name=quoted(name, self.language))
        in_category = one.kind == "category"
        values = {
            "time": time_text(one.at_least, self.language),
            "what": accepts_text(one.accepts, self.language),
            "category": self._named((one.name,))[0] if in_category else "",
        }
        return self.language(LOGGED[in_category, bool(one.accepts)], **values)

    def _named(self, ids: tuple[str, ...]) -> list[str]:
        return [quoted(self.names.get(id, id), self.language) for id in ids]

    def _module(self, one: ModuleRule) -> Said:
        text = self.language.ngettext(
            "Of the module {name}, at most {number} day may be missed, and each is made up.",
            "Of the module {name}, at most {number} days may be missed, and each is made up.",
            one.missed_at_most,
            name=quoted(self.titles.get(("module", one.module), one.module), self.language),
        )
        return Said("missed", one.module, "", text)

    def _signing(self, one: Signing) -> Iterator[Said]:
        if one.within_days is not None:
            text = self.language.ngettext(
                "A host signs a session within {number} day of its own day.",
                "A host signs a session within {number} days of its own day.",
                one.within_days,
            )
            yield Said("within_days", "", "", text)
        if one.at_once is not None:
            time = time_text(one.at_once, self.language)
            yield self._said("at_once", "", N_("At most {time} of one trainee are signed at once."), time=time)
        if one.host_day is not None:
            sentence = N_("A host signs at most {time} of one day, a lesson with several trainees counted once.")
            yield self._said("host_day", "", sentence, time=time_text(one.host_day, self.language))

    def _window(self, one: Window) -> Iterator[Said]:
        if one.months is not None:
            text = self.language.ngettext(
                "The hours are to be done within {number} month of enrolment.",
                "The hours are to be done within {number} months of enrolment.",
                one.months,
            )
            yield Said("months", "", "", text)
        if one.least_months is not None:
            text = self.language.ngettext(
                "The training takes at least {number} month.",
                "The training takes at least {number} months.",
                one.least_months,
            )
            yield Said("least_months", "", "", text)
        if one.extension_months is not None:
            text = self.language.ngettext(
                "The school may extend the time, by {number} month for each extension.",
                "The school may extend the time, by {number} months for each extension.",
                one.extension_months,
            )
            yield Said("extension_months", "", "", text)
        if one.lapses_after_months is not None:
            text = self.language.ngettext(
                "Time that is older than {number} month lapses and no longer counts.",
                "Time that is older than {number} months lapses and no longer counts.",
                one.lapses_after_months,
            )
            yield Said("lapses_after_months", "", "", text)
