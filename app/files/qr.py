"""An address as a QR code (ISO/IEC 18004), to be drawn by a page."""

from dataclasses import dataclass
from itertools import groupby

import segno

QUIET_ZONE = 4


@dataclass(frozen=True, slots=True)
class QrPicture:
    """A square of `size` modules, quiet zone included; `path` is the dark ones as SVG path data."""

    size: int
    path: str


def qr_picture(address: str) -> QrPicture:
    """The code, with so much redundancy (level M) that a scratched screen does not matter."""
    rows = list(segno.make(address, error="m", micro=False).matrix_iter(border=QUIET_ZONE))
    return QrPicture(len(rows), "".join(_row(place, row) for place, row in enumerate(rows)))


def _row(place: int, row: bytes) -> str:
    """The dark runs of one row."""
    drawn, across = [], 0
    for dark, run in groupby(row):
        length = len(list(run))
        if dark:
            drawn.append(f"M{across} {place}h{length}v1h-{length}z")
        across += length
    return "".join(drawn)
