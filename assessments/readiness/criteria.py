"""What "ready" asks for in one programme, as data."""

from dataclasses import dataclass
from typing import Literal

from assessments.readiness.certificate_terms import CertificateTerms

Kind = Literal["hours", "practical", "document", "module"]
KINDS: tuple[Kind, ...] = ("hours", "practical", "document", "module")
Who = Literal["trainee", "host", "examiner", "school"]
WHO: tuple[Who, ...] = ("trainee", "host", "examiner", "school")


@dataclass(frozen=True, slots=True)
class Criterion:
    """One thing that must hold on the day of the certificate.

    `subject` is the id of the requirement set, practical, document or module. `after` names criteria that
    must be met before this can start; `part_after` those without which only a part of it can start.
    `takes_days` is how long it usually takes from starting to being accepted (for hours: a signature).
    `who` acts first where nothing is there yet.
    """

    id: str
    kind: Kind
    subject: str
    title: str
    after: tuple[str, ...] = ()
    part_after: tuple[str, ...] = ()
    takes_days: int = 14
    who: Who = "trainee"


@dataclass(frozen=True, slots=True)
class ReadinessCriteria:
    """All criteria of a programme's edition; `minutes_a_week` is the pace assumed where none is known.

    Without `certificate` none can be issued by this edition.
    """

    id: str
    title: str
    edition: str
    criteria: tuple[Criterion, ...]
    minutes_a_week: int = 480
    certificate: CertificateTerms | None = None
