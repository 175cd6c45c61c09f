"""The code on a printed sheet: base 32 with D. Crockford's letters (Base32 Encoding, crockford.com/base32), read kindly as
its description says: O is 0, I and L are 1, case and hyphens do not matter."""

import base64
import hashlib

import pytest

from assessments.practicals.paper_code import LETTERS, paper_code, read_code

RFC_4648 = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567"


@pytest.mark.parametrize("exam", ["exam-to-score", "", "Prüfung"])
def test_it_is_what_the_standard_library_writes_in_other_letters(exam: str) -> None:
    digest = hashlib.sha256(f"{exam}\0examiner-1".encode()).digest()
    own = base64.b32encode(digest[:5]).decode().translate(str.maketrans(RFC_4648, LETTERS))
    assert paper_code(exam, "examiner-1").replace("-", "") == own


def test_whose_sheet_it_is_tells_codes_apart_and_no_place_runs_into_the_other() -> None:
    assert paper_code("a", "bc") != paper_code("ab", "c")


def test_it_is_read_as_people_write() -> None:
    assert read_code(" o1il-abcd ") == "0111-ABCD"
    assert read_code("01 11 ab cd") == "0111-ABCD"
