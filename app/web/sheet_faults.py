"""What keeps a score sheet from being sent, for the top of its page: each with its place in words."""

from collections import Counter

from app.queries.sheets import ScoreSheet
from app.web.visit import ShownFault, Visit
from app.wording.sheets import still_open
from curriculum.faults import N_, Fault

PLACED = N_("{place}: {what}")


def summary(visit: Visit, asked: ScoreSheet, faults: tuple[Fault, ...]) -> list[ShownFault]:
    """The faults for the top of the page, each with its place in words; the gaps of a block in one line."""
    gaps = Counter(fault.field.split(".")[1] for fault in faults if fault.code == "gap")
    shown, places = [], asked.places(visit.language)
    for fault, own in zip(faults, visit.faults(faults), strict=True):
        place, text = places.get(fault.field, ""), own.text
        if fault.code == "gap":
            block = fault.field.split(".")[1]
            number = gaps.pop(block, 0)
            if not number:
                continue
            place, text = places[f"block.{block}"], still_open(number, visit.language)
        shown.append(ShownFault(own.field, visit.say(PLACED, place=place, what=text) if place else text))
    return shown
