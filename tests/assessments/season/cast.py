"""The school's own practical, and seasons of a panel whose severities are known."""

from datetime import date
from pathlib import Path

from app.files.practicals import practical_from_text
from assessments.season.simulated import Simulated, simulated_season

BASIC = practical_from_text((Path(__file__).parents[3] / "seed_data/practicals/basic.yaml").read_text(), "basic.yaml")
SEVERITIES = {"ada": -0.6, "bo": -0.1, "cy": 0.0, "dee": 0.2, "eli": 0.5, "fay": 0.0}
STARTS = date(2026, 1, 5)


def season(candidates: int, severities: dict[str, float] = SEVERITIES, **more):  # noqa: ANN003, ANN201
    return simulated_season(BASIC, Simulated(severities, candidates, **more), STARTS)
