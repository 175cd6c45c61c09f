"""The first tables."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    op.create_table(
        "school",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("slug", sa.String(length=60), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("time_zone", sa.String(), nullable=False),
        sa.Column("locale", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_school")),
        sa.UniqueConstraint("slug", name=op.f("uq_school_slug")),
    )
    op.create_table(
        "edition",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("name", sa.String(length=80), nullable=False),
        sa.Column("number", sa.String(length=40), nullable=False),
        sa.Column("documents", sa.LargeBinary(), nullable=False),
        sa.Column("published_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_edition_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_edition")),
        sa.UniqueConstraint("school_id", "kind", "name", "number", name=op.f("uq_edition_school_id_kind_name_number")),
    )
    op.create_table(
        "event",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(length=40), nullable=False),
        sa.Column("subject", sa.String(length=36), nullable=False),
        sa.Column("actor", sa.String(length=80), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("body", sa.LargeBinary(), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_event_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "number", name=op.f("pk_event")),
    )
    op.create_index(op.f("ix_event_subject"), "event", ["subject"], unique=False)
    op.create_table(
        "event_count",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("last_number", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_event_count_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", name=op.f("pk_event_count")),
    )
    op.create_table(
        "host",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("email", sa.String(), nullable=False),
        sa.Column("site", sa.String(), nullable=False),
        sa.Column("level", sa.String(), nullable=False),
        sa.Column("verified_on", sa.Date(), nullable=False),
        sa.Column("eligible_until", sa.Date(), nullable=True),
        sa.Column("person_id", sa.String(length=36), nullable=True),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_host_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_host")),
    )
    op.create_table(
        "outgoing_mail",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("to_address", sa.String(), nullable=False),
        sa.Column("to_name", sa.String(), nullable=False),
        sa.Column("subject", sa.String(), nullable=False),
        sa.Column("words", sa.String(), nullable=False),
        sa.Column("made_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_outgoing_mail_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_outgoing_mail")),
    )
    op.create_table(
        "person",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("email", sa.String(), nullable=False),
        sa.Column("password_hash", sa.String(), nullable=False),
        sa.Column("joined_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("left_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_person_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_person")),
        sa.UniqueConstraint("school_id", "email", name=op.f("uq_person_school_id_email")),
    )
    op.create_table(
        "personal_text",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=True),
        sa.Column("salt", sa.LargeBinary(), nullable=False),
        sa.Column("words", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_personal_text_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_personal_text")),
    )
    op.create_index(op.f("ix_personal_text_person_id"), "personal_text", ["person_id"], unique=False)
    op.create_table(
        "sign_in_attempt",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("who", sa.String(length=64), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_sign_in_attempt_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_sign_in_attempt")),
    )
    op.create_index(
        op.f("ix_sign_in_attempt_school_id_who_at"), "sign_in_attempt", ["school_id", "who", "at"], unique=False
    )
    op.create_table(
        "host_decision",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("session_id", sa.String(length=36), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("host_id", sa.String(length=36), nullable=False),
        sa.Column("decision", sa.String(length=20), nullable=False),
        sa.Column("reason_id", sa.String(length=36), nullable=True),
        sa.Column("receipt", sa.String(length=40), nullable=False),
        sa.Column("decided_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "host_id"],
            ["host.school_id", "host.id"],
            name=op.f("fk_host_decision_school_id_host_id_host"),
        ),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_host_decision_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "session_id", "version", name=op.f("pk_host_decision")),
    )
    op.create_index(op.f("ix_host_decision_school_id_host_id"), "host_decision", ["school_id", "host_id"], unique=False)
    op.create_table(
        "host_link",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("token_hash", sa.String(length=64), nullable=False),
        sa.Column("host_id", sa.String(length=36), nullable=False),
        sa.Column("made_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("ends_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "host_id"], ["host.school_id", "host.id"], name=op.f("fk_host_link_school_id_host_id_host")
        ),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_host_link_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "token_hash", name=op.f("pk_host_link")),
    )
    op.create_table(
        "person_role",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("role", sa.String(length=20), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "person_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_person_role_school_id_person_id_person"),
        ),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_person_role_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "person_id", "role", name=op.f("pk_person_role")),
    )
    op.create_table(
        "programme",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("title", sa.String(), nullable=False),
        sa.Column("requirements_id", sa.String(length=36), nullable=False),
        sa.Column("repertoire_id", sa.String(length=36), nullable=False),
        sa.Column("readiness_id", sa.String(length=36), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "readiness_id"],
            ["edition.school_id", "edition.id"],
            name=op.f("fk_programme_school_id_readiness_id_edition"),
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "repertoire_id"],
            ["edition.school_id", "edition.id"],
            name=op.f("fk_programme_school_id_repertoire_id_edition"),
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "requirements_id"],
            ["edition.school_id", "edition.id"],
            name=op.f("fk_programme_school_id_requirements_id_edition"),
        ),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_programme_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_programme")),
    )
    op.create_table(
        "sign_in",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("token_hash", sa.String(length=64), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("started_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("ends_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("notice", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "person_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_sign_in_school_id_person_id_person"),
        ),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_sign_in_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "token_hash", name=op.f("pk_sign_in")),
    )
    op.create_index(op.f("ix_sign_in_school_id_person_id"), "sign_in", ["school_id", "person_id"], unique=False)
    op.create_table(
        "enrolment",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("programme_id", sa.String(length=36), nullable=False),
        sa.Column("enrolled_on", sa.Date(), nullable=False),
        sa.Column("requirements_id", sa.String(length=36), nullable=False),
        sa.Column("repertoire_id", sa.String(length=36), nullable=False),
        sa.Column("readiness_id", sa.String(length=36), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "person_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_enrolment_school_id_person_id_person"),
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "programme_id"],
            ["programme.school_id", "programme.id"],
            name=op.f("fk_enrolment_school_id_programme_id_programme"),
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "readiness_id"],
            ["edition.school_id", "edition.id"],
            name=op.f("fk_enrolment_school_id_readiness_id_edition"),
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "repertoire_id"],
            ["edition.school_id", "edition.id"],
            name=op.f("fk_enrolment_school_id_repertoire_id_edition"),
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "requirements_id"],
            ["edition.school_id", "edition.id"],
            name=op.f("fk_enrolment_school_id_requirements_id_edition"),
        ),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_enrolment_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_enrolment")),
        sa.UniqueConstraint(
            "school_id", "person_id", "programme_id", name=op.f("uq_enrolment_school_id_person_id_programme_id")
        ),
    )
    op.create_table(
        "exam",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("enrolment_id", sa.String(length=36), nullable=False),
        sa.Column("practical_id", sa.String(length=36), nullable=False),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("starts_minute", sa.Integer(), nullable=False),
        sa.Column("room", sa.String(), nullable=False),
        sa.Column("tasks", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "enrolment_id"],
            ["enrolment.school_id", "enrolment.id"],
            name=op.f("fk_exam_school_id_enrolment_id_enrolment"),
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "practical_id"],
            ["edition.school_id", "edition.id"],
            name=op.f("fk_exam_school_id_practical_id_edition"),
        ),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_exam_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_exam")),
    )
    op.create_index(op.f("ix_exam_enrolment_id"), "exam", ["enrolment_id"], unique=False)
    op.create_table(
        "module_done",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("enrolment_id", sa.String(length=36), nullable=False),
        sa.Column("module", sa.String(length=60), nullable=False),
        sa.Column("done_on", sa.Date(), nullable=False),
        sa.Column("recorded_by", sa.String(length=36), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "enrolment_id"],
            ["enrolment.school_id", "enrolment.id"],
            name=op.f("fk_module_done_school_id_enrolment_id_enrolment"),
        ),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_module_done_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "enrolment_id", "module", name=op.f("pk_module_done")),
    )
    op.create_table(
        "session_now",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("session_id", sa.String(length=36), nullable=False),
        sa.Column("enrolment_id", sa.String(length=36), nullable=False),
        sa.Column("host_id", sa.String(length=36), nullable=True),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("state", sa.String(length=20), nullable=False),
        sa.Column("changed_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "enrolment_id"],
            ["enrolment.school_id", "enrolment.id"],
            name=op.f("fk_session_now_school_id_enrolment_id_enrolment"),
        ),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_session_now_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "session_id", name=op.f("pk_session_now")),
    )
    op.create_index(
        op.f("ix_session_now_school_id_enrolment_id_day"),
        "session_now",
        ["school_id", "enrolment_id", "day"],
        unique=False,
    )
    op.create_index(
        op.f("ix_session_now_school_id_host_id_state"), "session_now", ["school_id", "host_id", "state"], unique=False
    )
    op.create_table(
        "session_version",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("session_id", sa.String(length=36), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("enrolment_id", sa.String(length=36), nullable=False),
        sa.Column("host_id", sa.String(length=36), nullable=True),
        sa.Column("day", sa.Date(), nullable=False),
        sa.Column("start_minute", sa.Integer(), nullable=False),
        sa.Column("end_minute", sa.Integer(), nullable=False),
        sa.Column("break_minutes", sa.Integer(), nullable=False),
        sa.Column("site", sa.String(), nullable=False),
        sa.Column("setting", sa.String(), nullable=False),
        sa.Column("proof", sa.String(length=20), nullable=False),
        sa.Column("evidence", sa.String(), nullable=False),
        sa.Column("note_id", sa.String(length=36), nullable=True),
        sa.Column("logged_by", sa.String(length=36), nullable=False),
        sa.Column("logged_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "enrolment_id"],
            ["enrolment.school_id", "enrolment.id"],
            name=op.f("fk_session_version_school_id_enrolment_id_enrolment"),
        ),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_session_version_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "session_id", "version", name=op.f("pk_session_version")),
    )
    op.create_index(
        op.f("ix_session_version_school_id_enrolment_id"),
        "session_version",
        ["school_id", "enrolment_id"],
        unique=False,
    )
    op.create_table(
        "shown_document",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("enrolment_id", sa.String(length=36), nullable=False),
        sa.Column("kind", sa.String(length=60), nullable=False),
        sa.Column("valid_from", sa.Date(), nullable=False),
        sa.Column("valid_to", sa.Date(), nullable=True),
        sa.Column("seen_by", sa.String(length=36), nullable=False),
        sa.Column("seen_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("withdrawn_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(
            ["school_id", "enrolment_id"],
            ["enrolment.school_id", "enrolment.id"],
            name=op.f("fk_shown_document_school_id_enrolment_id_enrolment"),
        ),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_shown_document_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_shown_document")),
    )
    op.create_index(
        op.f("ix_shown_document_school_id_enrolment_id"), "shown_document", ["school_id", "enrolment_id"], unique=False
    )
    op.create_table(
        "standing",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("enrolment_id", sa.String(length=36), nullable=False),
        sa.Column("fingerprint", sa.String(length=64), nullable=False),
        sa.Column("result", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "enrolment_id"],
            ["enrolment.school_id", "enrolment.id"],
            name=op.f("fk_standing_school_id_enrolment_id_enrolment"),
        ),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_standing_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "enrolment_id", name=op.f("pk_standing")),
    )
    op.create_table(
        "time_granted",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("enrolment_id", sa.String(length=36), nullable=False),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("first_day", sa.Date(), nullable=True),
        sa.Column("last_day", sa.Date(), nullable=False),
        sa.Column("reason", sa.String(), nullable=False),
        sa.Column("granted_by", sa.String(length=36), nullable=False),
        sa.Column("granted_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "enrolment_id"],
            ["enrolment.school_id", "enrolment.id"],
            name=op.f("fk_time_granted_school_id_enrolment_id_enrolment"),
        ),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_time_granted_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_time_granted")),
    )
    op.create_index(op.f("ix_time_granted_enrolment_id"), "time_granted", ["enrolment_id"], unique=False)
    op.create_table(
        "exam_decision",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("exam_id", sa.String(length=36), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("outcome", sa.String(length=20), nullable=False),
        sa.Column("reason", sa.String(), nullable=False),
        sa.Column("decider_id", sa.String(length=36), nullable=False),
        sa.Column("decided_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "decider_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_exam_decision_school_id_decider_id_person"),
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "exam_id"],
            ["exam.school_id", "exam.id"],
            name=op.f("fk_exam_decision_school_id_exam_id_exam"),
        ),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_exam_decision_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "exam_id", "number", name=op.f("pk_exam_decision")),
    )
    op.create_table(
        "exam_seat",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("exam_id", sa.String(length=36), nullable=False),
        sa.Column("examiner_id", sa.String(length=36), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "exam_id"], ["exam.school_id", "exam.id"], name=op.f("fk_exam_seat_school_id_exam_id_exam")
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "examiner_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_exam_seat_school_id_examiner_id_person"),
        ),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_exam_seat_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "exam_id", "examiner_id", name=op.f("pk_exam_seat")),
    )
    op.create_index(op.f("ix_exam_seat_examiner_id"), "exam_seat", ["examiner_id"], unique=False)
    op.create_table(
        "session_part",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("session_id", sa.String(length=36), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("place", sa.Integer(), nullable=False),
        sa.Column("minutes", sa.Integer(), nullable=False),
        sa.Column("activity", sa.String(), nullable=False),
        sa.Column("apparatus", sa.String(), nullable=False),
        sa.Column("level", sa.String(), nullable=False),
        sa.Column("mode", sa.String(), nullable=False),
        sa.Column("client", sa.String(), nullable=False),
        sa.Column("more", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "session_id", "version"],
            ["session_version.school_id", "session_version.session_id", "session_version.version"],
            name=op.f("fk_session_part_school_id_session_id_version_session_version"),
        ),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_session_part_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "session_id", "version", "place", name=op.f("pk_session_part")),
    )
    op.create_table(
        "sheet_draft",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("exam_id", sa.String(length=36), nullable=False),
        sa.Column("examiner_id", sa.String(length=36), nullable=False),
        sa.Column("content", sa.String(), nullable=False),
        sa.Column("saved_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "exam_id"], ["exam.school_id", "exam.id"], name=op.f("fk_sheet_draft_school_id_exam_id_exam")
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "examiner_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_sheet_draft_school_id_examiner_id_person"),
        ),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_sheet_draft_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "exam_id", "examiner_id", name=op.f("pk_sheet_draft")),
    )
    op.create_table(
        "sheet_version",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("exam_id", sa.String(length=36), nullable=False),
        sa.Column("examiner_id", sa.String(length=36), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("content", sa.String(), nullable=False),
        sa.Column("reason", sa.String(), nullable=False),
        sa.Column("sent_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "exam_id"],
            ["exam.school_id", "exam.id"],
            name=op.f("fk_sheet_version_school_id_exam_id_exam"),
        ),
        sa.ForeignKeyConstraint(
            ["school_id", "examiner_id"],
            ["person.school_id", "person.id"],
            name=op.f("fk_sheet_version_school_id_examiner_id_person"),
        ),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_sheet_version_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "exam_id", "examiner_id", "version", name=op.f("pk_sheet_version")),
    )
    op.create_table(
        "waiver",
        sa.Column("school_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("exam_id", sa.String(length=36), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("rule", sa.String(length=40), nullable=False),
        sa.Column("reason", sa.String(), nullable=False),
        sa.Column("granted_by", sa.String(length=36), nullable=False),
        sa.Column("granted_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["school_id", "exam_id"], ["exam.school_id", "exam.id"], name=op.f("fk_waiver_school_id_exam_id_exam")
        ),
        sa.ForeignKeyConstraint(["school_id"], ["school.id"], name=op.f("fk_waiver_school_id_school")),
        sa.PrimaryKeyConstraint("school_id", "id", name=op.f("pk_waiver")),
    )
    op.create_index(op.f("ix_waiver_exam_id"), "waiver", ["exam_id"], unique=False)


def downgrade() -> None:
    op.drop_index(op.f("ix_waiver_exam_id"), table_name="waiver")
    op.drop_table("waiver")
    op.drop_table("sheet_version")
    op.drop_table("sheet_draft")
    op.drop_table("session_part")
    op.drop_index(op.f("ix_exam_seat_examiner_id"), table_name="exam_seat")
    op.drop_table("exam_seat")
    op.drop_table("exam_decision")
    op.drop_index(op.f("ix_time_granted_enrolment_id"), table_name="time_granted")
    op.drop_table("time_granted")
    op.drop_table("standing")
    op.drop_index(op.f("ix_shown_document_school_id_enrolment_id"), table_name="shown_document")
    op.drop_table("shown_document")
    op.drop_index(op.f("ix_session_version_school_id_enrolment_id"), table_name="session_version")
    op.drop_table("session_version")
    op.drop_index(op.f("ix_session_now_school_id_host_id_state"), table_name="session_now")
    op.drop_index(op.f("ix_session_now_school_id_enrolment_id_day"), table_name="session_now")
    op.drop_table("session_now")
    op.drop_table("module_done")
    op.drop_index(op.f("ix_exam_enrolment_id"), table_name="exam")
    op.drop_table("exam")
    op.drop_table("enrolment")
    op.drop_index(op.f("ix_sign_in_school_id_person_id"), table_name="sign_in")
    op.drop_table("sign_in")
    op.drop_table("programme")
    op.drop_table("person_role")
    op.drop_table("host_link")
    op.drop_index(op.f("ix_host_decision_school_id_host_id"), table_name="host_decision")
    op.drop_table("host_decision")
    op.drop_index(op.f("ix_sign_in_attempt_school_id_who_at"), table_name="sign_in_attempt")
    op.drop_table("sign_in_attempt")
    op.drop_index(op.f("ix_personal_text_person_id"), table_name="personal_text")
    op.drop_table("personal_text")
    op.drop_table("person")
    op.drop_table("outgoing_mail")
    op.drop_table("host")
    op.drop_table("event_count")
    op.drop_index(op.f("ix_event_subject"), table_name="event")
    op.drop_table("event")
    op.drop_table("edition")
    op.drop_table("school")
