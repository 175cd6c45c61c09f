"""The recordings of exams: how each stands, until when it is kept, and who may open it."""

from dataclasses import dataclass
from datetime import date

from app.clock import day_in
from app.files.exam_papers import read_recording
from app.queries.appeals import deciding_now, open_appeals
from app.queries.exam_clients import clients_of
from app.queries.exam_facts import practical_of
from app.queries.lists import who_and_when
from app.storage.exam_papers import RECORDING
from app.storage.exams import Exam
from app.storage.work import Work
from app.wording import recordings as words
from app.wording.dates import day_text, moment_text
from app.wording.languages import Language
from assessments.practicals.recording import Recording, State, delete_on, recording_state

OPENED = "recording-opened"


@dataclass(frozen=True, slots=True)
class RecordingOverview:
    """The recording of one exam; `openings` are (moment, who). The link itself is shown only where it is opened."""

    exam_id: str
    candidate: str
    when: str
    recorded: bool
    state: State
    state_words: tuple[str, str]
    recording: Recording
    version: int
    rules: tuple[str, ...]
    until: str
    client_agrees: bool
    openings: tuple[tuple[str, str], ...]


def recording_of(work: Work, exam_id: str) -> Recording:
    """What is on file of an exam's recording."""
    paper = work.exam_papers.of(exam_id, RECORDING)
    return read_recording(paper.content) if paper else Recording()


def decided_on(work: Work, exam_id: str, zone: str) -> date | None:
    """The school's day of the decision that stands; None while it is appealed or complained about, so that all is kept."""
    decisions = work.exams.decisions(exam_id)
    if not decisions or open_appeals(work, exam_id):
        return None
    return day_in(decisions[-1].decided_at, zone)


def client_agrees(work: Work, exam_id: str) -> bool:
    """Whether the client who is or will be there agreed to be filmed."""
    told = clients_of(work, exam_id)
    return bool(told and told.present.filmed)


def may_open(work: Work, exam: Exam, viewer_id: str, is_director: bool) -> bool:
    """A first examiner scores from the room alone; directors, further examiners and who decides an appeal may look again."""
    further = viewer_id in work.exams.second_markers(exam.id) or viewer_id in deciding_now(work, exam.id)
    return further or (is_director and viewer_id not in work.exams.seats(exam.id))


def recording_overview(work: Work, exam: Exam, today: date, zone: str, language: Language) -> RecordingOverview:
    """The page of one exam's recording."""
    paper, practical, found = (
        work.exam_papers.of(exam.id, RECORDING),
        practical_of(work, exam),
        recording_of(work, exam.id),
    )
    decided, days = decided_on(work, exam.id, zone), practical.record_days
    state, last = recording_state(found, decided, days, today), delete_on(found, decided, days)
    who, when = who_and_when(work, [exam], language)[exam.id]
    names = work.people.names()
    openings = [one for one in work.record.of_subject(exam.id) if one.kind == OPENED]
    term, kind = words.STATES[state]
    return RecordingOverview(
        exam.id, who, when, practical.recorded, state, (language(term), kind), found, paper.version if paper else 0,
        recording_rules(work, exam, language),
        language(words.UNTIL, day=day_text(last, language.locale)) if last and state in ("kept", "due") else "",
        client_agrees(work, exam.id),
        tuple((moment_text(one.at, zone, language.locale), names.get(one.actor, "")) for one in openings),
    )  # fmt: skip


def recording_rules(work: Work, exam: Exam, language: Language) -> tuple[str, ...]:
    """Who sees it, how long it is kept, and what holds without one."""
    practical = practical_of(work, exam)
    days = language.figure(practical.record_days)
    without = language(words.WITHOUT[practical.without_record])
    return (language(words.WHO_SEES), language(words.KEPT_DAYS, days=days), without) if practical.recorded else ()


def recordings_due(work: Work, today: date, zone: str) -> list[Exam]:
    """Exams whose recording has to be deleted now."""
    return [exam for exam, state in _standing(work, today, zone) if state == "due"]


def recording_lines(
    work: Work, today: date, zone: str, language: Language
) -> list[tuple[str, str, str, tuple[str, str]]]:
    """Every recording there is or was: exam, candidate, when, state; what is to be deleted first."""
    found = [(exam, state) for exam, state in _standing(work, today, zone) if state in ("due", "kept", "deleted")]
    labels = who_and_when(work, [exam for exam, _ in found], language)
    order = ("due", "kept", "deleted")
    lines = [
        (
            order.index(state),
            exam.day,
            exam.id,
            (exam.id, *labels[exam.id], (language(words.STATES[state][0]), words.STATES[state][1])),
        )
        for exam, state in found
    ]
    return [line for *_, line in sorted(lines)]


def _standing(work: Work, today: date, zone: str) -> list[tuple[Exam, State]]:
    found = []
    for exam_id, paper in work.exam_papers.of_kind(RECORDING).items():
        exam = work.exams.by_id(exam_id)
        days = practical_of(work, exam).record_days
        state = recording_state(read_recording(paper.content), decided_on(work, exam_id, zone), days, today)
        found.append((exam, state))
    return found
