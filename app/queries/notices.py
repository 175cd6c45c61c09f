"""Safety notices as the director sees them: what stands, and who has still to read it."""

from dataclasses import dataclass

from app.queries.repertoire import subjects_of
from app.storage.notices import SafetyNotice
from app.storage.work import Work
from app.wording.dates import moment_text
from app.wording.languages import Language


@dataclass(frozen=True, slots=True)
class NoticeLine:
    """A notice; `unread` are the names of those who have not read it, `read` how many have."""

    id: str
    about: str
    text: str
    issued: str
    ended: str
    end_reason: str
    read: int
    unread: tuple[str, ...]


def notice_lines(work: Work, zone: str, language: Language) -> tuple[NoticeLine, ...]:
    """Every notice: those that stand first, the newest first."""
    subjects, readers = subjects_of(work, language), work.notices.readers()
    people = {one.id: one.name for role in ("trainee", "examiner", "director") for one in work.people.with_role(role)
              if one.left_at is None}  # fmt: skip
    names = work.people.names()
    lines = [_line(one, subjects, readers.get(one.id, {}), people, names, zone, language) for one in work.notices.all()]
    return tuple(sorted(lines, key=lambda line: bool(line.ended)))


def _line(  # noqa: PLR0913 - what one line shows
    one: SafetyNotice, subjects: dict[str, str], readers: dict, people: dict, names: dict, zone: str, language: Language
) -> NoticeLine:
    by, at = names[one.issued_by], moment_text(one.issued_at, zone, language.locale)
    ended = moment_text(one.ended_at, zone, language.locale) if one.ended_at else ""
    unread = sorted(name for id, name in people.items() if id not in readers)
    about = subjects.get(one.about, one.about)
    return NoticeLine(one.id, about, one.text, f"{by}, {at}", ended, one.end_reason, len(readers), tuple(unread))
