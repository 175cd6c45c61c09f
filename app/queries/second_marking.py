"""The second-marking sample for the director: which exams, why, who marks, and what it changed."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from app.queries.exam_facts import (
    again_of,
    edition_of_exam,
    error_in_use,
    first_examiners,
    may_see_all,
    practical_edition,
    sent_sheets,
)  # fmt: skip
from app.storage.exams import Exam
from app.storage.work import Work
from app.wording import second_marking as words
from app.wording.dates import day_text
from app.wording.languages import Language
from app.wording.practicals import RECOMMENDATIONS
from assessments.practicals.deciding import sample_reasons
from assessments.practicals.sample import Changed, changed, first_exams, first_result, lot

SEEDED = "sample-seeded"
MOST_EVENTS = 50


@dataclass(frozen=True, slots=True)
class SampleLine:
    """One exam of the sample; `reasons` why, `state` who marks it or what that changed."""

    exam_id: str
    candidate: str
    practical: str
    day: str
    reasons: str
    state: str
    state_kind: str


@dataclass(frozen=True, slots=True)
class SampledPractical:
    """An edition with exams to decide; `seed` is "" until the random share is drawn, `share` in per cent."""

    id: str
    title: str
    share: str
    seed: str


@dataclass(frozen=True, slots=True)
class SampleOverview:
    lines: tuple[SampleLine, ...]
    practicals: tuple[SampledPractical, ...]


def sample_overview(work: Work, viewer_id: str, language: Language) -> SampleOverview:
    """Every exam whose first sheets are all sent and which is not decided, as far as it is in the sample.

    Whoever marks one further learns nothing of it here before their own sheet is sent.
    """
    names, decided = work.people.names(), work.exams.all_decisions()
    undecided = [exam for exam in work.exams.all() if exam.id not in decided]
    ids = sorted({exam.practical_id for exam in undecided})
    seeds = seeds_of(work, ids)
    first = _first_exams(work)
    lines = []
    for exam in undecided:
        if not may_see_all(work, exam.id, sent_sheets(work, exam.id), viewer_id):
            continue
        reasons = reasons_of(work, exam, seeds.get(exam.practical_id, ""), exam.id in first)
        if reasons:
            lines.append(_line(work, exam, reasons, names, language))
    return SampleOverview(
        tuple(lines),
        tuple(
            SampledPractical(id, f"{one.title}, {one.edition}", language.figure(float(one.sample.random)), seeds.get(id, ""))
            for id, one in ((id, practical_edition(work, id)) for id in ids)
            if one.sample.random
        ),
    )  # fmt: skip


def why_sampled(work: Work, exam: Exam, language: Language) -> str:
    """Why an exam is in the sample, in words; "" when it is not, or its first sheets are not in."""
    seed = seeds_of(work, [exam.practical_id]).get(exam.practical_id, "")
    reasons = reasons_of(work, exam, seed, exam.id in _first_exams(work))
    return language.listed([language(words.REASONS[one]) for one in reasons])


def reasons_of(work: Work, exam: Exam, seed: str, is_first: bool) -> tuple[str, ...]:
    """The codes of `sample_reasons` by the first sheets; none until they are all sent."""
    sheets = sent_sheets(work, exam.id)
    if not {one.examiner for one in sheets} >= first_examiners(work, exam.id) or not sheets:
        return ()
    practical = edition_of_exam(work, exam)
    found = first_result(practical, sheets, _error(work, exam), again_of(work, exam))
    return sample_reasons(practical.sample, found, is_first, lot(seed, exam.id) if seed else 1)


def changed_by_further(work: Work, exam: Exam) -> Changed | None:
    return changed(edition_of_exam(work, exam), sent_sheets(work, exam.id), _error(work, exam), again_of(work, exam))


def changed_text(found: Changed, language: Language) -> str:
    before, after = (language(RECOMMENDATIONS[one]) for one in (found.before, found.after))
    return language(words.CHANGES if found.differs else words.STAYS, before=before, after=after)


def seeds_of(work: Work, practical_ids: Iterable[str]) -> dict[str, str]:
    """The seed of each practical's random share, as far as one is drawn."""
    ids = list(practical_ids)
    found = work.record.newest_of(ids, MOST_EVENTS * len(ids)) if ids else ()
    return {event.subject: event.content()["seed"] for event in found if event.kind == SEEDED}


def _error(work: Work, exam: Exam) -> Fraction | None:
    error = error_in_use(work, exam)
    return None if error is None else Fraction(error)


def _first_exams(work: Work) -> frozenset[str]:
    when = {exam.id: (exam.day, exam.starts_minute) for exam in work.exams.all()}
    return first_exams(work.exams.senders(), when)


def _line(work: Work, exam: Exam, reasons: tuple[str, ...], names: dict[str, str], language: Language) -> SampleLine:
    further = sorted(work.exams.second_markers(exam.id))
    found = changed_by_further(work, exam)
    if found:
        state, kind = changed_text(found, language), "behind" if found.differs else "done"
    elif further:
        state, kind = language(words.MARKS, name=language.listed([names[one] for one in further])), "waiting"
    else:
        state, kind = language(words.NOBODY), "behind"
    return SampleLine(
        exam.id,
        names[work.enrolments.by_id(exam.enrolment_id).person_id],
        edition_of_exam(work, exam).title,
        day_text(exam.day, language.locale),
        language.listed([language(words.REASONS[one]) for one in reasons]),
        state,
        kind,
    )
