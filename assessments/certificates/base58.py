"""Base58 as Bitcoin writes it, and keys and signatures in the multibase form that W3C's Controlled Identifiers 1.0 asks for."""

ALPHABET = "123456789ABCDEFGHJKLMNPQRSTUVWXYZabcdefghijkmnopqrstuvwxyz"
ED25519 = b"\xed\x01"
KEY_BYTES, SIGNATURE_BYTES = 32, 64
# A longer text can't be a key or a signature, and would take long to read.
LONGEST = 120


def base58(content: bytes) -> str:
    """Bytes as base58; a leading zero byte becomes a leading 1.

    Examples
    --------
    From the internet draft "The Base58 Encoding Scheme" (draft-msporny-base58):

    >>> base58(b"Hello World!")
    '2NEpo7TZRRrLZSi2U'
    >>> base58(bytes.fromhex("0000287fb4cd"))
    '11233QC4'
    """
    number, signs = int.from_bytes(content, "big"), ""
    while number:
        number, rest = divmod(number, 58)
        signs = ALPHABET[rest] + signs
    return "1" * (len(content) - len(content.lstrip(b"\0"))) + signs


def from_base58(text: str) -> bytes:
    """The bytes of a base58 text; raises `ValueError` for anything else.

    Examples
    --------
    >>> from_base58("11233QC4").hex()
    '0000287fb4cd'
    """
    if len(text) > LONGEST:
        raise ValueError("too long")
    number = 0
    for sign in text:
        number = number * 58 + ALPHABET.index(sign)
    zeros = len(text) - len(text.lstrip("1"))
    return bytes(zeros) + number.to_bytes((number.bit_length() + 7) // 8, "big")


def multikey(public: bytes) -> str:
    """An Ed25519 public key (32 bytes) as `publicKeyMultibase`."""
    return "z" + base58(ED25519 + public)


def from_multikey(text: str) -> bytes:
    """The 32 bytes of an Ed25519 `publicKeyMultibase`; raises `ValueError` for another kind of key."""
    content = from_base58(text[1:]) if text.startswith("z") else b""
    if content[:2] != ED25519 or len(content) != KEY_BYTES + len(ED25519):
        raise ValueError("no Ed25519 key")
    return content[2:]


def signature_of(text: str) -> bytes:
    """The 64 bytes of a `proofValue`; raises `ValueError` for anything else."""
    content = from_base58(text[1:]) if text.startswith("z") else b""
    if len(content) != SIGNATURE_BYTES:
        raise ValueError("no Ed25519 signature")
    return content
