"""How often a program may ask: so many requests with one token in any minute of the clock, counted in this process."""

from datetime import datetime

MINUTE = 60


class Pace:
    """Counts requests by token; only the minute that runs is kept."""

    def __init__(self, most: int) -> None:
        self.most = most
        self._minute = 0
        self._counts: dict[str, int] = {}

    def wait(self, token_id: str, now: datetime) -> int:
        """Count one request; the seconds to wait where it is one too many, else 0."""
        moment = int(now.timestamp())
        if moment // MINUTE != self._minute:
            self._minute, self._counts = moment // MINUTE, {}
        self._counts[token_id] = self._counts.get(token_id, 0) + 1
        return MINUTE - moment % MINUTE if self._counts[token_id] > self.most else 0
