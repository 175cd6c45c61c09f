"""The life of a certificate: what was done with it, step by step, and what may be done next."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Literal

from curriculum.faults import N_, Fault

Step = Literal["issued", "extended", "suspended", "resumed", "notice", "notice-lifted", "revoked", "given-up"]
State = Literal["valid", "expired", "suspended", "given-up", "revoked"]
FINAL = ("given-up", "revoked")
# Days from the notice of a revocation in which its holder may appeal.
APPEAL_DAYS = 14
OVER = N_("this certificate has ended; nothing more can be done with it")
NOT_NOW = N_("that can't be done with this certificate as it stands")
TOO_EARLY = N_("its holder may appeal until {day}; it can be revoked after that")
NOT_LATER = N_("choose a day after the one until which it is valid now")


@dataclass(frozen=True, slots=True)
class Taken:
    """One step: `until` is the end of validity it set (issued, extended) or of the time to appeal (notice)."""

    step: Step
    at: datetime
    until: datetime | None = None


def valid_until(steps: Sequence[Taken]) -> datetime | None:
    """When it ends by itself; None where it does not."""
    return [one.until for one in steps if one.step in ("issued", "extended")][-1]


def standing_notice(steps: Sequence[Taken]) -> Taken | None:
    """The notice of a revocation that was neither lifted nor carried out."""
    last = next((one for one in reversed(steps) if one.step in ("notice", "notice-lifted", "revoked")), None)
    return last if last is not None and last.step == "notice" else None


def is_suspended(steps: Sequence[Taken]) -> bool:
    last = next((one.step for one in reversed(steps) if one.step in ("suspended", "resumed")), "resumed")
    return last == "suspended"


def state_at(steps: Sequence[Taken], now: datetime) -> State:
    """What a check says of it. A notice is not public: until it is revoked a certificate stays what it was."""
    ended = next((one.step for one in steps if one.step in FINAL), None)
    if ended is not None:
        return ended
    if is_suspended(steps):
        return "suspended"
    end = valid_until(steps)
    return "expired" if end is not None and now > end else "valid"


def step_faults(steps: Sequence[Taken], new: Taken, now: datetime) -> tuple[Fault, ...]:
    """Why a step can't follow those that were taken; none if it can."""
    if any(one.step in FINAL for one in steps):
        return (Fault("ended", OVER),)
    notice = standing_notice(steps)
    fits = {
        "suspended": not is_suspended(steps),
        "resumed": is_suspended(steps),
        "notice": notice is None,
        "notice-lifted": notice is not None,
        "revoked": notice is not None,
        "extended": valid_until(steps) is not None,
        "given-up": True,
    }
    if not fits.get(new.step, False):
        return (Fault("not-now", NOT_NOW),)
    if new.step == "revoked" and now <= notice.until:
        return (Fault("too-early", TOO_EARLY, {"day": notice.until.date().isoformat()}),)
    if new.step == "extended" and (new.until is None or new.until <= valid_until(steps)):
        return (Fault("not-later", NOT_LATER, field="until"),)
    return ()


def appeal_until(notice: datetime) -> datetime:
    """The end of the time to appeal."""
    return notice + timedelta(days=APPEAL_DAYS)
