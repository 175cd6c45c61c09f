"""Receipts and proofs as the files that people take with them."""

from fastapi.responses import Response

from app.files.receipts import write_continuation, write_receipt
from assessments.records.receipt import Continuation, Receipt
from curriculum.faults import NotFoundError


def receipt_file(receipt: Receipt | None, name: str) -> Response:
    """The file; not there while nobody signed."""
    if receipt is None:
        raise NotFoundError
    return _file(write_receipt(receipt), f"receipt-{name}")


def continuation_file(proof: Continuation | None) -> Response:
    """The file; not there for more events than there are."""
    if proof is None:
        raise NotFoundError
    return _file(write_continuation(proof), f"{proof.older.size}-to-{proof.root.size}")


def _file(text: str, name: str) -> Response:
    safe = "".join(letter for letter in name if letter.isascii() and (letter.isalnum() or letter in "-_"))
    headers = {"content-disposition": f'attachment; filename="{safe}.json"'}
    return Response(text.encode(), media_type="application/json", headers=headers)
