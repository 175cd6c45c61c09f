"""A certificate's number with the code that checks it: the number alone opens nothing, so numbers list nobody."""

import hmac
import re

# Crockford's base 32: no I, L, O or U, which are misread.
SIGNS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
CODE_LENGTH = 8
MISREAD = str.maketrans("OIL", "011")
SHAPE = re.compile(r"(\d{4})-?(\d{4,6})-?([0-9A-HJKMNP-TV-Z]{4})-?([0-9A-HJKMNP-TV-Z]{4})")


def number_of(year: int, count: int) -> str:
    """The number of the year's certificate: 2026-0007."""
    return f"{year}-{count:04}"


def code_of(chance: bytes) -> str:
    """A code from 8 bytes of chance, 40 bits."""
    if len(chance) != CODE_LENGTH:
        raise ValueError("8 bytes are needed")
    return "".join(SIGNS[one % len(SIGNS)] for one in chance)


def written(number: str, code: str) -> str:
    """Both as they stand on paper.

    Examples
    --------
    >>> written("2026-0007", "K7QF9M2R")
    '2026-0007-K7QF-9M2R'
    """
    return f"{number}-{code[:4]}-{code[4:]}"


def read(text: str) -> tuple[str, str] | None:
    """Number and code as somebody types them, or None.

    Examples
    --------
    >>> read(" 2026-0007-k7qf-9m2r ")
    ('2026-0007', 'K7QF9M2R')
    >>> read("2026 0007 K7QF 9M2R")
    ('2026-0007', 'K7QF9M2R')
    >>> read("2026-0007")
    """
    found = SHAPE.fullmatch(re.sub(r"[\s-]+", "-", text.strip().upper()).translate(MISREAD))
    return (f"{found[1]}-{found[2]}", found[3] + found[4]) if found else None


def fits(kept: str, typed: str) -> bool:
    """Whether a code is the one that was kept, in a time that says nothing of it."""
    return hmac.compare_digest(kept.encode(), typed.encode())
