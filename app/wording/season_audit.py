"""What the nightly audit of a season's strictness found, in plain words for directors."""

from collections.abc import Mapping
from datetime import date
from math import ceil

from app.wording.dates import day_text
from app.wording.languages import Language
from app.wording.seasons import decimal
from curriculum.faults import N_

SOON = N_(
    "Each night strictness is also reckoned a second way, which assumes nothing of how able the candidates are; these "
    "sheets come next night."
)
HELD = N_("The second reckoning of strictness, on {day}, came to nothing: {why}.")
ALIKE = N_(
    "Reckoned a second way in the night to {day}, which assumes nothing of how able the candidates are, strictness comes "
    "out alike."
)
APART = N_(
    "Read with care: reckoned a second way in the night to {day}, which assumes nothing of how able the candidates are, "
    "strictness comes out differently for {names}. Perhaps some examiners met abler candidates than others did."
)
SIZE = N_("No difference exceeds {marks} marks at the pass mark.")


def audit_text(found: Mapping[str, object] | None, names: Mapping[str, str], language: Language) -> str:
    """The sentences on one season's audit; None for sheets that are not audited yet."""
    if found is None:
        return language(SOON)
    day = day_text(date.fromisoformat(found["day"]), language.locale)
    if found["withheld"]:
        why = found["withheld"]
        return language(HELD, day=day, why=language(why["sentence"], **why["values"]))
    apart = sorted(names.get(one["id"], one["id"]) for one in found["examiners"] if one["apart"])
    said = language(APART, day=day, names=language.listed(apart)) if apart else language(ALIKE, day=day)
    sizes = [abs(one["marks"]) for one in found["examiners"] if one["marks"] is not None]
    most = max(1, ceil(10 * max(sizes, default=0.0))) / 10
    return f"{said} {language(SIZE, marks=decimal(most, language))}" if sizes else said
