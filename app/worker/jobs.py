"""The jobs there are: each a function of the bench, a school, and what it is about. Called directly in tests.

A job that runs by the clock asks what is due by now, not what time it is: after a night without a worker it catches up, and
two workers that run it at once do it once.
"""

from collections.abc import Callable
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from app.queries.season_audit import STRICTNESS_AUDIT
from app.storage.work import School
from app.use_cases.auditing_strictness import nightly_strictness_audit
from app.use_cases.delivering_mail import deliver_mail
from app.use_cases.keeping_hosts import Post
from app.use_cases.keeping_proof import AUDIT, ROOT, daily_root, nightly_audit
from app.use_cases.recordings import JOB as RECORDINGS
from app.use_cases.recordings import look_at_recordings
from app.use_cases.reminding_hosts import remind_hosts
from app.use_cases.seasons import JOB, bring_all_up_to_date, bring_up_to_date
from app.worker.bench import Bench

# Hours of the school's day in which people are written to.
MORNING, EVENING = 8, 20


@dataclass(frozen=True, slots=True)
class Job:
    """`minutes` of the hour (as crontab writes them) say when it is done for every school; without, when asked."""

    name: str
    act: Callable[[Bench, School, str], object]
    minutes: str = ""


def mail(bench: Bench, school: School, about: str = "") -> None:
    """Bring the mail that is due on its way; an installation without a mail server sends nothing."""
    if bench.post is not None:
        sender = bench.settings.mail_server.sender
        deliver_mail(bench.store, school, sender, bench.post, bench.now, bench.language(school))


def season_picture(bench: Bench, school: School, about: str = "") -> None:
    """The picture of one season, or of every one that is older than its sheets."""
    if about:
        bring_up_to_date(bench.store, school.id, about, bench.now)
    else:
        bring_all_up_to_date(bench.store, school.id, bench.now)


def reminders(bench: Bench, school: School, about: str = "") -> None:
    """Hosts for whom hours have waited for days, in the daytime."""
    if MORNING <= _hour(bench, school) < EVENING:
        post = Post(bench.settings.host_link_days, bench.settings.public_address)
        remind_hosts(bench.store, school, bench.now(), post, bench.language(school))


def root(bench: Bench, school: School, about: str = "") -> None:
    """Tell the directors the record's root, each day from the evening on."""
    if _hour(bench, school) >= EVENING:
        daily_root(bench.store, bench.asker(school))


def audit(bench: Bench, school: School, about: str = "") -> None:
    """Audit the record once a night."""
    if _hour(bench, school) < MORNING:
        nightly_audit(bench.store, bench.asker(school))


def strictness_audit(bench: Bench, school: School, about: str = "") -> None:
    """Reckon the strictness of every season a second way, once a night: it takes seconds for each."""
    if _hour(bench, school) < MORNING:
        nightly_strictness_audit(bench.store, bench.asker(school))


def recordings(bench: Bench, school: School, about: str = "") -> None:
    """Tell the directors once a day, from the morning on, which recordings of exams have to be deleted."""
    if _hour(bench, school) >= MORNING:
        look_at_recordings(bench.store, bench.asker(school))


def _hour(bench: Bench, school: School) -> int:
    return bench.now().astimezone(ZoneInfo(school.time_zone)).hour


JOBS = (
    Job("mail", mail, minutes="*"),
    Job(JOB, season_picture, minutes="23"),
    Job("reminders", reminders, minutes="7"),
    Job(ROOT, root, minutes="41"),
    Job(AUDIT, audit, minutes="52"),
    Job(RECORDINGS, recordings, minutes="33"),
    Job(STRICTNESS_AUDIT, strictness_audit, minutes="12"),
)
