"""The small parts of a requirement in words: times, shares, conditions on entries, and what is counted."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from app.wording.hours import hours
from app.wording.languages import Language
from app.wording.sessions import ACTIVITIES, APPARATUS, LEVELS, MODES, SETTINGS, STAGES, in_words
from curriculum.faults import N_
from curriculum.requirements.amounts import CREDITED, Amount, Share
from curriculum.requirements.requirement_set import Accepts

VALUES: Mapping[str, Mapping[str, str]] = {
    "activity": ACTIVITIES,
    "apparatus": APPARATUS,
    "level": LEVELS,
    "mode": MODES,
    "setting": SETTINGS,
    "client_stage": STAGES,
}
FIELDS: Mapping[str, str] = {
    "activity": N_("activity"),
    "apparatus": N_("apparatus"),
    "level": N_("level"),
    "mode": N_("medium"),
    "setting": N_("setting"),
    "client_stage": N_("stage of the client"),
    "host": N_("host"),
    "client": N_("client"),
    "site": N_("site"),
}
IS = N_("{field} {values}")
OR, AND, QUOTED = N_("{some} or {last}"), N_("{some}, and {last}"), N_("“{value}”")
SHARES: Mapping[str, str] = {
    "": N_("{time} ({share} of the {need} asked for here)"),
    CREDITED: N_("{share} of what is credited here in the end"),
    "other": N_("{share} of what is credited for {name} in the end"),
}


def time_text(minutes: Fraction | int, language: Language) -> str:
    """A time; a part of a minute is kept to two places."""
    whole = Fraction(minutes)
    if whole.denominator == 1:
        return hours(int(whole), language)
    above, rest = divmod(whole, 60)
    shown = {"minutes": language.figure(round(float(rest), 2))}
    if not above:
        return language(N_("{minutes} min"), **shown)
    return language(N_("{hours} h {minutes} min"), hours=language.figure(int(above)), **shown)


def share_text(part: Fraction, language: Language) -> str:
    """A part as a percentage."""
    return language(N_("{number} %"), number=language.figure(number_of(part * 100)))


def number_of(number: Fraction) -> int | float:
    """A fraction as a figure can show it."""
    return int(number) if number.denominator == 1 else round(float(number), 4)


def amount_text(amount: Amount, need: Fraction, names: Mapping[str, str], language: Language) -> str:
    """A duration, or a share of what it is a share of; `need` is the category's own, `names` by id."""
    if not isinstance(amount, Share):
        return time_text(amount, language)
    share = share_text(amount.part, language)
    if not amount.of:
        shown = {"need": time_text(need, language), "time": time_text(amount.part * need, language)}
        return language(SHARES[""], share=share, **shown)
    if amount.of == CREDITED:
        return language(SHARES[CREDITED], share=share)
    return language(SHARES["other"], share=share, name=quoted(names.get(amount.of, amount.of), language))


def accepts_text(accepts: Accepts, language: Language) -> str:
    """What an entry must have: every field with the values of which one must be there; empty for any entry."""
    asked = [
        language(IS, field=field_text(name, language), values=either(values_text(name, values, language), language))
        for name, values in accepts.items()
    ]
    return both(asked, language)


def values_text(field: str, values: Sequence[str], language: Language) -> list[str]:
    """A field's values in words, each in quotation marks."""
    return [quoted(in_words(value, dict(VALUES.get(field, {})), language), language) for value in values]


def field_text(name: str, language: Language) -> str:
    """What a field of the log is called; a further column is shown as it is named."""
    return language(FIELDS[name]) if name in FIELDS else quoted(name.replace("_", " "), language)


def quoted(text: str, language: Language) -> str:
    return language(QUOTED, value=text)


def either(texts: Sequence[str], language: Language) -> str:
    """Texts of which one is enough."""
    return _joined(texts, OR, language)


def both(texts: Sequence[str], language: Language) -> str:
    """Texts that all hold."""
    return _joined(texts, AND, language)


def _joined(texts: Sequence[str], sentence: str, language: Language) -> str:
    if len(texts) < 2:
        return "".join(texts)
    return language(sentence, some=language.listed(texts[:-1]), last=texts[-1])


def counted(of: str, number: int, language: Language) -> str:
    """So many different days, weeks, sessions or values of a field."""
    if of == "day":
        return language.ngettext("{number} day", "{number} different days", number)
    if of == "week":
        return language.ngettext("{number} calendar week", "{number} different calendar weeks", number)
    if of == "session":
        return language.ngettext("{number} session", "{number} different sessions", number)
    if of == "host":
        return language.ngettext("{number} host", "{number} different hosts", number)
    if of == "client":
        return language.ngettext("{number} client", "{number} different clients", number)
    if of == "apparatus":
        return language.ngettext("{number} kind of apparatus", "{number} different kinds of apparatus", number)
    field = field_text(of, language)
    return language.ngettext("{number} value of {field}", "{number} different values of {field}", number, field=field)
