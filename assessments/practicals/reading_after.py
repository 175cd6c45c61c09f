"""What a practical says of the time after the decision, taken from its document."""

from assessments.practicals.appeal_rules import DIRECTIONS, Appeals
from assessments.practicals.fields import JudgedFields


def read_appeals(fields: JudgedFields) -> Appeals:
    """Until when an appeal is filed and answered, and where it may lead."""
    may = fields.some_of("may", DIRECTIONS) if fields.has("may") else ("raise", "keep")
    return Appeals(
        fields.whole("within_days", 1, 365, 28),
        fields.whole("answer_days", 1, 365, 42),
        tuple(one for one in DIRECTIONS if one in may),
    )
