"""The jobs there are: each a function of the bench, a school, and what it is about. Called directly in tests.

A job that runs by the clock asks what is due by now, not what time it is: after a night without a worker it catches up, and
two workers that run it at once do it once.
"""

from collections.abc import Callable
from dataclasses import dataclass

from app.storage.work import School
from app.use_cases.delivering_mail import deliver_mail
from app.worker.bench import Bench


@dataclass(frozen=True, slots=True)
class Job:
    """`minutes` and `hours` (UTC, as crontab writes them) say when it is done for every school; without, when asked."""

    name: str
    act: Callable[[Bench, School, str], object]
    minutes: str = ""
    hours: str = "*"


def mail(bench: Bench, school: School, about: str = "") -> None:
    """Bring the mail that is due on its way; an installation without a mail server sends nothing."""
    if bench.post is not None:
        sender = bench.settings.mail_server.sender
        deliver_mail(bench.store, school, sender, bench.post, bench.now, bench.language(school))


JOBS = (Job("mail", mail, minutes="*"),)
