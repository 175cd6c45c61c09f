"""The order in which an attempt shows the moments of a lesson."""

from hashlib import sha256

from assessments.spotting.lesson import Moment


def shuffled(moments: tuple[Moment, ...], seed: str) -> tuple[Moment, ...]:
    """The moments in an order that the seed alone decides, the same on every machine and for ever.

    Each moment goes by the SHA-256 of seed and id, so that a moment taken out later leaves the others' order.
    """
    return tuple(sorted(moments, key=lambda moment: sha256(f"{seed}:{moment.id}".encode()).digest()))
