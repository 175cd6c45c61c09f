"""A receipt as the file that people take with them."""

from fastapi.responses import Response

from app.files.receipts import write_receipt
from assessments.records.receipt import Receipt
from curriculum.faults import NotFoundError


def receipt_file(receipt: Receipt | None, name: str) -> Response:
    """The file; not there while nobody signed."""
    if receipt is None:
        raise NotFoundError
    safe = "".join(letter for letter in name if letter.isascii() and (letter.isalnum() or letter in "-_"))
    headers = {"content-disposition": f'attachment; filename="receipt-{safe}.json"'}
    return Response(write_receipt(receipt).encode(), media_type="application/json", headers=headers)
