"""`throughline measure WHAT FILE.csv …`: agreement, reliability, cut scores and severity from files."""

import argparse
import importlib

WHAT = {
    "agreement": (
        "app.cli.measure_agreement",
        "how far examiners agree: percent, kappa, alpha, intraclass, marks",
    ),
    "reliability": (
        "app.cli.measure_reliability",
        "how far the parts of an exam tell the same: alpha and its error",
    ),
    "consistency": (
        "app.cli.measure_consistency",
        "would the same candidates get the same result again",
    ),
    "cut-score": (
        "app.cli.measure_cut_score",
        "a pass mark, from judges or from examiners' overall impression",
    ),
    "detection": (
        "app.cli.measure_detection",
        "how well an observer tells faults from sound clips",
    ),
    "variance": (
        "app.cli.measure_variance",
        "where the differences between marks come from",
    ),
    "rasch": (
        "app.cli.measure_rasch",
        "severity of examiners, and measures of candidates freed from it",
    ),
    "references": (
        "app.cli.measure_references",
        "open reference values beside the values computed here",
    ),
}


class LateParser(argparse.ArgumentParser):
    """A parser whose options come from a module that is loaded when its word is used."""

    module = ""

    def parse_known_args(self, args=None, namespace=None):
        if self.module:
            module, self.module = self.module, ""
            importlib.import_module(module).add_to(self)
        return super().parse_known_args(args, namespace)


def add_to(parser: argparse.ArgumentParser) -> None:
    words = parser.add_subparsers(title="what to measure", metavar="WHAT", required=True, parser_class=LateParser)
    for word, (module, meaning) in WHAT.items():
        words.add_parser(word, help=meaning, description=meaning).module = module
