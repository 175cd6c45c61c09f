"""A school's whole record as one file, and a school made from one: round trip equal, older archives brought up to date."""

import tempfile
from datetime import datetime
from pathlib import Path

from app.files.archive import Archive, Manifest, write_archive
from app.queries.proof import Audit, audit
from app.storage.archiving import (
    RowsError,
    bring_up_to_date,
    copy_school,
    has_school,
    known_revisions,
    revision_of,
    rows_in,
    rows_out,
    table_names,
)
from app.storage.engine import open_engine
from app.storage.migrating import migrate
from app.storage.work import School, Store
from curriculum.faults import N_, Fault, RefusedError

TOO_NEW = N_(
    "this archive comes from a newer version of the program (its tables have shape {revision}); bring this one up to date"
)
UNKNOWN_TABLE = N_("this archive has a table '{table}' that its version did not have")
HAS_ONE = N_("there is a school {slug} here already; an archive makes a school, it does not change one")
BAD_ROWS = N_("the rows don't fit the tables they are for, so nothing was taken: {why}")
NOT_WHOLE = N_("the record in it does not hold, so nothing was taken: {why}")


def export_school(store: Store, school: School, path: Path, now: datetime) -> Manifest:
    """Write the archive of a school, all of it as of one moment."""
    head = {"school_id": school.id, "slug": school.slug, "name": school.name, "made_at": now.isoformat()}
    head["revision"] = revision_of(store.engine)
    with store.reading(school.id) as work:
        connection = work.session.connection()
        return write_archive(path, head, ((name, rows_out(connection, name, school.id)) for name in table_names()))


def import_school(store: Store, path: Path) -> Audit:
    """Make the school of an archive; raises `RefusedError`, with nothing taken, for whatever does not fit or hold.

    It is laid out first in a database of its own, of the shape it was written in, brought up to date there, and its record
    is checked; only then is it copied here.
    """
    with Archive(path) as archive, tempfile.TemporaryDirectory() as folder:
        manifest = archive.manifest
        if manifest.revision not in known_revisions():
            raise _refusal(path, "too-new", TOO_NEW, revision=manifest.revision)
        if has_school(store.engine, manifest.school_id, manifest.slug):
            raise _refusal(path, "has-one", HAS_ONE, slug=manifest.slug)
        archive.read_through()
        aside = open_engine(f"sqlite:///{folder}/school.db")
        try:
            _lay_out(aside, archive, path)
            with Store(aside).reading(manifest.school_id) as work:
                found = audit(work)
            if found.faults:
                raise _refusal(path, "not-whole", NOT_WHOLE, why=found.faults[0].text())
            copy_school(aside, store.engine, manifest.school_id)
        except RowsError as error:
            raise _refusal(path, "bad-rows", BAD_ROWS, why=str(error)) from error
        finally:
            aside.dispose()
    return found


def _lay_out(aside, archive: Archive, path: Path) -> None:  # noqa: ANN001 - an engine
    migrate(aside, archive.manifest.revision)
    try:
        rows_in(aside, archive.tables())
    except KeyError as error:
        raise _refusal(path, "unknown-table", UNKNOWN_TABLE, table=error.args[0]) from error
    bring_up_to_date(aside)


def _refusal(path: Path, code: str, sentence: str, **values: object) -> RefusedError:
    return RefusedError([Fault(code, sentence, values, source=str(path))])
