"""What the record holds, in words: documents, modules, time granted, and each event as a sentence."""

from collections.abc import Mapping

from curriculum.faults import N_

EVENTS: Mapping[str, str] = {
    "session-logged": N_("Session of {day} put down"),
    "session-withdrawn": N_("Session of {day} withdrawn"),
    "session-signed": N_("Session of {day} signed off"),
    "session-sent-back": N_("Session of {day} sent back"),
    "session-shortened": N_("Session of {day} made shorter by its host"),
    "session-reopened": N_("Session of {day} opened again: its signature was not the host's"),
    "session-disowned": N_("Session of {day}: its signature taken back"),
    "session-denied": N_("Session of {day}: the host says they did not teach it"),
    "feedback-given": N_("Feedback on the lesson of {day} given"),
    "session-noted": N_("Notes of the session of {day} kept"),
    "hours-accepted": N_("Hours of {day} accepted: {evidence}"),
    "hours-registered": N_("Hours of {day} registered: {evidence}"),
    "hours-corrected": N_("Hours of {day} corrected: {reason}"),
    "hours-withdrawn": N_("Hours of {day} withdrawn: {reason}"),
    "hours-imported": N_("Hours taken from a file"),
    "import-undone": N_("Hours of a file taken back: {reason}"),
    "document-withdrawn": N_("Document no longer stands: {kind}. {reason}"),
    "module-taken-back": N_("Module taken back: {module}. {reason}"),
    "document-seen": N_("Document seen: {kind}"),
    "module-completed": N_("Module completed: {module}"),
    "time-granted": N_("{kind} granted: {reason}"),
    "moved-to-edition": N_("Moved to another edition: {reason}"),
    "exam-set": N_("Exam set"),
    "sheet-sent": N_("Score sheet sent"),
    "exam-moved": N_("Exam moved to another time or room: {reason}"),
    "seat-declined": N_("An examiner declined a place on the panel"),
    "outsider-invited": N_("An examiner from outside was invited"),
    "invitation-withdrawn": N_("The invitation of an examiner from outside was withdrawn"),
    "seat-filled": N_("A place on the panel was filled"),
    "exam-set-aside": N_("Exam set aside: {reason}"),
    "set-aside-taken-back": N_("Exam no longer set aside"),
    "exam-decided": N_("Exam decided"),
    "admission-decided": N_("Admission to the exam: {verdict} {reason}"),
    "client-told": N_("Client of the exam told, and the list screened"),
    "intake-forgotten": N_("Intake of the exam's client erased"),
    "further-examiner-seated": N_("Further examiner seated"),
    "certificate-decided": N_("Decided on the certificate: {reason}"),
    "certificate-step": N_("Certificate {number}: {step}"),
    "request-made": N_("The school was asked something"),
    "request-step": N_("A request was answered, withdrawn or appealed"),
    "words-erased": N_("Own words erased on request"),
    "tie-stated": N_("What stands between the trainee and a member of staff was stated"),
}
OTHER_EVENT = N_("Something else was recorded ({kind})")
GRANTED: Mapping[str, str] = {"extension": N_("Extension"), "leave": N_("Leave")}
