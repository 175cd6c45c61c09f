"""Agreement weights for q ordered categories: 1 on the diagonal, less the further two ratings are apart."""

import numpy as np


def identity(q: int) -> np.ndarray:
    return np.eye(q)


def linear(q: int) -> np.ndarray:
    """1 - |i-j| / (q-1)."""
    return 1 - _apart(q) / max(q - 1, 1)


def quadratic(q: int) -> np.ndarray:
    """1 - (i-j)^2 / (q-1)^2."""
    return 1 - _apart(q) ** 2 / max(q - 1, 1) ** 2


def ordinal(q: int) -> np.ndarray:
    """1 - C(|i-j|+1, 2) / C(q, 2) (Gwet 2014, Handbook of Inter-Rater Reliability, 4th ed.)."""
    apart = _apart(q)
    return 1 - apart * (apart + 1) / max(q * (q - 1), 1)


def adjacent(q: int) -> np.ndarray:
    """1 for the same or the next category, else 0."""
    return (_apart(q) <= 1).astype(float)


def from_disagreement(table: np.ndarray) -> np.ndarray:
    """Weights w = 1 - v / max(v) from a table of disagreement v (Cohen 1968, Psychol Bull 70:213-220)."""
    return 1 - table / table.max()


def _apart(q: int) -> np.ndarray:
    places = np.arange(q)
    return np.abs(places[:, None] - places).astype(float)
