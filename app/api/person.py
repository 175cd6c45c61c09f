"""The person whose token it is."""

from datetime import datetime

from pydantic import Field

from app.api.asking import Asked
from app.api.door import Api
from app.api.shapes import Answer

api = Api("person")


class OwnSchool(Answer):
    id: str
    name: str
    time_zone: str = Field(examples=["Europe/Oslo"], description="A name of the tz database; days are days there.")


class OwnPerson(Answer):
    """Who asks, at which school, and what the token opens."""

    id: str
    name: str
    email: str
    roles: list[str] = Field(examples=[["trainee"]])
    school: OwnSchool
    scopes: list[str] = Field(examples=[["hours:read", "hours:write"]])
    token_ends_at: datetime


@api.get("/me", may="keep own tokens", scope="person:read", answers=OwnPerson)
def me(visit: Asked) -> OwnPerson:
    """Who asks, and what their token opens."""
    token = visit.request.state.token
    school = OwnSchool.model_validate(visit.school)
    return OwnPerson(
        id=visit.person.id, name=visit.person.name, email=visit.person.email, roles=sorted(visit.roles),
        school=school, scopes=sorted(token.scopes), token_ends_at=token.ends_at,
    )  # fmt: skip
