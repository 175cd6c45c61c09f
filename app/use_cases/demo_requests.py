"""What trainees of the demo school have asked: one that waits, one granted, one refused and appealed against."""

from dataclasses import replace
from datetime import datetime, timedelta

from app.storage.work import School, Store
from app.use_cases.asker import Asker
from app.use_cases.requests import AskSchool, answer_request, ask_school, take_own_step

ADDRESS = "http://127.0.0.1:8000"


def add_demo_requests(store: Store, school: School, now: datetime) -> None:
    """Asked over the last two months by the first three trainees."""

    def person(id: str, name: str, days: int) -> Asker:
        return Asker(school, id, name, now - timedelta(days=days))

    with store.reading(school.id) as work:
        names = work.people.names()
    first, second, third = (f"trainee-{number}" for number in (1, 2, 3))
    extension = AskSchool("asked-extension", "extension", "I was ill for seven weeks and lost my place at the studio.")
    ask_school(store, person(second, names[second], 60), "enrolment-2", extension)
    director = person("director", names["director"], 55)
    answer_request(
        store, director, extension.id, "granted", "Ill for seven weeks, with a doctor's note seen. As for others before.", 0,
        ADDRESS,
    )  # fmt: skip
    waiver = AskSchool(
        "asked-waiver", "waiver", "May lessons with one host count beyond the limit? She teaches nearest to me."
    )
    ask_school(store, person(third, names[third], 30), "enrolment-3", waiver)
    refused = "The limit is there so that you see more than one hand. Two hosts nearby have places."
    answer_request(store, replace(director, now=now - timedelta(days=20)), waiver.id, "refused", refused, 0, ADDRESS)
    take_own_step(
        store, person(third, names[third], 10), waiver.id, "appealed", "Both places are an hour away by train.", 1
    )
    leave = (now.date() + timedelta(days=20), now.date() + timedelta(days=50))
    asked = AskSchool("asked-leave", "leave", "I will be abroad to look after my father.", *leave)
    ask_school(store, person(first, names[first], 2), "enrolment-1", asked)
