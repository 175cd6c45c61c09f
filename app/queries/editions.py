"""Editions as the director sees them: what is published and who is on it, drafts, differences, whom a draft touches."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from app.files.editions import document_faults, edition_number, read_documents
from app.queries.edition_differences import DifferenceGroup, cut, difference_groups
from app.queries.edition_moves import came_from
from app.queries.enrolled import enrolled_now
from app.queries.readiness import evidence_of
from app.queries.standing import standing_by, standing_of
from app.storage.editions import KINDS as ALL_KINDS
from app.storage.editions import Edition, EditionDraft
from app.storage.enrolments import Enrolment
from app.storage.work import Work
from app.wording.dates import day_text, moment_text
from app.wording.editions import KINDS
from app.wording.hours import hours
from app.wording.languages import Language
from assessments.readiness.report import report
from curriculum.faults import RefusedError

MOVED_KINDS = ("requirements", "repertoire", "readiness")


@dataclass(frozen=True, slots=True)
class EditionLine:
    """A published edition: texts for people; `on_it` trainees, `exams` set by it."""

    id: str
    name: str
    number: str
    published: str
    on_it: int
    exams: int


@dataclass(frozen=True, slots=True)
class DraftLine:
    """A draft: whose copy it began as, and when it was last changed."""

    id: str
    name: str
    based_on: str
    changed: str


@dataclass(frozen=True, slots=True)
class KindPart:
    """The editions and drafts of one kind."""

    title: str
    editions: tuple[EditionLine, ...]
    drafts: tuple[DraftLine, ...]


@dataclass(frozen=True, slots=True)
class FileLine:
    """A file of a draft: how many lines it has and how many faults."""

    name: str
    lines: int
    faults: int


@dataclass(frozen=True, slots=True)
class FoundFault:
    """A fault of a draft with the file and line to open."""

    file: str
    line: int | None
    text: str


@dataclass(frozen=True, slots=True)
class Touched:
    """A trainee whom a draft would touch, before and after."""

    name: str
    before: str
    after: str
    differs: bool


@dataclass(frozen=True, slots=True)
class DraftOverview:
    """A draft with everything one looks at before publishing."""

    id: str
    kind: str
    title: str
    version: int
    number: str
    taken: bool
    based_on: str
    files: tuple[FileLine, ...]
    faults: tuple[FoundFault, ...]
    groups: tuple[DifferenceGroup, ...]
    more: int

    @property
    def moves(self) -> bool:
        """Whether trainees are on an edition of this kind."""
        return self.kind in MOVED_KINDS


@dataclass(frozen=True, slots=True)
class EditionOverview:
    """A published edition, who is on it, who could be moved to it, and what it changed.

    `moved` are those who came from another edition: enrolment, name, and which edition that was.
    """

    line: EditionLine
    kind: str
    title: str
    files: tuple[FileLine, ...]
    earlier: str
    groups: tuple[DifferenceGroup, ...]
    more: int
    on_it: tuple[str, ...]
    elsewhere: tuple[tuple[str, str], ...]
    moved: tuple[tuple[str, str, str], ...]

    @property
    def moves(self) -> bool:
        """Whether trainees are on an edition of this kind."""
        return self.kind in MOVED_KINDS


def editions_overview(work: Work, zone: str, language: Language) -> tuple[KindPart, ...]:
    """Everything published and everything being written, by kind."""
    editions, drafts = work.editions.all(), work.editions.drafts()
    by_id = {one.id: one for one in editions}
    counts = _counts(work)
    return tuple(
        KindPart(
            language(KINDS[kind]),
            tuple(_line(one, counts, language) for one in reversed(editions) if one.kind == kind),
            tuple(
                DraftLine(
                    one.id,
                    one.name,
                    _named(by_id.get(one.based_on)),
                    moment_text(one.changed_at, zone, language.locale),
                )
                for one in drafts
                if one.kind == kind
            ),
        )
        for kind in ALL_KINDS
    )


def edition_overview(work: Work, edition: Edition, language: Language) -> EditionOverview:
    """One published edition, against the one of its name before it."""
    same = [one for one in work.editions.of_kind(edition.kind) if one.name == edition.name]
    before = [one for one in same if (one.published_at, one.id) < (edition.published_at, edition.id)]
    earlier = max(before, key=lambda one: one.published_at, default=None)
    groups = difference_groups(edition.kind, earlier.documents, edition.documents, language) if earlier else ()
    shown, more = cut(groups)
    names = work.people.names()
    on_it, elsewhere = [], []
    for one in enrolled_now(work) if edition.kind in MOVED_KINDS else ():
        (on_it if getattr(one, f"{edition.kind}_id") == edition.id else elsewhere).append(
            (names[one.person_id], one.id)
        )
    came = came_from(work, edition, [id for _, id in on_it]) if on_it else {}
    moved = ((id, name, _named(work.editions.by_id(came[id]))) for name, id in sorted(on_it) if id in came)
    return EditionOverview(
        _line(edition, _counts(work), language),
        edition.kind,
        language(KINDS[edition.kind]),
        tuple(FileLine(name, text.count("\n") + 1, 0) for name, text in sorted(edition.documents.items())),
        _named(earlier),
        shown,
        more,
        tuple(name for name, _ in sorted(on_it)),
        tuple((id, name) for name, id in sorted(elsewhere)),
        tuple(moved),
    )


def draft_overview(work: Work, draft: EditionDraft, language: Language) -> DraftOverview:
    """A draft: its files, every fault, and what it changes once it has none."""
    faults = document_faults(draft.kind, draft.documents)
    found = tuple(
        FoundFault(one.source, one.line, ": ".join(filter(None, (one.field, language(one.sentence, **one.values)))))
        for one in faults
    )
    base = work.editions.by_id(draft.based_on) if draft.based_on else None
    groups = ()
    if base and not faults:
        groups = difference_groups(draft.kind, base.documents, draft.documents, language)
    shown, more = cut(groups)
    number = "" if faults else edition_number(draft.kind, draft.name, draft.documents)
    same = [one for one in work.editions.of_kind(draft.kind) if one.name == draft.name]
    return DraftOverview(
        draft.id,
        draft.kind,
        draft.name,
        draft.version,
        number,
        number in {one.number for one in same},
        _named(base),
        tuple(
            FileLine(name, text.count("\n") + 1, sum(one.file == name for one in found))
            for name, text in sorted(draft.documents.items())
        ),
        found,
        shown,
        more,
    )


def touched_by(work: Work, draft: EditionDraft, today: date, language: Language) -> tuple[Touched, ...]:
    """Trainees on the edition that the draft began as, and what would change for them; empty for a faulty draft.

    Takes time for each trainee: a requirement set is solved twice.
    """
    if draft.based_on is None or draft.kind not in ("requirements", "readiness"):
        return ()
    try:
        wanted = read_documents(draft.kind, draft.documents)
        now = read_documents(draft.kind, work.editions.by_id(draft.based_on).documents)
    except RefusedError:
        return ()
    names = work.people.names()
    own = [one for one in enrolled_now(work) if getattr(one, f"{draft.kind}_id") == draft.based_on]
    measure = _to_do if draft.kind == "requirements" else _open
    found = [(names[one.person_id], *(measure(work, one, rules, today) for rules in (now, wanted))) for one in own]
    says = hours if draft.kind == "requirements" else _gaps
    shown = [
        Touched(name, says(before, language), says(after, language), before != after) for name, before, after in found
    ]
    return tuple(sorted(shown, key=lambda one: (not one.differs, one.name)))


def _gaps(number: int, language: Language) -> str:
    return language.ngettext("{number} thing lacking", "{number} things lacking", number)


def _to_do(work: Work, enrolment: Enrolment, rules: object, today: date) -> int:
    return standing_by(work, enrolment, rules, today).further_minutes


def _open(work: Work, enrolment: Enrolment, rules: object, today: date) -> int:
    _, standing = standing_of(work, enrolment, today)
    return len(report(rules, evidence_of(work, enrolment, standing, today), today).gaps)


def _counts(work: Work) -> dict[str, tuple[int, int]]:
    """Trainees on, and exams set by, each edition."""
    counts: dict[str, list[int]] = {}
    for one in enrolled_now(work):
        for id in (one.requirements_id, one.repertoire_id, one.readiness_id):
            counts.setdefault(id, [0, 0])[0] += 1
    for exam in work.exams.all():
        counts.setdefault(exam.practical_id, [0, 0])[1] += 1
    return {id: (trainees, exams) for id, (trainees, exams) in counts.items()}


def _line(edition: Edition, counts: Mapping[str, tuple[int, int]], language: Language) -> EditionLine:
    trainees, exams = counts.get(edition.id, (0, 0))
    published = day_text(edition.published_at.date(), language.locale)
    return EditionLine(edition.id, edition.name, edition.number, published, trainees, exams)


def _named(edition: Edition | None) -> str:
    return f"{edition.name} {edition.number}" if edition else ""
