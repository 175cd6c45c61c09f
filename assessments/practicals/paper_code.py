"""The code on a printed score sheet: it says whose sheet of which exam it is, and nothing else; it opens nothing by itself."""

import hashlib

# Crockford's base 32: no letter that could be another; what is written by hand is read kindly.
LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
ALIKE = str.maketrans({"O": "0", "I": "1", "L": "1"})
LENGTH = 8


def paper_code(exam_id: str, examiner_id: str) -> str:
    """Eight letters in two groups: the first 40 bits of a SHA-256, the same for the same sheet."""
    number = int.from_bytes(hashlib.sha256(f"{exam_id}\0{examiner_id}".encode()).digest()[:5], "big")
    letters = "".join(LETTERS[number >> 5 * place & 31] for place in reversed(range(LENGTH)))
    return f"{letters[:4]}-{letters[4:]}"


def read_code(typed: str) -> str:
    """A code as it was typed, in the form of `paper_code`; anything else in no form that any sheet has."""
    letters = "".join(one for one in typed.upper().translate(ALIKE) if one in LETTERS)
    return f"{letters[:4]}-{letters[4:]}"
