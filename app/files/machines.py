"""Machines and their springs read from YAML."""

from app.files.yaml import parse_yaml
from curriculum.faults import RefusedError
from curriculum.sessions.reading_machines import read_machines
from curriculum.sessions.springs import Machine


def machines_from_text(text: bytes | str, name: str) -> tuple[Machine, ...]:
    """The machines in a text that was sent or stored as `name`; raises `RefusedError`."""
    try:
        return read_machines(parse_yaml(text, name))
    except RefusedError as error:
        raise RefusedError(fault if fault.source else fault.within(name) for fault in error.faults) from error
