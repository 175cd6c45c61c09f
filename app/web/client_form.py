"""The client of an exam as typed, turned into what a use case keeps."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from app.files.exam_papers import Clients
from app.use_cases.exam_clients import TellClient
from app.web.typed import typed_text, whole_number
from assessments.practicals.client import Intake

WHO = ("client", "reserve")
CONSENTS = ("no_teacher", "observed", "touched", "filmed")


@dataclass(frozen=True, slots=True)
class ClientForm:
    """Both people as typed, and who is here; a reserve without a code is none."""

    client: Intake = Intake("")
    reserve: Intake = Intake("")
    here: str = ""

    @classmethod
    def typed(cls, form: Mapping[str, Sequence[str]]) -> "ClientForm":
        """The form as it was sent."""
        return cls(*(_intake(form, who) for who in WHO), typed_text(form, "here"))

    @classmethod
    def of(cls, told: Clients | None) -> "ClientForm":
        """The form as it stands."""
        return cls(told.client, told.reserve or Intake(""), told.here) if told else cls()

    def request(self, exam_id: str, known: str) -> TellClient:
        """What is to be kept."""
        empty = replace(self.reserve, brought_by="school") == Intake("")
        return TellClient(exam_id, self.client, None if empty else self.reserve, self.here, whole_number(known))


def _intake(form: Mapping[str, Sequence[str]], who: str) -> Intake:
    ticked = {name: bool(typed_text(form, f"{who}-{name}")) for name in CONSENTS}
    cautions = tuple(dict.fromkeys(form.get(f"{who}-cautions", ())))
    code = typed_text(form, f"{who}-code").strip().upper()
    return Intake(code, typed_text(form, f"{who}-by") or "school", cautions=cautions, **ticked)
