"""Who asks something of the school, and when."""

from dataclasses import dataclass
from datetime import date, datetime

from app.clock import day_in
from app.storage.work import School
from app.wording.languages import ENGLISH, Language


@dataclass(frozen=True, slots=True)
class Asker:
    """Who asks, and when; `language` is the school's, in which its mail is written."""

    school: School
    person_id: str
    name: str
    now: datetime
    language: Language = ENGLISH

    @property
    def today(self) -> date:
        return day_in(self.now, self.school.time_zone)
