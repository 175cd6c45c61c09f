"""The second-marking sample in words."""

from collections.abc import Mapping

from curriculum.faults import N_

REASONS: Mapping[str, str] = {
    "fail": N_("not a pass"),
    "inside-band": N_("inside the band"),
    "new-examiner": N_("an examiner's first exam"),
    "random": N_("random share"),
}
NOBODY = N_("no further examiner yet")
MARKS = N_("{name} marks")
STAYS = N_("marked further: {after} stays")
CHANGES = N_("marked further: {before} becomes {after}")
HOW: Mapping[tuple[bool, str], str] = {
    (True, "third-examiner"): N_(
        "The further examiner marks alone, from the record of the exam or from having been in the room."
    ),
    (True, "fresh-exam"): N_(
        "The further examiner marks alone, from the record of the exam or from having been in the room."
    ),
    (False, "third-examiner"): N_("No record is kept: only somebody who was in the room as a third examiner can mark."),
    (False, "fresh-exam"): N_(
        "No record is kept: without somebody who was in the room, void the exam and set a fresh one; it uses no attempt."
    ),
}
