"""Issuing certificates and checking them, against the bare canonical form and signature of the same documents in the same run."""

import json
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

from app.files.contexts import known_contexts
from app.storage.engine import open_engine
from app.storage.migrating import migrate
from app.storage.work import Store
from app.use_cases.asker import Asker
from app.use_cases.certifying import Signing, decide
from app.use_cases.demo import SCHOOL, fill_school
from app.use_cases.demo_certificates import GRADUATE, add_demo_certificate
from app.use_cases.issuer_files import public_files
from assessments.certificates.checking import check, issuer_of

NOW = datetime(2026, 11, 25, 15, 0, tzinfo=UTC)
SIGNING = Signing("https://school.example", "a passphrase")
MOST_TIMES_THE_BARE_SIGNATURES = 3.0


def measure(certificates: int = 50) -> dict[str, float]:
    """Certificates issued a second, each on disk with both its files; checks a second, each with the list of revoked ones.

    The limit is what it takes to find the two canonical forms and sign them.
    """
    with tempfile.TemporaryDirectory() as folder:
        engine = open_engine(f"sqlite:///{Path(folder) / 'bench.db'}")
        migrate(engine)
        store = Store(engine)
        fill_school(store, SCHOOL, NOW, trainees=1)
        add_demo_certificate(store, SCHOOL, SIGNING, NOW)
        _enrol(store, certificates)
        first, second = Asker(SCHOOL, "director", "", NOW), Asker(SCHOOL, "director-2", "", NOW)
        for number in range(certificates):
            decide(store, first, SIGNING, f"more-{number}", "certify", "All is there.")
        issuing = _timed(
            lambda number: decide(store, second, SIGNING, f"more-{number}", "certify", "So it is."), certificates
        )
        made, issuer, listed = _files(store)
        contexts = known_contexts()
        plain, detailed = ({name: value for name, value in one.items() if name != "proof"} for one in made)
        options = {name: value for name, value in made[0]["proof"][0].items() if name != "proofValue"}
        options["@context"] = plain["@context"]
        bare = _timed(lambda _: [contexts.digest(one) for one in (plain, options, detailed, options)], certificates)
        checking = _timed(lambda _: check(made[0], issuer_of(issuer), listed, NOW, contexts), certificates)
        engine.dispose()
    return {
        "certificates": certificates,
        "issued a second": 1 / issuing,
        "checked a second": 1 / checking,
        "bare signatures a second": 1 / bare,
        "ratio": issuing / bare,
        "limit": MOST_TIMES_THE_BARE_SIGNATURES,
    }


def _enrol(store: Store, certificates: int) -> None:
    """So many more, each with the papers and modules of the demo's graduate."""
    with store.writing(SCHOOL.id) as work:
        person, enrolment = work.people.by_id(GRADUATE), work.enrolments.by_id(GRADUATE)
        papers, modules = work.enrolments.documents(GRADUATE), work.enrolments.modules_done(GRADUATE)
        for number in range(certificates):
            id = f"more-{number}"
            work.people.add(replace(person, id=id, email=f"{id}@halden-row.example"), frozenset({"trainee"}), NOW)
            work.enrolments.add(replace(enrolment, id=id, person_id=id))
            for paper in papers:
                work.enrolments.add_document(id, replace(paper, id=f"{id}-{paper.kind}"))
            for module, day in modules.items():
                work.enrolments.add_module(id, module, day, "director")
        work.commit()


def _files(store: Store) -> tuple[list[dict], dict, dict]:
    with store.reading(SCHOOL.id) as work:
        step = work.certificates.steps(work.certificates.all()[-1].id)[0]
        files = public_files(work, SCHOOL, SIGNING, NOW)
    return [json.loads(step.plain), json.loads(step.detailed)], files["issuer"], files["revoked"]


def _timed(act: Callable[[int], object], rounds: int) -> float:
    """Seconds of one round."""
    start = time.perf_counter()
    for number in range(rounds):
        act(number)
    return (time.perf_counter() - start) / rounds
