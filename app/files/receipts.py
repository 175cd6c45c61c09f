"""A receipt as a file (JSON), and a root as the line that a mail tells: what people hold outside the school's record."""

import json
import re

from assessments.records.receipt import Continuation, Entry, Held, Receipt, Recorded, Root
from curriculum.faults import N_, Fault, RefusedError

FORMAT = "Throughline receipt 1: entries and paths as in RFC 9162, section 2.1, with SHA-256"
CONTINUED = "Throughline continuation 1: path as in RFC 9162, section 2.1.4, with SHA-256"
LARGEST = 200_000
LINE = re.compile(r"(?:^|\s)([\w-]{1,36}) ([0-9]{1,12}) ([0-9a-f]{64})(?=\s|$)")
HASH = re.compile(r"[0-9a-f]{64}")
NOT_READ = N_(
    "this is neither a receipt nor a root: give the file as you got it, or the line with the root from a mail"
)
BROKEN = N_("the receipt can't be read at {place}; give the file as you got it")
TOO_LARGE = N_("this is larger than any receipt; give the file as you got it")


def write_receipt(receipt: Receipt) -> str:
    """The receipt as JSON that `read_held` reads."""
    root = receipt.root
    content = {
        "format": FORMAT,
        "school": root.school,
        "size": root.size,
        "root": root.hash.hex(),
        "entries": [_entry(one) for one in receipt.entries],
    }
    return json.dumps(content, ensure_ascii=False, indent=1) + "\n"


def write_continuation(proof: Continuation) -> str:
    """The proof that one root continues another, as JSON that `read_held` reads."""
    older, root = ({"size": one.size, "root": one.hash.hex()} for one in (proof.older, proof.root))
    path = [one.hex() for one in proof.path]
    content = {"format": CONTINUED, "school": proof.root.school, "older": older, **root, "path": path}
    return json.dumps(content, ensure_ascii=False, indent=1) + "\n"


def write_root(root: Root) -> str:
    """The root as one line: school, number of events, hash in hexadecimal."""
    return f"{root.school} {root.size} {root.hash.hex()}"


def read_held(text: str) -> Held:
    """A receipt, a continuation, or a root from a text that has its line; `RefusedError` says what can't be read."""
    if len(text) > LARGEST:
        raise _refused("too-large", TOO_LARGE)
    if text.lstrip().startswith("{"):
        return _receipt(text)
    found = LINE.search(text)
    if found is None:
        raise _refused("no-receipt", NOT_READ)
    school, size, hash = found.groups()
    return Root(school, int(size), bytes.fromhex(hash))


def _entry(entry: Entry) -> dict[str, object]:
    event = entry.event
    return {
        "number": event.number,
        "kind": event.kind,
        "subject": event.subject,
        "actor": event.actor,
        "at": event.at,
        "body": event.body.decode("utf-8", "replace"),
        "path": [one.hex() for one in entry.path],
    }


def _receipt(text: str) -> Receipt | Continuation:
    try:
        content = json.loads(text)
    except (ValueError, RecursionError):
        raise _refused("no-receipt", NOT_READ) from None
    root = _root(_of(content, "school", str), content)
    if "older" in content:
        path = tuple(_hash(hash, "path") for hash in _of(content, "path", list))
        return Continuation(_root(root.school, _of(content, "older", dict)), root, path)
    return Receipt(root, tuple(_read_entry(root.school, one) for one in _of(content, "entries", list)))


def _root(school: str, content: object) -> Root:
    return Root(school, _of(content, "size", int), _hash(_of(content, "root", str), "root"))


def _read_entry(school: str, one: object) -> Entry:
    texts = [_of(one, name, str) for name in ("kind", "subject", "actor", "at")]
    path = tuple(_hash(hash, "path") for hash in _of(one, "path", list))
    try:
        body = _of(one, "body", str).encode()
    except UnicodeEncodeError:
        raise _refused("broken", BROKEN, "body") from None
    return Entry(Recorded(school, _of(one, "number", int), *texts, body), path)


def _of(content: object, name: str, kind: type):  # noqa: ANN202 - an instance of `kind`
    value = content.get(name) if isinstance(content, dict) else None
    if not isinstance(value, kind) or isinstance(value, bool):
        raise _refused("broken", BROKEN, name)
    return value


def _hash(text: object, place: str) -> bytes:
    if not isinstance(text, str) or not HASH.fullmatch(text):
        raise _refused("broken", BROKEN, place)
    return bytes.fromhex(text)


def _refused(code: str, sentence: str, place: str = "") -> RefusedError:
    return RefusedError([Fault(code, sentence, {"place": place} if place else {}, field="receipt")])
