"""Springs across studios: what a set-up means on another machine."""

import math

from fastapi.responses import Response

from app.queries import springs as query
from app.web.door import Pages
from app.web.visit import Here
from curriculum.faults import N_, Fault, RefusedError

pages = Pages()
FIELDS = ("origin", "springs", "gear", "target", "start", "end")
LONGEST = 120


@pages.get("/springs", may="read the repertoire")
def springs(visit: Here) -> Response:
    """The form, and the answer once it is asked; an address holds the whole question."""
    typed = {name: visit.request.query_params.get(name, "")[:LONGEST] for name in FIELDS}
    with visit.store.reading(visit.school_id) as work:
        machines = query.machines_of(work)
    found, faults = None, []
    if typed["origin"] or typed["target"]:
        try:
            travel = _travel(typed["start"], typed["end"])
            asked = (typed["origin"], typed["springs"], typed["gear"], typed["target"])
            found = query.match_shown(machines, asked, travel, visit.today, visit.language)
        except RefusedError as refusal:
            faults = visit.faults(refusal.faults)
    return visit.show(
        "springs/springs.html",
        422 if faults else 200,
        machines=query.shown_machines(machines, visit.today, visit.language),
        gears=sorted({gear for one in machines for gear, _ in one.gears}),
        typed=typed,
        found=found,
        faults=faults,
    )


def _travel(start: str, end: str) -> tuple[float, float]:
    """Metres from centimetres as typed."""
    faults, read = [], []
    for field, text in (("start", start), ("end", end)):
        try:
            value = float(text.replace(",", ".") or ("10" if field == "start" else "60")) / 100
        except ValueError:
            value = math.nan
        if not 0 <= value <= 5:
            faults.append(Fault("no-travel", N_("centimetres from 0 to 500"), field=field))
        read.append(value)
    if not faults and read[0] >= read[1]:
        faults.append(Fault("no-travel", N_("must lie beyond where it starts"), field="end"))
    if faults:
        raise RefusedError(faults)
    return read[0], read[1]
