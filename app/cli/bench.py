"""`throughline bench [NAME …]`: the benchmarks under tests/bench, each a ratio to a limit measured in the same run."""

import argparse
import importlib
import json
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
BENCHES = ROOT / "tests" / "bench"


def add_to(parser: argparse.ArgumentParser) -> None:
    names = sorted(path.stem.removeprefix("bench_") for path in BENCHES.glob("bench_*.py"))
    parser.add_argument("names", nargs="*", metavar="NAME", help=f"which: {', '.join(names)} (all if none is named)")
    parser.set_defaults(act=bench, known=names)


def bench(options: argparse.Namespace) -> int:
    """Run each benchmark's `measure()` and print its figures as one JSON line; 2 if a name is not known."""
    unknown = [name for name in options.names if name not in options.known]
    if unknown:
        print(
            f"throughline: no benchmark is called {', '.join(unknown)}; there are {', '.join(options.known)}",
            file=sys.stderr,
        )
        return 2
    sys.path.insert(0, str(ROOT))
    for name in options.names or options.known:
        print(f"{name} …", file=sys.stderr, flush=True)
        figures = importlib.import_module(f"tests.bench.bench_{name}").measure()
        print(json.dumps({"benchmark": name, **figures}, default=str), flush=True)
    return 0
