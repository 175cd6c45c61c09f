"""The papers of an exam as JSON: the client with the screening of the list, the admission, and the recording."""

import json
from dataclasses import asdict, dataclass
from datetime import date

from assessments.practicals.admission import Admission
from assessments.practicals.client import Intake
from assessments.practicals.recording import Recording
from assessments.practicals.screening import Swap


@dataclass(frozen=True, slots=True)
class Clients:
    """The client and the reserve, who of them is here ("" while nobody has looked), and what the screening swapped."""

    client: Intake
    reserve: Intake | None = None
    here: str = ""
    swaps: tuple[Swap, ...] = ()

    @property
    def present(self) -> Intake:
        """Whose cautions count: the reserve once they are here instead, else the client."""
        return self.reserve if self.here == "reserve" and self.reserve else self.client


def write_clients(clients: Clients) -> str:
    return json.dumps(asdict(clients), sort_keys=True)


def read_clients(content: str) -> Clients:
    """The value that `write_clients` wrote."""
    found = json.loads(content)
    return Clients(
        _intake(found["client"]),
        _intake(found["reserve"]) if found["reserve"] else None,
        found["here"],
        tuple(_swap(one) for one in found["swaps"]),
    )


def _intake(found: dict) -> Intake:
    return Intake(**{**found, "cautions": tuple(found["cautions"])})


def _swap(found: dict) -> Swap:
    return Swap(**{**found, "cautions": tuple(found["cautions"]), "gave_way": tuple(found["gave_way"])})


def write_admission(admission: Admission) -> str:
    return json.dumps(asdict(admission), sort_keys=True)


def read_admission(content: str) -> Admission:
    """The value that `write_admission` wrote."""
    found = json.loads(content)
    return Admission(**{**found, "ticked": tuple(found["ticked"])})


def write_recording(recording: Recording) -> str:
    return json.dumps({name: _day_text(value) for name, value in asdict(recording).items()}, sort_keys=True)


def read_recording(content: str) -> Recording:
    """The value that `write_recording` wrote."""
    found = json.loads(content)
    days = {name: date.fromisoformat(found[name]) if found[name] else None for name in ("longer_until", "deleted_on")}
    return Recording(**{**found, **days})


def _day_text(value: str | date | None) -> str:
    return value.isoformat() if isinstance(value, date) else value or ""
