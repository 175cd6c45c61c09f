"""What people do to calibrate: score a described performance alone, and set a reference by a founding panel."""

import json
from collections.abc import Mapping
from fractions import Fraction

from app.files.calibration import write_levels
from app.queries.calibration import field_of, to_score
from app.queries.calibration_facts import Gathered, performance_in_use
from app.storage.calibration import PerformanceScoring, ReferenceFounding
from app.storage.work import Store
from app.use_cases.asker import Asker
from assessments.calibration.comparing import cells_of
from assessments.practicals.specification import Cell
from curriculum.faults import N_, ConflictError, Fault, RefusedError

LONGEST = 2000


def score_performance(  # noqa: PLR0913 - which performance, and all that was said of it
    store: Store, asker: Asker, id: str, practical: str, performance_id: str, typed: Mapping[str, str], note: str
) -> None:
    """Keep an examiner's levels for good; `typed` holds a level for each field, `id` was made by the form.

    `RefusedError` for every mark that has no level, `ConflictError` where it was scored too lately.
    """
    with store.writing(asker.school.id) as work:
        if work.calibrations.by_id(id):
            return
        use, one = performance_in_use(work, practical, performance_id)
        if not to_score(Gathered(work, asker.school.time_zone), use, one.id, asker.person_id, asker.today):
            raise ConflictError(N_("You scored this performance already. Open it to see how it stands."))
        cells = cells_of(use.practical, one)
        levels = {(cell.block, cell.criterion): _level(cell, typed) for cell in cells}
        faults = [
            Fault("no-level", N_("choose a level"), field=field_of(*place))
            for place, level in levels.items()
            if level is None
        ]
        if len(note) > LONGEST:
            faults.append(Fault("too-long", N_("keep this under {most} letters"), {"most": LONGEST}, "note"))
        if not 0 < len(id) <= 36:
            faults.append(Fault("no-id", N_("this form is damaged; open the page again")))
        if faults:
            raise RefusedError(faults)
        kept = (id, asker.person_id, use.edition_id, one.id, use.practical_id, write_levels(levels), note.strip())
        work.calibrations.add(PerformanceScoring(*kept, asker.now))
        body = {"performance": one.id, "edition": use.edition_id, "scoring": id}
        work.record.append("performance-scored", use.practical_id, asker.person_id, asker.now, body)
        work.commit()


def found_reference(store: Store, asker: Asker, practical: str, performance_id: str) -> None:
    """Make the median of all who have scored a performance its reference, once and for good."""
    with store.writing(asker.school.id) as work:
        use, one = performance_in_use(work, practical, performance_id)
        gathered = Gathered(work, asker.school.time_zone)
        if one.id in gathered.foundings:
            return
        if one.reference:
            raise ConflictError(N_("This performance has its reference already."))
        first = {scoring.person_id: scoring for scoring in reversed(gathered.scorings) if scoring.performance == one.id}
        founders = use.practical.calibration.founders
        if len(first) < founders:
            sentence = N_("{number} have scored it; a founding panel needs {founders}")
            raise RefusedError([Fault("few-founders", sentence, {"number": len(first), "founders": founders})])
        panel = sorted(scoring.id for scoring in first.values())
        work.calibrations.add_founding(
            ReferenceFounding(one.id, use.edition_id, json.dumps(panel), asker.person_id, asker.now)
        )
        body = {"performance": one.id, "edition": use.edition_id, "panel": panel}
        work.record.append("reference-founded", use.practical_id, asker.person_id, asker.now, body)
        work.commit()


def _level(cell: Cell, typed: Mapping[str, str]) -> Fraction | None:
    """The level of the scale that was chosen, or None."""
    text = typed.get(field_of(cell.block, cell.criterion), "")
    return next((level for level in cell.scale.levels() if str(level) == text), None)
