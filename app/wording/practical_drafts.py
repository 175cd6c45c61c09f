"""What can be chosen in the form of a practical."""

from app.wording.admissions import CHECKS
from app.wording.exam_clients import BRINGS
from app.wording.practicals import CUT_METHODS, PART_KINDS
from curriculum.faults import N_

DEFAULT = ("", N_("as the rules are without it"))
FLAG = (DEFAULT, ("yes", N_("yes")), ("no", N_("no")))
CHOICES: dict[str, tuple[tuple[str, str], ...]] = {
    "best": (("highest", N_("the highest is best")), ("lowest", N_("the lowest is best"))),
    "kind": (("", N_("choose")), *PART_KINDS.items()),
    "flag": FLAG,
    "order": (("edition", N_("the edition's order")), ("candidate", N_("the candidate's order"))),
    "method": tuple(CUT_METHODS.items()),
    "without_record": (
        ("third-examiner", N_("a third examiner in the room")),
        ("fresh-exam", N_("a fresh exam that uses no attempt")),
    ),
    "brought_by": tuple(BRINGS.items()),
    "no_show": (("void", N_("void: no attempt used")), ("not-completed", N_("not completed"))),
    "admission": tuple(CHECKS.items()),
}
