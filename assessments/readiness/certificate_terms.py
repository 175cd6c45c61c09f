"""What the certificate of a programme says and how it is decided, as part of the readiness edition."""

from dataclasses import dataclass

from assessments.practicals.fields import JudgedFields


@dataclass(frozen=True, slots=True)
class CertificateTerms:
    """`valid_months` 0 is without end; `deciders` 2 asks a second person to confirm what one decided."""

    title: str
    statement: str
    valid_months: int = 0
    deciders: int = 1


def read_terms(fields: JudgedFields) -> CertificateTerms:
    """The terms that a `certificate` mapping describes; faults are noted in the fields."""
    return CertificateTerms(
        title=fields.text("title"),
        statement=fields.text("statement"),
        valid_months=fields.whole("valid_months", 0, 600, 0),
        deciders=fields.whole("deciders", 1, 2, 1),
    )
