"""What is held about a person, in words."""

from curriculum.faults import N_

# What the tables of `app.storage.held.HELD` come to, in the order in which a page shows them.
GROUPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    (N_("Who you are, and what you may do here"), ("person", "person_role", "token", "sign_in", "tie", "notice_read")),
    (N_("Your enrolment, documents, modules, time granted"), ("enrolment", "shown_document", "module_done", "time_granted", "standing")),
    (N_("Your sessions in every version, and what hosts decided on them"), ("session_now", "session_version", "session_part", "host_decision")),
    (N_("Your notes, and feedback on your lessons"), ("session_note", "noted_exercise", "feedback")),
    (N_("Lessons you asked for, and hosts who took you"), ("host_place", "host_trainee")),
    (N_("Your exams, decisions and appeals"), ("exam", "exam_decision", "appeal", "appeal_step")),
    (N_("What you asked of the school"), ("request", "request_step")),
    (N_("Your certificates"), ("certificate", "certificate_decision", "certificate_step")),
    (N_("Study, plans, fault spotting"), ("recall", "recall_answer", "recall_wish", "session_plan", "spotting_attempt", "spotting_answer")),
    (N_("What you scored and judged for calibration"), ("performance_scoring", "judging_answer")),
    (N_("Texts that are yours"), ("personal_text",)),
    (N_("What the record says of you"), ("event",)),
    (N_("Mail to you"), ("outgoing_mail",)),
)  # fmt: skip
NOTE = N_(
    "Rows as they are kept, by table. Left out: what proves who you are, what others told in confidence, and what examiners "
    "wrote on their sheets; ask the school for those."
)
