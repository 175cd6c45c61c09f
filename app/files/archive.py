"""A school's archive: a ZIP with a manifest and one file of JSON lines for each table (docs/archive.md)."""

import hashlib
import json
import zipfile
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from curriculum.faults import N_, Fault, RefusedError

FORMAT, VERSION = "throughline-archive", 1
MANIFEST = "manifest.json"
LARGEST_MANIFEST, LONGEST_LINE = 1_000_000, 20_000_000
NO_ARCHIVE = N_("this is no archive of a school: {why}")
NEWER = N_("this archive has form {version}; this program reads form {known}")
DAMAGED = N_("table {table} is damaged: its content is not what the archive says")
NO_LINE = N_("table {table}, line {line}: no JSON object")
# Rows shrink to a tenth or a twentieth; what grows to so many times its size was made to harm.
MOST_GROWN = 200


@dataclass(frozen=True, slots=True)
class Manifest:
    """Whose archive it is, of which shape (the number of the last migration), and each table's rows and SHA-256."""

    school_id: str
    slug: str
    name: str
    revision: str
    made_at: str
    tables: Mapping[str, tuple[int, str]]


def write_archive(
    path: Path, head: Mapping[str, str], tables: Iterable[tuple[str, Iterable[Mapping[str, Any]]]]
) -> Manifest:
    """Write it beside its place and move it there whole; `head` are the manifest's other members."""
    partial = path.with_name(path.name + ".part")
    written: dict[str, tuple[int, str]] = {}
    with zipfile.ZipFile(partial, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, rows in tables:
            with archive.open(f"tables/{name}.jsonl", "w", force_zip64=True) as file:
                written[name] = _write(file, rows)
        manifest = Manifest(**head, tables=written)
        content = {"format": FORMAT, "version": VERSION, **asdict(manifest)}
        archive.writestr(MANIFEST, json.dumps(content, indent=1, ensure_ascii=False))
    partial.replace(path)
    return manifest


def _write(file: Any, rows: Iterable[Mapping[str, Any]]) -> tuple[int, str]:  # noqa: ANN401 - a file to write to
    found, counted = hashlib.sha256(), 0
    for row in rows:
        line = json.dumps(row, ensure_ascii=False, separators=(",", ":")).encode() + b"\n"
        file.write(line)
        found.update(line)
        counted += 1
    return counted, found.hexdigest()


class Archive:
    """An archive that is read; raises `RefusedError` for what is none, is of a newer form, or was damaged."""

    def __init__(self, path: Path) -> None:
        self.name = str(path)
        try:
            self.zip = zipfile.ZipFile(path)
            self.manifest = self._manifest()
        except (OSError, zipfile.BadZipFile, KeyError, ValueError, TypeError, AttributeError, RecursionError) as error:
            raise self._refusal("no-archive", NO_ARCHIVE, why=str(error)) from error

    def __enter__(self) -> "Archive":
        return self

    def __exit__(self, *_: object) -> None:
        self.zip.close()

    def tables(self) -> Iterator[tuple[str, Iterator[dict[str, Any]]]]:
        """Each table's rows, read as they are asked for; what was damaged is refused at the table's end."""
        for name in self.manifest.tables:
            yield name, self._rows(name)

    def read_through(self) -> None:
        """Refuse whatever was damaged, before anything is made of it."""
        for _, rows in self.tables():
            for _ in rows:
                pass

    def _manifest(self) -> Manifest:
        info = self.zip.getinfo(MANIFEST)
        if info.file_size > LARGEST_MANIFEST:
            raise ValueError("the manifest is too large")
        made = json.loads(self.zip.read(info))
        if made.pop("format") != FORMAT:
            raise ValueError("the manifest is of something else")
        version = made.pop("version")
        if version != VERSION:
            raise self._refusal("newer", NEWER, version=version, known=VERSION)
        tables = {str(name): (int(rows), str(found)) for name, (rows, found) in made.pop("tables").items()}
        return Manifest(**{name: str(value) for name, value in made.items()}, tables=tables)

    def _rows(self, name: str) -> Iterator[dict[str, Any]]:
        rows, expected = self.manifest.tables[name]
        found, counted = hashlib.sha256(), 0
        try:
            info = self.zip.getinfo(f"tables/{name}.jsonl")
            if info.file_size > MOST_GROWN * max(1, info.compress_size):
                raise zipfile.BadZipFile("it grows too much")
            with self.zip.open(info) as file:
                while line := file.readline(LONGEST_LINE):
                    found.update(line)
                    counted += 1
                    yield self._row(name, counted, line)
        except (zipfile.BadZipFile, KeyError, OSError, EOFError) as error:
            raise self._refusal("damaged", DAMAGED, table=name) from error
        if (counted, found.hexdigest()) != (rows, expected):
            raise self._refusal("damaged", DAMAGED, table=name)

    def _row(self, table: str, number: int, line: bytes) -> dict[str, Any]:
        try:
            row = json.loads(line)
        except (ValueError, RecursionError):
            row = None
        if not isinstance(row, dict):
            raise self._refusal("no-line", NO_LINE, table=table, line=number)
        return row

    def _refusal(self, code: str, sentence: str, **values: object) -> RefusedError:
        return RefusedError([Fault(code, sentence, values, source=self.name)])
