"""A certificate as a tagged PDF (PDF/UA-1) with a code that leads to its check; import this late, typst is heavy."""

from dataclasses import asdict, dataclass
from datetime import datetime

from app.files.pdf import made_pdf
from app.files.qr import QrPicture
from app.wording.languages import ENGLISH, Language
from curriculum.faults import N_

LABELS = {
    "holder": N_("This certificate is held by"),
    "issued": N_("Issued on {day}."),
    "number": N_("Number"),
    "check": N_("Anyone can check it, without an account, by reading the code or at:"),
    "code": N_("The address of the check as a code"),
}


@dataclass(frozen=True, slots=True)
class PrintedCertificate:
    """Every text on the page, in the reader's language."""

    title: str
    school: str
    holder: str
    statement: str
    issued: str
    lasts: str
    number: str
    address: str
    caution: str


def certificate_pdf(one: PrintedCertificate, code: QrPicture, on: datetime, language: Language = ENGLISH) -> bytes:
    """One page. `on` is when it was issued, with its time zone; the same arguments give the same bytes."""
    if on.tzinfo is None:
        raise ValueError("on needs a time zone")
    labels = {name: language(text, day=one.issued) for name, text in LABELS.items()}
    drawn = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {code.size} {code.size}">'
        f'<rect width="{code.size}" height="{code.size}" fill="#fff"/><path d="{code.path}" fill="#000"/></svg>'
    )
    data = {**language.printed(), **asdict(one), "labels": labels, "qr": drawn}
    return made_pdf("certificate.typ", data, int(on.timestamp()))
