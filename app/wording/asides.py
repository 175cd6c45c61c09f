"""Why minutes are set aside: how many, the reason, and the sentence of the rule that says so."""

from collections import defaultdict

from app.wording.hours import aside_text
from app.wording.languages import ENGLISH, Language
from app.wording.requirements import SaidSet, Titles, in_plain_words
from assessments.hours.standing import SetAside, Standing
from curriculum.faults import N_
from curriculum.requirements.requirement_set import RequirementSet

# Which constructs of a set are behind a reason, and where they stand: those of one rule by its own id, those of a
# category by the category's id, those of the whole set by neither.
BY_RULE = dict.fromkeys(
    ("day_cap", "week_cap", "session_cap", "value_cap", "share_cap", "part_cap", "overall_cap"), ("limit",)
)
BY_CATEGORY = {
    "before_gate": ("gate",),
    "category_full": ("at_most",),
    "proof_not_accepted": ("counts",),
    "rounded_down": ("session", "rounding"),
    "weighted": ("weight",),
}
BY_SET = {"after_window": ("months", "extension_months"), "lapsed": ("lapses_after_months",)}


def asides_by_session(
    requirements: RequirementSet, standing: Standing, language: Language, titles: Titles
) -> defaultdict[str, list[str]]:
    """What of each session is set aside and why, in sentences, by the session's id."""
    texts, found = AsideTexts(requirements, language, titles), defaultdict(list)
    for one in standing.set_aside:
        found[one.entry.rsplit("/", 1)[0]].append(texts.of(one))
    return found


class AsideTexts:
    """Says what is set aside under one set, which is put in words once; `titles` as for `in_plain_words`."""

    def __init__(
        self, requirements: RequirementSet, language: Language = ENGLISH, titles: Titles | None = None
    ) -> None:
        self.language = language
        self.said: SaidSet = in_plain_words(requirements, language, titles)
        self.known: dict[tuple[str, str], str] = {}

    def of(self, one: SetAside) -> str:
        """One sentence for the minutes, and the rule behind it where one is."""
        key = (one.reason, one.rule)
        if key not in self.known:
            self.known[key] = self._rule(*key)
        text, rule = aside_text(one.minutes, one.reason, self.language), self.known[key]
        return self.language(N_("{why}. {rule}"), why=text, rule=rule) if rule else text

    def _rule(self, reason: str, rule: str) -> str:
        if reason in BY_SET:
            return " ".join(one.text for one in self.said.overall if one.kind in BY_SET[reason])
        if reason in BY_RULE:
            overall = [one.text for one in self.said.overall if one.kind in BY_RULE[reason] and one.id == rule]
            return " ".join(overall) or self._in_category(lambda _, said: said.kind == "limit" and said.id == rule)
        kinds = BY_CATEGORY.get(reason, ())
        return self._in_category(lambda category, said: category == rule and said.kind in kinds)

    def _in_category(self, fits) -> str:  # noqa: ANN001 - of a category's id and a construct in words
        for category in self.said.categories:
            found = [said.text for said in category.sentences if fits(category.id, said)]
            if found:
                return self.language(N_("{category}: {rule}"), category=category.name, rule=" ".join(found))
        return ""
