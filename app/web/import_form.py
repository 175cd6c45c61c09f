"""The form of an import: which column is what, and the rows read by it as sessions that the school accepts."""

import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from app.files.table import MOST_ROWS, Table
from app.storage.hosts import Host
from app.use_cases.importing_hours import ImportHours
from app.web.typed import minute_of_day, typed_text
from app.wording.languages import Language
from app.wording.sessions import ACTIVITIES, APPARATUS, LEVELS, MODES, SETTINGS, STAGES, in_words
from assessments.hours.session import Part, Session
from curriculum.faults import N_, Fault, RefusedError

LONGEST = 400
# What a column can be, with names that its heading may have (common practice).
FIELDS: Mapping[str, tuple[str, tuple[str, ...]]] = {
    "day": (N_("Day"), ("date", "day", "datum")),
    "minutes": (N_("Length, in minutes"), ("minutes", "min", "duration")),
    "hours": (N_("Length, in hours"), ("hours", "h", "time", "length")),
    "start": (N_("From"), ("start", "from", "begin")),
    "end": (N_("Until"), ("end", "until", "to")),
    "activity": (N_("What was done"), ("activity", "what", "type", "kind")),
    "host": (N_("Host teacher"), ("host", "teacher", "supervisor")),
    "site": (N_("Where"), ("site", "where", "studio", "place")),
    "setting": (N_("Lesson"), ("setting", "lesson")),
    "apparatus": (N_("Apparatus"), ("apparatus", "equipment")),
    "level": (N_("Level"), ("level",)),
    "mode": (N_("How"), ("mode", "how")),
    "client": (N_("Client code"), ("client", "client code")),
    "client_stage": (N_("Client is"), ("client_stage", "client stage")),
}
VALUES = {
    "activity": ACTIVITIES, "apparatus": APPARATUS, "level": LEVELS, "mode": MODES, "setting": SETTINGS,
    "client_stage": STAGES,
}  # fmt: skip
ORDERS = {"iso": "%Y-%m-%d", "day": "%d.%m.%Y", "month": "%m.%d.%Y"}
NOT_DAY = N_("“{value}” is not a day, or not in the order that was chosen")
NOT_LENGTH = N_("“{value}” is not a length; write such as 90 minutes as 90, or in hours as 1.5 or 1:30")
NOT_TIME = N_("“{value}” is not a time of day; write such as 09:30")
NO_LENGTH = N_("say how long it took, or from when to when")
NOT_KNOWN = N_("“{value}” is not known; known are {known}")
TOO_LONG = N_("keep this under {most} letters")
HALF = N_("from and until belong together")
NO_COLUMN = N_("choose the column")
DAMAGED = N_("this form is damaged; send the file again")


@dataclass(frozen=True, slots=True)
class ImportForm:
    """As typed; `columns` says for each field which column it is in, "" for none."""

    batch: str
    file_name: str
    table: Table
    columns: Mapping[str, str]
    order: str = "iso"
    evidence: str = ""

    @classmethod
    def guessed(cls, batch: str, file_name: str, table: Table) -> "ImportForm":
        """The first look at a file: columns by their names."""
        by_name = {name.casefold(): name for name in table.columns}
        columns = {
            field: next((by_name[one] for one in (field, *names) if one in by_name), "")
            for field, (_, names) in FIELDS.items()
        }
        return cls(batch, file_name[:LONGEST], table, columns)

    @classmethod
    def typed(cls, form: Mapping[str, Sequence[str]]) -> "ImportForm":
        """As it was sent; the table travels in the form, so nothing is kept before it is put on record."""
        columns = {field: typed_text(form, f"column-{field}") for field in FIELDS}
        order = typed_text(form, "order")
        return cls(
            typed_text(form, "batch")[:24], typed_text(form, "file_name")[:LONGEST], _table(typed_text(form, "table")),
            columns, order if order in ORDERS else "iso", typed_text(form, "evidence"),
        )  # fmt: skip

    @property
    def table_text(self) -> str:
        return json.dumps([self.table.columns, self.table.rows], ensure_ascii=False)

    def request(self, enrolment_id: str, hosts: Sequence[Host], language: Language) -> ImportHours:
        """The rows as sessions; refuses with every fault of every row, its row as the fault's line."""
        faults = [
            Fault("no-column", NO_COLUMN, field=f"column-{field}")
            for field in ("day", "activity")
            if self.columns[field] not in self.table.columns
        ]
        if not self.batch:
            faults.append(Fault("damaged", DAMAGED))
        if faults:
            raise RefusedError(faults)
        reading = _Reading(self, hosts, language)
        sessions = tuple((row, reading.session(row, cells)) for row, cells in self.table.rows)
        if reading.faults:
            raise RefusedError(reading.faults)
        return ImportHours(enrolment_id, self.batch, self.file_name, self.evidence, sessions)


class _Reading:
    """Cells into sessions, faults gathered."""

    def __init__(self, form: ImportForm, hosts: Sequence[Host], language: Language) -> None:
        self.form, self.faults, self.row = form, [], 0
        self.places = {name: place for place, name in enumerate(form.table.columns)}
        self.known = {field: _by_name(words, language) for field, words in VALUES.items()}
        self.known["host"] = {name.casefold(): host.id for host in hosts for name in (host.id, host.name)}
        self.names = {"host": [host.name for host in hosts]} | {
            field: [in_words(code, words, language) for code in words] for field, words in VALUES.items()
        }

    def session(self, row: int, cells: tuple[str, ...]) -> Session:
        self.row = row
        texts = {field: self._cell(field, cells) for field in FIELDS}
        values = {field: self._known(field, text) for field, text in texts.items() if field in self.known}
        day, (start, end) = self._day(texts["day"]), self._times(texts)
        more = {"client_stage": values["client_stage"]} if values["client_stage"] else {}
        part = Part(
            end - start, values["activity"], values["apparatus"], values["level"], values["mode"] or "live",
            texts["client"], more,
        )  # fmt: skip
        return Session(
            f"{self.form.batch}-{row}", day, start, end, (part,), 0, values["host"], texts["site"], values["setting"],
            "accepted",
        )  # fmt: skip

    def _fault(self, field: str, code: str, sentence: str, **values: object) -> None:
        self.faults.append(Fault(code, sentence, values, field, self.row))

    def _cell(self, field: str, cells: tuple[str, ...]) -> str:
        place = self.places.get(self.form.columns[field])
        text = cells[place] if place is not None else ""
        if len(text) > LONGEST:
            self._fault(field, "too-long", TOO_LONG, most=LONGEST)
        return text

    def _known(self, field: str, text: str) -> str:
        code = self.known[field].get(text.casefold())
        if text and code is None:
            self._fault(field, "not-known", NOT_KNOWN, value=text[:80], known=", ".join(self.names[field][:12]))
        return code or ""

    def _day(self, text: str) -> date:
        plain = text.partition(" ")[0]
        orders = ["%Y-%m-%d", ORDERS[self.form.order]]
        for order in orders:
            try:
                return datetime.strptime(re.sub("[/ ]", "." if order != orders[0] else "-", plain), order).date()
            except ValueError:
                continue
        self._fault("day", "no-day", NOT_DAY, value=text[:80])
        return date(1970, 1, 1)

    def _times(self, texts: Mapping[str, str]) -> tuple[int, int]:
        """From and until where both are given; else from nothing to the length."""
        if texts["start"] or texts["end"]:
            if not (texts["start"] and texts["end"]):
                self._fault("start", "half", HALF)
                return 0, 1
            return self._time("start", texts["start"]), self._time("end", texts["end"])
        if texts["minutes"]:
            return 0, self._length("minutes", texts["minutes"], 1)
        if texts["hours"]:
            return 0, self._length("hours", texts["hours"], 60)
        self._fault("minutes", "no-length", NO_LENGTH)
        return 0, 1

    def _time(self, field: str, text: str) -> int:
        try:
            return minute_of_day(text.replace(".", ":"))
        except ValueError:
            self._fault(field, "no-time", NOT_TIME, value=text[:80])
            return 0

    def _length(self, field: str, text: str, unit: int) -> int:
        """Whole minutes of such as 90, 1.5, 1,5 or 1:30; fractions of a minute are refused."""
        clock = re.fullmatch(r"([0-9]{1,3}):([0-5][0-9])(:00)?", text)
        if clock:
            return int(clock.group(1)) * 60 + int(clock.group(2))
        number = re.fullmatch(r"([0-9]{1,5})(?:[.,]([0-9]{1,4}))?", text)
        if number:
            decimals = number.group(2) or ""
            minutes, rest = divmod(int(number.group(1) + decimals) * unit, 10 ** len(decimals))
            if rest == 0:
                return minutes
        self._fault(field, "no-length", NOT_LENGTH, value=text[:80])
        return 1


def _by_name(words: Mapping[str, str], language: Language) -> dict[str, str]:
    """Codes by themselves and by what the pages call them."""
    named = {in_words(code, words, language).casefold(): code for code in words}
    return named | {name: code for code in words for name in (code, code.replace("_", " "))}


def _table(text: str) -> Table:
    """The table that travels in the form; whoever changes it changes only what they send."""
    try:
        columns, rows = json.loads(text)
        found = Table(
            tuple(str(name) for name in columns),
            tuple((int(number), tuple(str(cell) for cell in cells)) for number, cells in rows),
        )
    except (ValueError, TypeError, RecursionError):
        raise RefusedError([Fault("damaged", DAMAGED, field="file")]) from None
    if len(found.rows) > MOST_ROWS or any(len(cells) != len(found.columns) for _, cells in found.rows):
        raise RefusedError([Fault("damaged", DAMAGED, field="file")])
    return found
