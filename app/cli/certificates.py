"""`throughline certificates`: check a certificate's file without any network; write one with what a check needs."""

import argparse
import json
from datetime import UTC, datetime
from pathlib import Path

from app.cli.opening import opened_store
from app.cli.speaking import spoken
from app.clock import system_clock
from app.files.contexts import known_contexts
from app.queries.certificates import life_of
from app.settings import settings_from
from app.use_cases.certifying import signing_of
from app.use_cases.issuer_files import public_files
from assessments.certificates.checking import check, issuer_of
from curriculum.faults import N_, Fault, RefusedError

GOOD = N_("{name}: good. The signature is the issuer's, and it is not revoked.")
WRITTEN = N_("Written to {folder}: credential.json, issuer.json, revoked.json.")
LARGEST = 1_000_000


def add_to(command: argparse.ArgumentParser) -> None:
    verbs = command.add_subparsers(metavar="VERB", required=True)
    verb = verbs.add_parser("check", help="check a certificate's file, without any network")
    verb.add_argument("file", metavar="CREDENTIAL.json", help="the certificate")
    verb.add_argument("--issuer", required=True, metavar="ISSUER.json", help="the issuer's controller document")
    verb.add_argument("--list", required=True, metavar="LIST.json", help="the signed list of revoked certificates")
    verb.add_argument("--at", metavar="TIME", help="as at this moment (ISO 8601, default now)")
    verb.set_defaults(act=_check)
    verb = verbs.add_parser("export", help="write a certificate, its issuer's keys and the list of revoked ones")
    verb.add_argument("number", metavar="NUMBER", help="such as 2026-0007")
    verb.add_argument("--to", required=True, metavar="FOLDER")
    verb.set_defaults(act=_export)


def _check(options: argparse.Namespace) -> int:
    """Raises `RefusedError` with what speaks against the certificate; its exit status is 2."""
    made, controller, listed = (_read(name) for name in (options.file, options.issuer, options.list))
    try:
        check(made, issuer_of(controller), listed, _moment(options.at), known_contexts())
    except RefusedError as refusal:
        raise RefusedError([fault.within(options.file) for fault in refusal.faults]) from None
    print(spoken()(GOOD, name=options.file))
    return 0


def _read(name: str) -> dict:
    try:
        path = Path(name)
        if path.stat().st_size > LARGEST:
            raise ValueError("too large")
        return json.loads(path.read_text("utf-8"))
    except (OSError, ValueError, RecursionError) as error:
        raise RefusedError(
            [Fault("unreadable", N_("can't be read: {why}"), {"why": str(error)}, source=name)]
        ) from None


def _moment(text: str | None) -> datetime:
    if text is None:
        return datetime.now(UTC)
    try:
        return datetime.fromisoformat(text).astimezone(UTC)
    except ValueError:
        raise RefusedError(
            [Fault("no-moment", N_("'{text}' is no date with a time"), {"text": text}, source="--at")]
        ) from None


def _export(options: argparse.Namespace) -> int:
    """Raises `RefusedError` where no school of this installation has the number."""
    settings = settings_from()
    store, now = opened_store(settings), system_clock()
    folder = Path(options.to)
    try:
        for school in store.schools():
            with store.reading(school.id) as work:
                kept = work.certificates.by_id(options.number)
                if kept is None:
                    continue
                plain = life_of(work, kept, now).signed.plain
                files = {"credential": json.loads(plain), **public_files(work, school, signing_of(settings), now)}
            folder.mkdir(parents=True, exist_ok=True)
            for name, content in files.items():
                (folder / f"{name}.json").write_text(json.dumps(content, indent=1, ensure_ascii=False) + "\n", "utf-8")
            print(spoken()(WRITTEN, folder=folder))
            return 0
    finally:
        store.engine.dispose()
    raise RefusedError([Fault("no-number", N_("no certificate here has this number"), source=options.number)])
