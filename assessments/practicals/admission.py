"""What must stand before an exam begins, what of it is missing, and who let it begin all the same."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from typing import Literal

from curriculum.faults import N_, Fault

Check = Literal["prerequisites", "documents", "fees", "identity", "consent"]
CHECKS: tuple[Check, ...] = Check.__args__
TICKED: tuple[Check, ...] = ("fees", "identity", "consent")
Verdict = Literal["", "admitted", "waived"]


@dataclass(frozen=True, slots=True)
class Admission:
    """One candidate's admission to one exam: what the director ticked, what is granted, and how it was decided.

    `granted` are the adjustments as the school granted them; `to_tell` is what its examiners need to know of them, and
    all that they read. `reason` stands with a waiver.
    """

    ticked: tuple[Check, ...] = ()
    granted: str = ""
    to_tell: str = ""
    verdict: Verdict = ""
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Missing:
    """One thing that is asked for and not there; `title` names a prerequisite or document, "" for what is ticked."""

    check: Check
    title: str = ""


def missing(
    asked: Collection[Check], admission: Admission, prerequisites: Collection[str], documents: Collection[str]
) -> tuple[Missing, ...]:
    """All that is missing, in the order of `CHECKS`; the last two are the titles of what is not met on the day."""
    open_ones = {"prerequisites": prerequisites, "documents": documents}
    found = [Missing(check, title) for check in ("prerequisites", "documents") for title in open_ones[check]]
    found += [Missing(check) for check in TICKED if check not in admission.ticked]
    return tuple(one for one in found if one.check in asked)


def may_begin(asked: Collection[Check], admission: Admission | None) -> bool:
    """Whether the exam can begin: nothing is asked for, or the candidate was admitted, or what is missing was waived."""
    return not asked or bool(admission and admission.verdict)


def admission_faults(admission: Admission, lacking: Collection[Missing]) -> Iterator[Fault]:
    """Why a verdict can't stand: nobody is admitted while something is missing, nothing is waived without a reason."""
    if admission.verdict not in Verdict.__args__:
        yield Fault("no-verdict", N_("choose what is decided"), field="verdict")
    if admission.verdict == "admitted" and lacking:
        yield Fault("missing", N_("something is missing: wait for it, or waive it with a reason"), field="verdict")
    if admission.verdict == "waived":
        if not lacking:
            yield Fault("nothing-missing", N_("nothing is missing: admit the candidate"), field="verdict")
        elif not admission.reason.strip():
            yield Fault("no-reason", N_("say why it is waived"), field="reason")
