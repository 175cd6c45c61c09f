"""What a practical says of the time before the exam, taken from its document."""

from typing import get_args, get_type_hints

from assessments.practicals.admission import CHECKS, Check
from assessments.practicals.client import ClientRule
from assessments.practicals.fields import JudgedFields

ALLOWED = get_type_hints(ClientRule)


def read_client_rule(fields: JudgedFields) -> ClientRule:
    """Who brings the client, and what follows when nobody comes."""
    return ClientRule(
        fields.one_of("brought_by", get_args(ALLOWED["brought_by"]), "either"),
        fields.flag("reserve", False),
        fields.whole("wait", 0, 120, 15),
        fields.one_of("no_show", get_args(ALLOWED["no_show"]), "void"),
    )


def read_admission_checks(fields: JudgedFields) -> tuple[Check, ...]:
    """What must stand before the exam begins; nothing where the practical says nothing."""
    found = fields.some_of("admission", CHECKS) if fields.has("admission") else ()
    return tuple(check for check in CHECKS if check in found)
