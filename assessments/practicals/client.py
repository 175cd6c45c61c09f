"""The client of an exam: who brings them, what they agree to, and what of their intake may be on record.

Intake is codes only: a code that the school gives and the repertoire's caution codes. No name and no diagnosis is kept.
"""

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from typing import Literal

from curriculum.faults import N_, Fault

BroughtBy = Literal["school", "candidate"]
BROUGHT_BY: tuple[BroughtBy, ...] = BroughtBy.__args__
Here = Literal["", "client", "reserve", "nobody"]
HERE: tuple[Here, ...] = Here.__args__
CODE = re.compile(r"(?=.*\d)[A-Z0-9][A-Z0-9-]{0,11}")


@dataclass(frozen=True, slots=True)
class ClientRule:
    """A practical's rule: who brings the client, whether a reserve is named, and what follows when nobody comes.

    After `wait` minutes without the client the reserve is taken; without one, `no_show` says whether the exam is void
    (no attempt used) or counts as an attempt not completed.
    """

    brought_by: Literal["school", "candidate", "either"] = "either"
    reserve: bool = False
    wait: int = 15
    no_show: Literal["void", "not-completed"] = "void"


@dataclass(frozen=True, slots=True)
class Intake:
    """One client: `code` is the school's own, `cautions` are codes of the repertoire as the client told them.

    `no_teacher` says that they were asked and neither teach nor train to; the last three are consents.
    """

    code: str
    brought_by: BroughtBy = "school"
    no_teacher: bool = False
    cautions: tuple[str, ...] = ()
    observed: bool = False
    touched: bool = False
    filmed: bool = False


def intake_faults(intake: Intake, rule: ClientRule, known: Collection[str], who: str) -> Iterator[Fault]:
    """All that keeps somebody from being a client; `known` are the repertoire's caution codes, `who` names the fields."""
    if not CODE.fullmatch(intake.code):
        sentence = N_("the school's code for the client, capitals and figures such as C-014; never a name")
        yield Fault("no-code", sentence, field=f"{who}-code")
    if intake.brought_by not in BROUGHT_BY or rule.brought_by not in ("either", intake.brought_by):
        yield Fault("brought-by", N_("this practical's rules say otherwise who brings the client"), field=f"{who}-by")
    if not intake.no_teacher:
        sentence = N_("ask first: a client of an exam is no teacher and no trainee")
        yield Fault("teacher", sentence, field=f"{who}-no_teacher")
    if not intake.observed:
        sentence = N_("without consent to be observed nobody is the client of an exam")
        yield Fault("not-observed", sentence, field=f"{who}-observed")
    for code in sorted(set(intake.cautions) - set(known)):
        yield Fault("no-caution", N_("{code} is no caution of this repertoire"), {"code": code}, f"{who}-cautions")


def clients_faults(
    client: Intake, reserve: Intake | None, here: str, rule: ClientRule, known: Collection[str]
) -> tuple[Fault, ...]:
    """The same of a client and the reserve together, and of who is said to be here."""
    faults = list(intake_faults(client, rule, known, "client"))
    if reserve is not None:
        faults += intake_faults(reserve, rule, known, "reserve")
        if reserve.code == client.code:
            faults.append(Fault("same-client", N_("the reserve is somebody else"), field="reserve-code"))
    elif rule.reserve:
        faults.append(Fault("no-reserve", N_("this practical's rules ask for a reserve"), field="reserve-code"))
    if here not in HERE or (here == "reserve" and reserve is None):
        faults.append(Fault("who-is-here", N_("say who is here, of those named above"), field="here"))
    return tuple(faults)
