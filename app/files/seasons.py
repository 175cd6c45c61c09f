"""A season's picture as JSON and back: statistics and the reasons for holding them back become plain objects."""

import json
import math
from datetime import date

import numpy as np

from assessments.measurement.statistic import Statistic
from curriculum.faults import Fault

Kept = dict[str, object]


def write_picture(picture: dict[str, object]) -> str:
    """The picture as JSON with sorted keys; what is no finite number becomes null."""
    return json.dumps(plain(picture), ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False)


def read_picture(text: str) -> Kept:
    """The plain objects that `write_picture` wrote."""
    return json.loads(text)


def plain(value: object) -> object:  # noqa: PLR0911 - one line a kind
    """Statistics, faults and arrays as the plain objects that JSON has."""
    if isinstance(value, Statistic):
        names = ("estimate", "low", "high", "n", "withheld", "flags")
        return {name: plain(getattr(value, name)) for name in names}
    if isinstance(value, Fault):
        return {"code": value.code, "sentence": value.sentence, "values": plain(dict(value.values))}
    if isinstance(value, dict):
        return {str(key): plain(one) for key, one in value.items()}
    if isinstance(value, np.ndarray):
        return plain(value.tolist())
    if isinstance(value, list | tuple):
        return [plain(one) for one in value]
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, np.generic):
        return plain(value.item())
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    return value
