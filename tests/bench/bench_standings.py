"""Every trainee's standing from scratch on two cores: CPU for each must stay flat as trainees are added, memory bounded.

The logs are made where they are solved and handed over as a database would, one trainee at a time; making them is not
counted. What a database adds is in the benchmark of the cohort.
"""

import multiprocessing
import resource
import time
from random import Random

from app.files.requirements import requirements_from_file
from assessments.hours.assessing import assess
from tests.bench.bench_credit import AS_OF, FACTS, SET, invented_log

CORES = 2
MOST_MIB, MOST_TIMES_FEW = 1024, 1.2
KIB, MIB = 1024, 1024 * 1024


def measure(trainees: int = 10_000, entries: int = 500, few: int = 100) -> dict[str, float]:
    """CPU milliseconds for each of `few` and of all `trainees`, their ratio, wall seconds, and MiB of all processes."""
    first, _, _ = _run(few, entries)
    each, wall, memory = _run(trainees, entries)
    return {
        "trainees": trainees, "entries": entries, "cores": CORES, "cpu_ms_each": each, "cpu_ms_each_of_few": first,
        "ratio": each / first, "limit": MOST_TIMES_FEW, "seconds": wall, "mib": memory, "most_mib": MOST_MIB,
    }  # fmt: skip


def _run(trainees: int, entries: int) -> tuple[float, float, float]:
    start = time.perf_counter()
    with multiprocessing.get_context("spawn").Pool(CORES) as pool:
        shares = [(number, trainees, entries) for number in range(CORES)]
        found = pool.map(_share, shares, chunksize=1)
    wall = time.perf_counter() - start
    own = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return 1000 * sum(cpu for cpu, _ in found) / trainees, wall, (own + sum(peak for _, peak in found)) * KIB / MIB


def _share(asked: tuple[int, int, int]) -> tuple[float, int]:
    """Every `CORES`-th trainee, one after the other: CPU seconds, and the most memory in KiB."""
    number, trainees, entries = asked
    requirements, cpu = requirements_from_file(SET), 0.0
    for trainee in range(number, trainees, CORES):
        log = invented_log(requirements, entries, Random(trainee))
        start = time.process_time()
        assess(requirements, log, FACTS, as_of=AS_OF)
        cpu += time.process_time() - start
    return cpu, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
