"""PDFs by typst: tagged and accessible (PDF/UA-1), the same data give the same bytes. Import late, typst is heavy."""

import json
import unicodedata
from pathlib import Path

import typst

TEMPLATES = Path(__file__).with_name("typst")
DIRECTIONS = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


def made_pdf(template: str, data: dict, timestamp: int) -> bytes:
    """The template filled with data; `timestamp` (seconds since 1970, UTC) becomes the file's date.

    PDF/UA-1 with the bundled fonts; a script they lack takes the system's, and at last a tagged PDF that shows the
    missing characters as boxes.
    """
    inputs = {"data": json.dumps(printable(data), ensure_ascii=False)}
    for system_fonts, standards in ((False, ["ua-1"]), (True, ["ua-1"]), (True, [])):
        try:
            return typst.compile(
                str(TEMPLATES / template),
                root=str(TEMPLATES),
                font_paths=typst.Fonts(include_system_fonts=system_fonts),
                sys_inputs=inputs,
                pdf_standards=standards,
                timestamp=timestamp,
                format="pdf",
            )
        except typst.TypstError as error:
            if not standards or "could not be displayed" not in str(error):
                raise
    raise AssertionError("the last try returns or raises")


def one_page_pdf(
    template: str, data: dict, timestamp: int, sizes: tuple[float, ...] = (9, 8.4, 7.8, 7.2, 6.6)
) -> bytes:
    """As `made_pdf`, in the largest of the letter sizes (in points) at which it stays on one page.

    The template labels the number of its pages `<pages>` and takes its size from `data.size`.
    """
    for size in sizes:
        inputs = {"data": json.dumps(printable(data | {"size": size}), ensure_ascii=False)}
        pages = typst.query(
            str(TEMPLATES / template), "<pages>", field="value", one=True, root=str(TEMPLATES), sys_inputs=inputs
        )
        if int(pages) == 1:
            break
    return made_pdf(template, data | {"size": size}, timestamp)


def printable(value):  # noqa: ANN001, ANN201 - plain data of any shape
    """Every text without control characters, overrides of direction and halves of characters."""
    if isinstance(value, dict):
        return {key: printable(one) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [printable(one) for one in value]
    return "".join(map(_character, value)).strip() if isinstance(value, str) else value


def _character(one: str) -> str:
    if one.isspace():
        return " "
    if one in DIRECTIONS or unicodedata.category(one) in ("Cc", "Cn"):
        return ""
    return "\ufffd" if unicodedata.category(one) == "Cs" else one
