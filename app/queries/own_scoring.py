"""What an examiner reads of their own scoring: themself against the panel, and nobody else to be made out."""

from collections.abc import Mapping
from dataclasses import dataclass

from app.files.seasons import read_picture
from app.queries.exam_facts import practical_edition
from app.queries.season_lines import Chart, drift_rows
from app.queries.seasons import SeasonLine, season_list, titles_of_tasks
from app.storage.seasons import KeptPicture
from app.storage.work import Work
from app.wording import seasons as words
from app.wording.languages import Language
from assessments.measurement.limits import DEFAULT_LIMITS

LEAST_PANEL, LEAST_PARTNERS = 3, 2
LEAST_EXAMS = DEFAULT_LIMITS.pair.withhold["common_units"]
Found = Mapping[str, object]


@dataclass(frozen=True, slots=True)
class OwnScoring:
    """One practical as its examiner reads it: nobody else can be made out."""

    title: str
    exams: int
    stale: bool
    practical_id: str
    sentences: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    chart: Chart | None = None
    chart_ends: tuple[str, str] = ("", "")


def own_scoring(work: Work, examiner_id: str, language: Language) -> tuple[OwnScoring, ...]:
    """Every season in which this examiner has sent a sheet."""
    found = []
    for line in season_list(work):
        if any(examiner == examiner_id for _, examiner, _ in work.seasons.versions(line.id)):
            titles = titles_of_tasks(practical_edition(work, line.id))
            found.append(_own(line, work.seasons.picture(line.id), titles, examiner_id, language))
    return tuple(found)


def _own(
    line: SeasonLine, kept: KeptPicture | None, titles: Mapping[str, str], examiner_id: str, language: Language
) -> OwnScoring:
    found = read_picture(kept.content) if kept else None
    if found is None or examiner_id not in found["counted"]["examiners"]:
        return OwnScoring(line.title, 0, line.stale, line.id)
    strictness = found["strictness"]
    row = next((one for one in strictness.get("examiners") or () if one["id"] == examiner_id), None)
    partner = next(one for one in found["partners"] if one["id"] == examiner_id)
    head = (line.title, row["exams"] if row else 0, line.stale, line.id)
    if len(found["counted"]["examiners"]) < LEAST_PANEL:
        return OwnScoring(*head, (language(words.TOO_SMALL),))
    sentences = [_own_agreement(partner, language)]
    if row is None:
        return OwnScoring(*head, (*sentences, words.held_text(strictness["withheld"], language)))
    sentences.append(words.severity_text(row["severity"], language, own=True))
    if row["fit_known"]:
        sentences.append(language(words.OWN_ERRATIC if row["erratic"] else words.OWN_FITS))
    leanings = [one for one in strictness.get("leanings", ()) if one["examiner"] == examiner_id]
    sentences += [words.leaning_text(one["marks"], titles[one["id"]], "", language) for one in leanings]
    charts, ends = drift_rows([row], {examiner_id: ""}, found["counted"]["first_day"], language)
    drifts = strictness["drift_flags"] if row["drift"]["estimate"] is not None else ()
    cautions = words.cautions([row["severity"], row["drift"], *(one["marks"] for one in leanings)], language, drifts)
    return OwnScoring(*head, tuple(sentences), tuple(cautions), charts[0] if charts else None, ends)


def _own_agreement(partner: Found, language: Language) -> str:
    """Withheld where it would name the one colleague, or rest on too little."""
    if partner["partners"] < LEAST_PARTNERS:
        return language(words.ONE_PARTNER)
    if partner["exams"] < LEAST_EXAMS:
        counts = {"thing": "common units", "found": partner["exams"], "least": LEAST_EXAMS}
        return words.held_text({"code": "too-few", "values": counts}, language)
    numbers = {key: language.figure(partner[key]) for key in ("pairs", "same", "near")}
    return language(words.OWN_SAME, **numbers)
