"""The command line: `throughline NOUN VERB …`, one file per noun, loaded only when it is asked for."""

import argparse
import importlib
import sys
from collections.abc import Sequence

from app.cli.speaking import spoken
from app.wording.faults import fault_line
from curriculum.faults import RefusedError, ThroughlineError

NOUNS = {
    "archive": "a school's whole record as one file, and a school made from one",
    "bench": "measure speed, as ratios to limits measured in the same run",
    "certificates": "check a certificate's file against its issuer's keys and list",
    "hours": "a trainee's standing from files; whether the record and its proofs hold",
    "measure": "agreement, reliability, cut scores and severity, from files",
    "plan": "check or build a session plan, from files",
    "practicals": "draw exercise lists and seat panels, from files",
    "repertoire": "check or compare editions of the repertoire",
    "serve": "set up the database, fill the demo school, and serve it",
    "simulate": "truth checks of the measurement: known parameters, found again or not",
    "springs": "match a spring setting across machines",
    "test": "run every test",
    "work": "do what outlives a request: mail, reminders, season pictures",
    "wording": "bring the text catalogue up to the sources, or check it",
}


def run(arguments: Sequence[str] | None = None) -> int:
    """Run one command; the exit status is 0, or 2 with every fault on its own line."""
    words = list(sys.argv[1:] if arguments is None else arguments)
    options = _parser(words[0] if words else "").parse_args(words)
    try:
        return options.act(options)
    except RefusedError as refusal:
        for fault in refusal.faults:
            print(fault_line(fault, spoken()), file=sys.stderr)
    except ThroughlineError as error:
        print(f"throughline: {spoken()(str(error))}", file=sys.stderr)
    except BrokenPipeError:
        sys.stderr.close()
    return 2


def _parser(asked: str) -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="throughline", description="The school's one system, on the command line.")
    nouns = parser.add_subparsers(title="what to work on", metavar="NOUN", required=True)
    for noun, meaning in NOUNS.items():
        command = nouns.add_parser(noun, help=meaning, description=meaning)
        if noun == asked:
            importlib.import_module(f"app.cli.{noun}").add_to(command)
    return parser
