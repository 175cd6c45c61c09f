"""The bench: the one thing a job depends on."""

from dataclasses import dataclass, field

from app.clock import Clock
from app.mail.post import Post
from app.settings import Settings
from app.storage.work import School, Store
from app.use_cases.asker import Asker
from app.wording.languages import Language, Languages


@dataclass(frozen=True, slots=True)
class Bench:
    """The store, the settings, the clock, the way mail goes out (None: it is only shown), and the languages."""

    store: Store
    settings: Settings
    now: Clock
    post: Post | None = None
    languages: Languages = field(default_factory=Languages)

    def asker(self, school: School) -> Asker:
        """The school itself as who asks, now."""
        return Asker(school, "", school.name, self.now(), self.language(school))

    def language(self, school: School) -> Language:
        return self.languages.of(school.locale)
