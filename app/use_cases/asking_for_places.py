"""A trainee asks a host for a place in a lesson on a day; the host takes or declines; either may go back on it."""

import secrets
from dataclasses import replace
from datetime import timedelta
from zoneinfo import ZoneInfo

from app.storage import host_terms
from app.storage.host_terms import Standing
from app.storage.hosts import Host
from app.storage.mail import OutgoingMail
from app.storage.places import ASKED, DECLINED, GIVEN_BACK, TAKEN, Place
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.use_cases.hours import new_link
from app.use_cases.keeping_hosts import Post
from app.use_cases.keeping_pins import mail_host
from app.wording.dates import long_day, times_text
from app.wording.places import asks_for_place, place_answered, place_given_back
from app.wording.sessions import part_text
from assessments.hours.company import most_beside
from assessments.hours.session import Part
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError

AHEAD, MOST_OPEN = timedelta(days=120), 12
HOLDS = (ASKED, TAKEN)


def ask_for_place(store: Store, asker: Asker, place: Place, post: Post) -> None:
    """Ask, or say everything that stands against it; `place.id` was made by the form, and is taken once."""
    with store.writing(asker.school.id) as work:
        known = work.places.by_id(place.id)
        if known is not None:
            if (known.host_id, known.person_id) != (place.host_id, place.person_id):
                raise NotFoundError
            return
        host = work.hosts.by_id(place.host_id)
        if host is None:
            raise NotFoundError
        faults = place_faults(work, asker, host, place)
        if faults:
            raise RefusedError(faults)
        _keep(work, asker, place)
        link = new_link(work, asker, host.id, post.link_days, post.address)
        words = asks_for_place(asker.school.name, asker.name, *_when(place, asker), f"{link}/places", asker.language)
        mail_host(work, asker, host, *words)
        work.commit()


def answer_place(store: Store, asker: Asker, host: Host, place_id: str, *, take: bool) -> None:
    """The host takes or declines; whoever they took may be declined later. The trainee is told by mail.

    Whoever wants to be asked first has been asked, so that taking a place takes the trainee.
    """
    standing = TAKEN if take else DECLINED
    with store.writing(asker.school.id) as work:
        place = work.places.by_id(place_id)
        if place is None or place.host_id != host.id:
            raise NotFoundError
        if place.standing == standing:
            return
        if place.standing == GIVEN_BACK or place.day < asker.today:
            raise ConflictError(N_("This place was given back, or its day is over. Open the page again."))
        if take and _full(work, host, place):
            sentence = N_("as many as you take are there at that time already; decline, or change how many you take")
            raise RefusedError([Fault("full", sentence, field=f"place-{place.id}")])
        _keep(work, asker, replace(place, standing=standing, since=asker.now))
        if take:
            _take_trainee(work, asker, place)
        person = work.people.by_id(place.person_id)
        subject, words = place_answered(host.name, *_when(place, asker), asker.language, take=take)
        work.mail.add(OutgoingMail(secrets.token_hex(16), person.email, person.name, subject, words, asker.now))
        work.commit()


def give_back(store: Store, asker: Asker, place_id: str, post: Post) -> None:
    """The trainee can't come; the host is told where they had taken them."""
    with store.writing(asker.school.id) as work:
        place = work.places.by_id(place_id)
        if place is None or place.person_id != asker.person_id:
            raise NotFoundError
        if place.standing not in HOLDS:
            return
        _keep(work, asker, replace(place, standing=GIVEN_BACK, since=asker.now))
        if place.standing == TAKEN:
            host = work.hosts.by_id(place.host_id)
            link = f"{new_link(work, asker, host.id, post.link_days, post.address)}/places"
            words = place_given_back(asker.school.name, asker.name, *_when(place, asker), link, asker.language)
            mail_host(work, asker, host, *words)
        work.commit()


def place_faults(work: Work, asker: Asker, host: Host, place: Place) -> list[Fault]:
    """Everything that stands against asking this host for this place."""
    faults = _day_faults(asker, place)
    if not host.offered_on(place.day):
        faults.append(Fault("not-offered", N_("this host teacher is not on offer on that day"), field="day"))
    if not host.teaches_on(place.apparatus):
        faults.append(Fault("mat-only", N_("this host teacher teaches on the mat only"), field="apparatus"))
    standing = work.host_terms.standing(host.id, place.person_id)
    if standing is not None and standing.standing == host_terms.DECLINED:
        faults.append(
            Fault("declined", N_("this host teacher does not take you on; choose another, or ask the school"))
        )
    if _full(work, host, place):
        faults.append(Fault("full", N_("no observer's place is free then; choose another time"), field="start"))
    open_ = [one for one in work.places.of_person(place.person_id, asker.today) if one.standing in HOLDS]
    if any(one.day == place.day and one.start < place.end and place.start < one.end for one in open_):
        faults.append(Fault("overlap", N_("you have asked for, or have, another place at that time"), field="start"))
    if len(open_) >= MOST_OPEN:
        sentence = N_("you have {most} places asked for or to come; give one back first")
        faults.append(Fault("too-many", sentence, {"most": MOST_OPEN}))
    return faults


def observers_beside(work: Work, place: Place) -> int:
    """How many observers the host has taken already who are there at once, at most, during this place."""
    taken = [one for one in work.places.taken_on(place.day) if one.host_id == place.host_id and one.id != place.id]
    return most_beside(place.start, place.end, [(one.start, one.end) for one in taken if one.observes])


def _day_faults(asker: Asker, place: Place) -> list[Fault]:
    local, faults = asker.now.astimezone(ZoneInfo(asker.school.time_zone)), []
    last = asker.today + AHEAD
    if place.end <= place.start:
        faults.append(Fault("end-before-start", N_("the end is not after the start"), field="end"))
    over = place.day == asker.today and place.start <= local.hour * 60 + local.minute
    if over or not asker.today <= place.day <= last:
        values = {"days": AHEAD.days}
        faults.append(Fault("not-ahead", N_("choose a time that is to come, within {days} days"), values, "day"))
    return faults


def _full(work: Work, host: Host, place: Place) -> bool:
    terms = work.host_terms.of(host.id)
    if terms is None or terms.observers_most is None or not place.observes or place.end <= place.start:
        return False
    return observers_beside(work, place) >= terms.observers_most


def _take_trainee(work: Work, asker: Asker, place: Place) -> None:
    terms = work.host_terms.of(place.host_id)
    before = work.host_terms.standing(place.host_id, place.person_id)
    if (before and before.standing == host_terms.TAKEN) or not (before or (terms and terms.ask_first)):
        return
    work.host_terms.put_standing(Standing(place.host_id, place.person_id, host_terms.TAKEN, asker.now))
    body = {"host": place.host_id, "person": place.person_id, "standing": host_terms.TAKEN}
    work.record.append("host-and-trainee", place.host_id, asker.person_id, asker.now, body)


def _keep(work: Work, asker: Asker, place: Place) -> None:
    work.places.put(place)
    body = {"place": place.id, "host": place.host_id, "person": place.person_id, "standing": place.standing}
    body |= {"day": place.day.isoformat(), "start": place.start, "end": place.end}
    body |= {"activity": place.activity, "apparatus": place.apparatus, "level": place.level}
    work.record.append("host-place", place.host_id, asker.person_id, asker.now, body)


def _when(place: Place, asker: Asker) -> tuple[str, str, str]:
    """The day, day and time, and what for, in words."""
    day = long_day(place.day, asker.language.locale)
    part = Part(place.end - place.start, place.activity, place.apparatus, place.level)
    return day, f"{day}, {times_text(place.start, place.end, asker.language)}", part_text(part, asker.language)
