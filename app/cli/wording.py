"""`throughline wording extract|check`: the text catalogue of a checkout."""

import argparse

from app.cli.speaking import spoken
from app.files.catalogue import outdated, refresh, translation_faults
from app.settings import ROOT
from curriculum.faults import N_, Fault, RefusedError


def add_to(parser: argparse.ArgumentParser) -> None:
    """The verbs of this noun."""
    verbs = parser.add_subparsers(title="what to do", metavar="VERB", required=True)
    extracting = verbs.add_parser("extract", help="bring the template and every language's file up to the sources")
    extracting.set_defaults(act=_extract)
    checking = verbs.add_parser("check", help="whether they are, and whether translations keep their places")
    checking.set_defaults(act=_check)


def _extract(options: argparse.Namespace) -> int:
    written = refresh()
    for path in written:
        print(path.relative_to(ROOT))
    if not written:
        print(spoken()(N_("The catalogue holds what the sources say.")))
    return 0


def _check(options: argparse.Namespace) -> int:
    sentence = N_("is not what the sources say; run: throughline wording extract")
    faults = [Fault("outdated", sentence, source=str(path.relative_to(ROOT))) for path in outdated()]
    faults += translation_faults()
    if faults:
        raise RefusedError(faults)
    print(spoken()(N_("The catalogue holds what the sources say, and every translation keeps its places.")))
    return 0
