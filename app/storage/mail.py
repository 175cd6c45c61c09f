"""Mail written by the school: kept with what it tells of, and how far it has come on its way."""

from dataclasses import dataclass
from datetime import datetime

from sqlmodel import or_, select

from app.storage.collection import Collection, fields_of, value_of
from app.storage.tables.records import OutgoingMailRow as MAIL

WAITING, SENT, REFUSED, GIVEN_UP = "waiting", "sent", "refused", "given_up"


@dataclass(frozen=True, slots=True)
class OutgoingMail:
    """One mail, as it was written, and how far it has come.

    `state` is waiting (to be sent, at once or from `next_at` on), sent, refused (nobody at that address will get it) or
    given_up (tried for days). `tries` counts attempts; `trouble` is what the last one met, in the server's own words.
    """

    id: str
    to_address: str
    to_name: str
    subject: str
    words: str
    made_at: datetime
    state: str = WAITING
    tries: int = 0
    next_at: datetime | None = None
    sent_at: datetime | None = None
    trouble: str = ""


class Mail(Collection):
    def add(self, mail: OutgoingMail) -> None:
        self._add(MAIL(school_id=self._school, **fields_of(mail)))

    def put(self, mail: OutgoingMail) -> None:
        """Write a mail that is there already as it is now."""
        row = self._session.get(MAIL, (self._school, mail.id))
        for name, value in fields_of(mail).items():
            setattr(row, name, value)
        self._add(row)

    def by_id(self, mail_id: str) -> OutgoingMail | None:
        row = self._session.get(MAIL, (self._school, mail_id))
        return value_of(OutgoingMail, row) if row else None

    def newest(self, most: int) -> list[OutgoingMail]:
        query = select(MAIL).where(MAIL.school_id == self._school).order_by(MAIL.made_at.desc(), MAIL.id).limit(most)
        return [value_of(OutgoingMail, row) for row in self._session.exec(query)]

    def due(self, now: datetime, most: int) -> list[OutgoingMail]:
        """What is to be tried by now, the oldest first."""
        query = (
            select(MAIL)
            .where(MAIL.school_id == self._school, MAIL.state == WAITING)
            .where(or_(MAIL.next_at.is_(None), MAIL.next_at <= now))
            .order_by(MAIL.made_at, MAIL.id)
            .limit(most)
        )
        return [value_of(OutgoingMail, row) for row in self._session.exec(query)]

    def undelivered(self, most: int) -> list[OutgoingMail]:
        """What somebody must look after: refused or given up, the newest first."""
        query = (
            select(MAIL)
            .where(MAIL.school_id == self._school, MAIL.state.in_((REFUSED, GIVEN_UP)))
            .order_by(MAIL.made_at.desc(), MAIL.id)
            .limit(most)
        )
        return [value_of(OutgoingMail, row) for row in self._session.exec(query)]
