"""Sign in, sign out, and the first page of each role."""

from fastapi.responses import Response

from app.permissions import ANYONE, DIRECTOR, EXAMINER, OUTSIDER, TRAINEE
from app.use_cases import signing_in
from app.web.door import Pages
from app.web.public_school import school_named
from app.web.visit import COOKIE, Here, Visit
from curriculum.faults import N_, RefusedError

pages = Pages()
FIRST = ((TRAINEE, "/today"), (DIRECTOR, "/cohort"), (EXAMINER, "/sheets"), (OUTSIDER, "/sheets"))


@pages.get("/", may=ANYONE)
def first_page(visit: Here) -> Response:
    """The page a person most likely wants: theirs, or the way in."""
    known = visit.request.app.state.paths
    own = (path for role, path in FIRST if role in visit.roles and path in known)
    return visit.go(next(own, "/repertoire" if visit.person else "/sign-in"))


@pages.get("/sign-in", may=ANYONE)
def choose_school(visit: Here) -> Response:
    """The only school's sign-in, or the list of schools."""
    schools = visit.store.schools()
    if len(schools) == 1:
        return visit.go(f"/sign-in/{schools[0].slug}")
    return visit.show("sign_in/schools.html", schools=schools)


@pages.get("/sign-in/{slug}", may=ANYONE)
def sign_in_form(visit: Here, slug: str) -> Response:
    visit.school = school_named(visit, slug)
    return visit.show("sign_in/sign_in.html", email="", faults=[])


@pages.post("/sign-in/{slug}", may=ANYONE)
def sign_in(visit: Here, slug: str) -> Response:
    """Take the email and password; the same page with every reason if they can't be taken."""
    school = visit.school = school_named(visit, slug)
    email = visit.typed("email")
    try:
        token = signing_in.sign_in(visit.store, visit.settings, school.id, email, visit.typed("password"), visit.now)
    except RefusedError as refusal:
        return visit.show("sign_in/sign_in.html", 422, email=email, faults=visit.faults(refusal.faults))
    answer = visit.go("/")
    _keep(answer, visit, f"{school.id}.{token}")
    return answer


@pages.post("/sign-out", may="sign out")
def sign_out(visit: Here) -> Response:
    signing_in.sign_out(visit.store, visit.school_id, visit.token)
    return _left(visit, visit.say(N_("You are signed out.")))


@pages.post("/sign-out-everywhere", may="sign out")
def sign_out_everywhere(visit: Here) -> Response:
    signing_in.sign_out_everywhere(visit.store, visit.school_id, visit.person.id)
    return _left(visit, visit.say(N_("You are signed out on every device.")))


def _keep(answer: Response, visit: Visit, value: str) -> None:
    days = visit.settings.sign_in_days
    answer.set_cookie(
        COOKIE, value, max_age=days * 86400, httponly=True, samesite="lax", secure=visit.settings.secure_cookies
    )


def _left(visit: Visit, notice: str) -> Response:
    answer = visit.go(f"/sign-in/{visit.school.slug}", notice)
    answer.delete_cookie(COOKIE)
    return answer
