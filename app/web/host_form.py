"""The form of a host teacher: text as typed, and turned into a host or refused."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from app.storage.hosts import Host
from app.web.typed import typed_day, typed_text, whole_number
from app.wording.hosts import LEVELS
from curriculum.faults import N_, Fault, RefusedError

LONGEST, LONGEST_ID, LONGEST_REASON = 200, 36, 4000
# One @, no blanks, a dot after it: whether mail arrives only sending shows (RFC 5321, 4.5.3.1.3 allows 254 letters).
MAIL = re.compile(r"[^@\s,;<>\"]+@[^@\s,;<>\".]+(\.[^@\s,;<>\".]+)+")
LONGEST_MAIL = 254
NAMES = ("id", "name", "email", "site", "level", "verified_on", "eligible_until", "person", "reason")


@dataclass(frozen=True, slots=True)
class HostForm:
    """A host as typed; `id` is made once when the form is made, `known` is how many events of theirs were seen."""

    id: str
    name: str = ""
    email: str = ""
    site: str = ""
    level: str = ""
    verified_on: str = ""
    eligible_until: str = ""
    person: str = ""
    reason: str = ""
    known: int = 0

    @classmethod
    def typed(cls, form: Mapping[str, Sequence[str]]) -> "HostForm":
        """The form as it was sent."""
        known = whole_number(typed_text(form, "known"))
        return cls(**{name: typed_text(form, name) for name in NAMES}, known=known)

    @classmethod
    def of(cls, host: Host, known: int) -> "HostForm":
        """The form that shows a host."""
        last = host.eligible_until.isoformat() if host.eligible_until else ""
        return cls(
            host.id, host.name, host.email, host.site, host.level, host.verified_on.isoformat(), last,
            host.person_id or "", known=known,
        )  # fmt: skip

    def host(self, levels: Sequence[str] = tuple(LEVELS), paused_at: datetime | None = None) -> Host:
        """The host that was typed; refuses what can't be read, all at once."""
        faults: list[Fault] = []
        if not 0 < len(self.id) <= LONGEST_ID:
            faults.append(Fault("no-id", N_("this form is damaged; open the page again")))
        faults += [
            Fault("missing", N_("is missing"), field=name) for name in ("name", "site") if not getattr(self, name)
        ]
        if not MAIL.fullmatch(self.email) or len(self.email) > LONGEST_MAIL:
            faults.append(Fault("no-mail", N_("is no mail address; it looks like name@studio.example"), field="email"))
        if self.level not in levels:
            faults.append(Fault("no-level", N_("choose the level"), field="level"))
        first = typed_day(self.verified_on, "verified_on", N_("choose the day"), faults)
        last = self.eligible_until and typed_day(
            self.eligible_until, "eligible_until", N_("choose the day, or leave it open"), faults
        )
        if first and last and last < first:
            sentence = N_("the eligibility would end before it begins")
            faults.append(Fault("backwards", sentence, field="eligible_until"))
        most = {"name": LONGEST, "site": LONGEST, "reason": LONGEST_REASON}
        faults += [
            Fault("too-long", N_("keep this under {most} letters"), {"most": length}, name)
            for name, length in most.items()
            if len(getattr(self, name)) > length
        ]
        if faults or first is None:
            raise RefusedError(faults)
        return Host(
            self.id, self.name, self.email, self.site, self.level, first, last or None, self.person or None, paused_at
        )


def changed_host(form: HostForm, before: Host) -> Host:
    """The host after a change as typed; the name and the pause stay as they are."""
    typed = replace(form, id=before.id, name=before.name)
    return typed.host(levels=(*LEVELS, before.level), paused_at=before.paused_at)
