"""What an apparatus is set to before an exercise starts."""

import re
from dataclasses import dataclass

FOOT_BARS = ("up", "middle", "low", "down", "any", "off")
HEADRESTS = ("up", "half", "down", "any")
STRAPS = ("none", "hands", "feet", "thighs", "foot-strap", "any")
BOXES = ("none", "long", "short")
ATTACHMENTS = ("none", "top", "middle", "bottom", "any")
HANGS = (
    "none",
    "roll-bar",
    "push-through-bar",
    "trapeze",
    "roll-bar-and-trapeze",
    "arm-springs",
    "leg-springs",
    "loops",
)
SAFETY_STRAPS = ("on", "off")
POSTURES = (
    "supine",
    "prone",
    "side-lying",
    "sitting",
    "kneeling",
    "on-all-fours",
    "standing",
    "inverted",
    "hanging",
)
_COUNT = re.compile(r"(\d{1,2})(?:\s*[-–]\s*(\d{1,2}))?")


@dataclass(frozen=True, slots=True)
class Springs:
    """How many springs: `usual`, within `fewest` to `most`; `every` means all on, so that nothing moves.

    `lighter` and `heavier` hold reasons to leave the usual number; `resist` and `assist` name the movement that the
    springs make harder and the one that they help (leaving one spring out makes the second one harder).
    """

    usual: int
    fewest: int
    most: int
    every: bool = False
    kind: str = ""
    lighter: tuple[str, ...] = ()
    heavier: tuple[str, ...] = ()
    resist: str = ""
    assist: str = ""

    @property
    def count(self) -> str:
        """`all`, `4` or `3-4`."""
        if self.every:
            return "all"
        return str(self.fewest) if self.fewest == self.most else f"{self.fewest}-{self.most}"


@dataclass(frozen=True, slots=True)
class SetUp:
    """Settings of the apparatus and the client's place on it; None or "" means that the apparatus has no such part.

    "any" in a field leaves it as it is found. `attachment` is where springs are usually hooked in, `other_attachments`
    where they may be as well. `hook`, `strap_length`, `board`, `stopper`, `gear` and `barrel_gap` are
    the school's own words and are compared as written. `posture` is a word of `POSTURES`; `body` tells it in full.
    """

    springs: Springs | None = None
    attachment: str | None = None
    other_attachments: tuple[str, ...] = ()
    hook: str = ""
    foot_bar: str | None = None
    headrest: str | None = None
    straps: str | None = None
    strap_length: str = ""
    box: str | None = None
    board: str = ""
    stopper: str = ""
    gear: str = ""
    barrel_gap: str = ""
    hang: str | None = None
    safety_strap: str | None = None
    posture: str | None = None
    body: str = ""
    checks: tuple[str, ...] = ()


def spring_count_from(text: str) -> tuple[int, int, bool] | None:
    """Fewest, most and "every one" from `4`, `3-4` or `all`; None where it is none of these."""
    if text.strip() == "all":
        return 0, 0, True
    found = _COUNT.fullmatch(text.strip())
    if not found:
        return None
    fewest, most = int(found[1]), int(found[2] or found[1])
    return (fewest, most, False) if fewest <= most <= 20 else None
