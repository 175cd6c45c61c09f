"""The way from one set-up into the next: derived field by field in a safe order, or as an author wrote it."""

from dataclasses import dataclass

from curriculum.faults import N_
from curriculum.repertoire.edition import Apparatus, ChangeSeconds, Edition
from curriculum.repertoire.exercise import Exercise, Transition
from curriculum.repertoire.set_up import SetUp
from curriculum.sessions.changes import Change, change, spring_changes


@dataclass(frozen=True, slots=True)
class Passage:
    """The transition between two exercises. `derived` comes from the set-ups; `authored` wins where there is one."""

    derived: tuple[Change, ...]
    derived_seconds: int
    authored: Transition | None = None

    @property
    def seconds(self) -> int:
        """The seconds that count."""
        return self.derived_seconds if self.authored is None else self.authored.seconds

    @property
    def steps(self) -> tuple[str, ...]:
        """The steps that count, as English sentences."""
        if self.authored is not None and self.authored.steps:
            return self.authored.steps
        return tuple(one.text() for one in self.derived)

    @property
    def disagree(self) -> bool:
        """Whether an author's seconds differ from the derived ones; then both are shown."""
        return self.authored is not None and self.authored.seconds != self.derived_seconds


def passage(edition: Edition, before: Exercise, after: Exercise, foot_bar: str = "", level: str = "") -> Passage:
    """The transition from one exercise into another on a machine whose bar a foot can lower, or which locks."""
    changes = derived_changes(edition, before, after)
    seconds = sum(one.seconds for one in changes) or edition.change_seconds.same
    return Passage(changes, seconds, authored(before, after.id, foot_bar, level))


def authored(before: Exercise, to: str, foot_bar: str = "", level: str = "") -> Transition | None:
    """The author's transition that fits machine and level best, or None.

    Where the foot bar is not known, the slowest of the ways counts, since it works on either.
    """
    fitting = [
        one
        for one in before.transitions
        if one.to == to and one.level in ("", level) and (not foot_bar or one.foot_bar in ("", foot_bar))
    ]
    return max(
        fitting, key=lambda one: (one.level != "", foot_bar != "" and one.foot_bar != "", one.seconds), default=None
    )


def derived_changes(edition: Edition, before: Exercise, after: Exercise) -> tuple[Change, ...]:
    """Every change between the two set-ups, in a safe order; empty where nothing changes."""
    cost = edition.change_seconds
    if before.apparatus != after.apparatus:
        return _to_another_apparatus(edition, after, cost)
    old, new = before.set_up, after.set_up
    changes = (
        *_straps_off(old, new, cost),
        *_leaving(old, new, cost),
        *_safety_strap_on(old, new, cost),
        *_springs(old, new, cost),
        *_fittings(old, new, cost),
        *_bars(old, new, cost),
        *_box(old, new, cost),
        *_safety_strap_off(old, new, cost),
        *_straps_on(old, new, cost),
        *_taking_place(old, new, cost),
    )
    equipment = any(one.kind != "place" for one in changes)
    return (*_at_rest(edition.apparatus_named(after.apparatus), cost), *changes) if equipment else changes


def _at_rest(apparatus: Apparatus | None, cost: ChangeSeconds) -> tuple[Change, ...]:
    how = (apparatus.at_rest if apparatus else "") or N_("Bring the apparatus to rest, client still.")
    return (change("at-rest", "place", "{how}", cost.at_rest, how=how),)


def _to_another_apparatus(edition: Edition, after: Exercise, cost: ChangeSeconds) -> tuple[Change, ...]:
    apparatus = edition.apparatus_named(after.apparatus)
    name = apparatus.name if apparatus else after.apparatus
    ready = _readying(after.set_up, cost)
    return (
        change("dismount", "place", N_("Bring the apparatus to rest and help the client off"), cost.dismount),
        *ready,
        change("mount", "place", N_("Client on to the {apparatus}"), cost.mount, apparatus=name),
    )


def _readying(new: SetUp, cost: ChangeSeconds) -> tuple[Change, ...]:
    """What has to be set on an apparatus nobody has used yet: its springs and its box; the rest stands ready."""
    bare = SetUp(springs=None, box="none")
    return (*_safety_strap_on(bare, new, cost), *spring_changes(None, new.springs, cost), *_box(bare, new, cost))


def _straps_off(old: SetUp, new: SetUp, cost: ChangeSeconds) -> tuple[Change, ...]:
    if old.straps in (None, "none", "any") or new.straps in (old.straps, "any", None):
        return ()
    seconds = _strap_cost(old.straps, cost)
    return (change("straps-off", "strap", N_("Straps off the {where}, hung up"), seconds, where=_where(old.straps)),)


def _straps_on(old: SetUp, new: SetUp, cost: ChangeSeconds) -> tuple[Change, ...]:
    if new.straps in (None, "none", "any"):
        return ()
    where = _where(new.straps)
    if new.straps != old.straps:
        return (change("straps-on", "strap", N_("Straps on the {where}"), _strap_cost(new.straps, cost), where=where),)
    if _differ(old.strap_length, new.strap_length):
        sentence = N_("Straps to their new length: {length}")
        return (change("strap-length", "strap", sentence, cost.straps_hands, length=new.strap_length),)
    return ()


def _where(straps: str | None) -> str:
    return {"hands": "hands", "thighs": "thighs", "foot-strap": "feet"}.get(straps or "", "feet")


def _strap_cost(straps: str | None, cost: ChangeSeconds) -> int:
    return cost.straps_hands if straps == "hands" else cost.straps_feet


def _needs_leaving(old: SetUp, new: SetUp) -> bool:
    return _box_changes(old, new) or _differ(old.hang, new.hang) or _differ(old.board, new.board)


def _leaving(old: SetUp, new: SetUp, cost: ChangeSeconds) -> tuple[Change, ...]:
    if not _needs_leaving(old, new):
        return ()
    return (change("dismount", "place", N_("Client off the apparatus"), cost.dismount),)


def _taking_place(old: SetUp, new: SetUp, cost: ChangeSeconds) -> tuple[Change, ...]:
    if _needs_leaving(old, new):
        return (change("mount", "place", N_("Client on to the apparatus"), cost.mount),)
    if _differ(old.posture, new.posture):
        return (change("posture", "place", N_("Client changes to {posture}"), cost.posture, posture=new.posture),)
    return ()


def _springs(old: SetUp, new: SetUp, cost: ChangeSeconds) -> tuple[Change, ...]:
    """Springs changed and hooked in elsewhere; a bar, trapeze or loops hooked on bring their own, not counted again."""
    if _differ(old.hang, new.hang):
        return ()
    return (*spring_changes(old.springs, new.springs, cost), *_hooked_in(old, new, cost))


def _hooked_in(old: SetUp, new: SetUp, cost: ChangeSeconds) -> tuple[Change, ...]:
    if not (_differ(old.attachment, new.attachment) or _differ(old.hook, new.hook)):
        return ()
    to = " ".join(part for part in (new.attachment, new.hook) if part)
    return (change("attachment", "spring", N_("Springs hooked in at: {to}"), cost.attachment, to=to),)


def _fittings(old: SetUp, new: SetUp, cost: ChangeSeconds) -> tuple[Change, ...]:
    found = []
    for name, sentence in (
        ("gear", N_("Gear to: {to}")),
        ("stopper", N_("Stopper to: {to}")),
        ("barrel_gap", N_("Gap of the barrel to: {to}")),
    ):
        if _differ(getattr(old, name), getattr(new, name)):
            found.append(change(name, "fitting", sentence, getattr(cost, name), to=getattr(new, name)))
    return tuple(found)


def _bars(old: SetUp, new: SetUp, cost: ChangeSeconds) -> tuple[Change, ...]:
    found = []
    if _differ(old.foot_bar, new.foot_bar):
        sentence = N_("Foot bar {to}, by hand; by a foot only where machine and maker's manual allow it, client still")
        if new.foot_bar == "up":
            sentence = N_("Foot bar {to}, latch tried with a push of the hand")
        found.append(change("foot-bar", "bar", sentence, cost.foot_bar, to=new.foot_bar))
    if _differ(old.headrest, new.headrest):
        found.append(change("headrest", "headrest", N_("Headrest {to}"), cost.headrest, to=new.headrest))
    if _differ(old.hang, new.hang):
        found.append(_hung(new, cost))
    if _differ(old.board, new.board):
        found.append(change("board", "fitting", N_("Board: {to}"), cost.board, to=new.board))
    return tuple(found)


def _hung(new: SetUp, cost: ChangeSeconds) -> Change:
    if new.hang == "none":
        return change("hang", "bar", N_("Bar, loops and springs hooked away"), cost.hang)
    if new.springs is None:
        return change("hang", "bar", N_("Change to: {to}"), cost.hang, to=new.hang)
    where = f" ({new.attachment})" if new.attachment else ""
    sentence = N_("Change to: {to}{where}, {count} spring(s), hooks tried by hand")
    return change("hang", "bar", sentence, cost.hang, to=new.hang, where=where, count=new.springs.usual)


def _box_changes(old: SetUp, new: SetUp) -> bool:
    return _differ(old.box, new.box) and not (old.box is None and new.box == "none")


def _box(old: SetUp, new: SetUp, cost: ChangeSeconds) -> tuple[Change, ...]:
    if not _box_changes(old, new):
        return ()
    if new.box == "none":
        return (change("box-off", "box", N_("Box off the carriage and away"), cost.box_off),)
    if old.box in (None, "none"):
        return (change("box-on", "box", N_("Box on the carriage, {to}"), cost.box_on, to=new.box),)
    return (change("box-turn", "box", N_("Box turned: {to}"), cost.box_turn, to=new.box),)


def _safety_strap_on(old: SetUp, new: SetUp, cost: ChangeSeconds) -> tuple[Change, ...]:
    if new.safety_strap != "on" or old.safety_strap == "on":
        return ()
    return (change("safety-strap-on", "strap", N_("Safety strap on, tried"), cost.safety_strap),)


def _safety_strap_off(old: SetUp, new: SetUp, cost: ChangeSeconds) -> tuple[Change, ...]:
    if old.safety_strap != "on" or new.safety_strap == "on":
        return ()
    return (change("safety-strap-off", "strap", N_("Safety strap off, now that nothing pulls"), cost.safety_strap),)


def _differ(old: str | None, new: str | None) -> bool:
    return bool(new) and new != "any" and old != new
