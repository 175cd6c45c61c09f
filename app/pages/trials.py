"""A trainee tries a week: planned sessions in the address of the page, how they would change the standing, nothing stored."""

from fastapi.responses import Response

from app.queries.standing import requirements_of
from app.queries.trials import trial_of
from app.web.door import Pages
from app.web.own_enrolment import own_enrolment
from app.web.session_form import form_choices, offered_hosts
from app.web.trial_form import SHOWN_AT_FIRST, planned_sessions, typed_trial
from app.web.visit import Here
from curriculum.faults import Fault

pages = Pages()


@pages.get("/hours/try", may="see own standing")
def try_a_week(visit: Here) -> Response:
    """The form, and under it what would follow from what is typed there."""
    forms, faults = typed_trial(visit.request.query_params), list[Fault]()
    planned = [session for _, session in planned_sessions(forms, visit.today, faults)]
    enrolment = own_enrolment(visit)
    with visit.store.reading(visit.school_id) as work:
        requirements = requirements_of(work.editions.by_id(enrolment.requirements_id))
        choices = form_choices(requirements, offered_hosts(work.hosts.all(), visit.today), visit.language)
        trial = None
        if planned and not faults:
            trial = trial_of(work, enrolment, requirements, planned, visit.today, visit.language)
    return visit.show(
        "trials/trial.html",
        422 if faults else 200,
        forms=forms,
        at_first=max([SHOWN_AT_FIRST, *(i + 1 for i, form in enumerate(forms) if not form.is_empty)]),
        faults=visit.faults(tuple(faults)),
        choices=choices,
        trial=trial,
    )
