"""Every page there is, read from the routes themselves, in each role that may see it.

A new route is found by itself. If its address has places, they get their values here: in VALUES, or in OF_PAGE where one
page needs others than the rest. If it is no page, it is named in DOWNLOADS or in FOR_SCRIPT.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import product

from app.api.door import PREFIX
from app.main import create_app
from app.permissions import ACTS, ANYONE, LINK_HOLDER, ROLES
from app.queries.room_checks import room_id
from app.settings import Settings
from app.use_cases.demo import SCHOOL
from app.web.door import act_of, every_route
from assessments.practicals.paper_code import paper_code
from tests.browser.site import WAITING, Site

VISITOR = "visitor"
HERE = "tests/browser/doors.py"
PLACE = re.compile(r"{(\w+)(?::\w+)?}")
# What the site makes when it is served, for all or for each role: `Site.made`.
MADE = ("",)
# The values of each place in an address; where there are several, each is opened.
VALUES: Mapping[str, tuple[str, ...]] = {
    "slug": (SCHOOL.slug,),
    "session_id": (WAITING,),
    "enrolment_id": ("enrolment-4",),
    "exam_id": ("exam-to-talk-over",),
    "incident_id": MADE,
    "appeal_id": ("appeal-of-the-demo",),
    "drawing_id": ("lists-of-the-demo",),
    "drawn_file": ("bank.csv",),
    "judging_id": ("judging-of-the-demo",),
    "apparatus_id": ("mat",),
    "exercise_id": ("mat-hundred",),
    "level_id": ("basic",),
    "lesson_id": ("first-mat", "chair-and-table"),
    "edition_id": ("requirements-2026-1",),
    "practical_id": ("practical-basic",),
    "file_name": ("comprehensive.yaml",),
    "practical": ("basic",),
    "performance_id": ("quiet-mat", "late-eye"),
    "host_id": ("host-1",),
    "log_file": ("log.csv",),
    "size": ("100",),
    "year": ("2026",),
    "receipt_number": ("70AB88ED37ECCDAA",),
    "request_id": ("asked-leave",),
    "room_id": (room_id("Upper hall"),),
    "code": (paper_code("exam-to-score", "examiner-1"),),
    "certificate_id": ("2026-0001",),
    "written": MADE,
    "draft_id": MADE,
    "plan_id": MADE,
    "attempt_id": MADE,
    "link": MADE,
    "invitation": MADE,
    "day": ("2026-11-25",),
}
# A page that needs other values than the rest: by its address, its places.
OF_PAGE: Mapping[str, Mapping[str, tuple[str, ...]]] = {
    "/hours/sessions/{session_id}/receipt.json": {"session_id": ("enrolment-1-s19",)},
    "/h/{link}/sessions/{session_id}/feedback": {"session_id": ("enrolment-1-s165",)},
    "/editions/{edition_id}": {"edition_id": ("requirements-2026-1", "repertoire-2026-1")},
    "/drafts/{draft_id}/unconfirmed": {"draft_id": ("draft-of-the-repertoire",)},
    "/drafts/{draft_id}/practical": {"draft_id": ("draft-of-a-practical",)},
    "/drafts/{draft_id}/practical/preview": {"draft_id": ("draft-of-a-practical",)},
    "/editions/{edition_id}/case.json": {"edition_id": ("repertoire-2026-1",)},
    "/exams/{exam_id}": {"exam_id": ("exam-1", "exam-to-talk-over", "exam-passed")},
    "/sheets/{exam_id}": {"exam_id": ("exam-to-score", "exam-to-talk-over", "exam-passed")},
    "/trainees/{enrolment_id}/hours/{session_id}": {"session_id": ("enrolment-4-s1",)},
    "/h/{link}/receipts/{receipt_number}/not-me": {"receipt_number": MADE},
    "/spotting/{lesson_id}/{attempt_id}": {"lesson_id": ("first-mat",)},
    "/sheets/{exam_id}/start": {"exam_id": ("exam-coming", "exam-to-score")},
    "/sheets/{exam_id}/room": {"exam_id": ("exam-to-score",)},
    "/sheets/{exam_id}/change": {"exam_id": ("exam-to-talk-over",)},
    "/my-practicals/{exam_id}": {"exam_id": ("exam-of-the-trainee",)},
    "/my-practicals/{exam_id}/appeal": {"exam_id": ("exam-of-the-trainee",)},
    "/exams/{exam_id}/feedback": {"exam_id": ("exam-passed",)},
    "/exams/{exam_id}/feedback.pdf": {"exam_id": ("exam-passed",)},
    "/my-practicals/{exam_id}/feedback.pdf": {"exam_id": ("exam-of-the-trainee",)},
    "/my-certificates/{certificate_id}": {"certificate_id": ("2026-0002",)},
    "/my-certificates/{certificate_id}/certificate.pdf": {"certificate_id": ("2026-0002",)},
    "/issuers/{slug}/achievements/{edition_id}": {"edition_id": ("readiness-2024-1",)},
}
# What is taken away instead of shown.
DOWNLOADS = (
    "/exam-days/{day}/exams.ics",
    "/my-exams.ics",
    "/my-practicals.ics",
    "/proof/{slug}/{size}.json",
    "/hours/log/{log_file}",
    "/trainees/{enrolment_id}/log/{log_file}",
    "/cohort/log/{log_file}",
    "/hours/sessions/{session_id}/receipt.json",
    "/h/{link}/receipts/{receipt_number}.json",
    "/h/{link}/statements/{year}.pdf",
    "/my-file/everything.json",
    "/readiness.pdf",
    "/transcript.pdf",
    "/trainees/{enrolment_id}/transcript.pdf",
    "/my-practicals/{exam_id}/feedback.pdf",
    "/exams/{exam_id}/feedback.pdf",
    "/trainees/{enrolment_id}/readiness.pdf",
    "/certificates/{certificate_id}/certificate.pdf",
    "/my-certificates/{certificate_id}/certificate.pdf",
    "/verify/{slug}/{written}/credential.json",
    "/verify/{slug}/{written}/credential-with-results.json",
    "/editions/{edition_id}/files/{file_name}",
    "/editions/{edition_id}/case.json",
    "/drafts/{draft_id}/download/{file_name}",
    "/lists/{drawing_id}/{drawn_file}",
    "/plans/{plan_id}/plan.yaml",
    "/handbook.pdf",
    "/leaves/{exercise_id}.pdf",
    "/posters/{level_id}.pdf",
    "/sheets/{exam_id}/paper.pdf",
    "/exams/{exam_id}/paper.pdf",
)
# What only script asks for.
FOR_SCRIPT = (
    "/issuers/{slug}",
    "/issuers/{slug}/revoked",
    "/offline-worker.js",
    "/offline/self",
    "/app.webmanifest",
    "/sheets/{exam_id}/records",
)


@dataclass(frozen=True, slots=True)
class Door:
    """One page as one role opens it; `chosen` are the values of its places, "" where the site makes them."""

    role: str
    path: str
    chosen: tuple[tuple[str, str], ...] = ()

    def address(self, site: Site) -> str:
        made = {name: site.made_for(self.role, name) for name, value in self.chosen if not value}
        values = {**dict(self.chosen), **made}
        return site.address + PLACE.sub(lambda found: values[found.group(1)], self.path)

    def __str__(self) -> str:
        values = {name: value or f"{{{name}}}" for name, value in self.chosen}
        return f"{self.role} {PLACE.sub(lambda found: values.get(found.group(1), found.group(0)), self.path)}"


def doors(role: str, path: str) -> Iterator[Door]:
    """The page with each of its values; a place without any stays open, and `unknown_places` names it."""
    values = {**VALUES, **OF_PAGE.get(path, {})}
    places = [place for place in PLACE.findall(path) if place in values]
    for chosen in product(*(values[place] for place in places)):
        yield Door(role, path, tuple(zip(places, chosen, strict=True)))


def every_door() -> list[Door]:
    """Every address that answers, once for each role that may ask; in the order of the routes."""
    app = create_app(Settings("sqlite://"))
    shown = [route for route in every_route(app) if "GET" in route.methods and not route.path.startswith(PREFIX)]
    paths = [(route.path, act_of(route)) for route in shown]
    app.state.store.engine.dispose()
    return [
        door
        for path, act in paths
        for role in ((VISITOR,) if act in (ANYONE, LINK_HOLDER) else sorted(ACTS[act] & set(ROLES)))
        for door in doors(role, path)
    ]


def unknown_places(doors: list[Door]) -> list[str]:
    """A sentence for each place in an address that has no value yet."""
    return [
        f"{door.path}: give {{{place}}} a value from the demo in VALUES, {HERE}"
        for door in doors
        for place in PLACE.findall(door.path)
        if place not in dict(door.chosen)
    ]
