"""A practical's edition taken from a document, with every fault at once."""

from collections.abc import Iterable
from fractions import Fraction

from assessments.practicals.fields import JudgedFields
from assessments.practicals.reading_after import read_appeals
from assessments.practicals.reading_before import read_admission_checks, read_client_rule
from assessments.practicals.specification import (
    CUT_METHODS,
    HUNDRED,
    PART_KINDS,
    Apart,
    Band,
    Block,
    Calibration,
    Criterion,
    CriterionGroup,
    CriticalFault,
    CutScore,
    ExerciseList,
    Part,
    Practical,
    Resits,
    Scale,
    SecondMarkingSample,
)
from assessments.practicals.specification_checks import specification_faults
from curriculum.competencies.statements import STRANDS, Strand
from curriculum.document import Node
from curriculum.faults import N_, Fault, RefusedError
from curriculum.fields import NUMBER

MOST_LEVELS = 51


def read_practical(node: Node) -> Practical:
    """The practical that a document describes; raises `RefusedError` with every fault and its line."""
    faults: list[Fault] = []
    fields = JudgedFields(node, faults)
    practical = _practical(fields)
    fields.close()
    if not faults:
        faults.extend(specification_faults(practical, node))
    if faults:
        raise RefusedError(faults)
    return practical


def _practical(fields: JudgedFields) -> Practical:
    scale = fields.inner("scale", _scale) or Scale(Fraction(1), Fraction(4))
    criteria = fields.each("criteria", lambda inner: _criterion(inner, scale), required=True)
    every = tuple(one.id for one in criteria)
    scales = {one.id: one.scale for one in criteria}
    given = {
        "cut": fields.inner("cut", lambda inner: _cut(inner, scale)),
        "band": fields.inner("band", _band),
        "apart": fields.inner("apart", _apart),
        "sample": fields.inner("second_marking", _sample),
        "resits": fields.inner("resits", _resits),
        "appeals": fields.inner("appeals", read_appeals),
        "calibration": fields.inner("calibration", _calibration),
        "client": fields.inner("client", read_client_rule),
        "admission": read_admission_checks(fields),
    }
    if fields.member("cut", True) is None:
        given["cut"] = CutScore(HUNDRED)
    return Practical(
        id=fields.name("id"),
        title=fields.text("title"),
        edition=fields.name("edition"),
        parts=fields.each("parts", lambda inner: _part(inner, every, scales), required=True),
        criteria=criteria,
        groups=fields.each("groups", lambda inner: _group(inner, scales)),
        critical_faults=fields.each("critical_faults", _critical_fault),
        left_out=fields.number("left_out", 0, 100, 20),
        examiners=fields.whole("examiners", 1, 9, 2),
        grades=fields.names("grades", ("fail", "borderline", "pass", "very good", "outstanding")),
        months_apart=fields.whole("months_apart", 0, 120, 24),
        recorded=fields.flag("recorded", True),
        record_days=fields.whole("record_days", 0, 2000, 30),
        without_record=fields.choice("without_record", ("third-examiner", "fresh-exam"), "third-examiner"),
        adjusted_scores=fields.flag("adjusted_scores", False),
        **{key: value for key, value in given.items() if value is not None},
    )


def _scale(fields: JudgedFields) -> Scale:
    lowest, highest = (
        fields.number("lowest", -100, 100),
        fields.number("highest", -100, 100),
    )
    step = fields.number("step", 0, 100, 1)
    best = fields.choice("best", ("highest", "lowest"), "highest")
    if lowest >= highest or step <= 0 or (highest - lowest) % step or (highest - lowest) / step >= MOST_LEVELS:
        sentence = N_("must rise from lowest to highest by whole steps, with at most {most} levels")
        fields.fault("highest", "not-a-scale", sentence, most=MOST_LEVELS)
        return Scale(Fraction(0), Fraction(1))
    return Scale(lowest, highest, step, best)


def _criterion(fields: JudgedFields, scale: Scale) -> Criterion:
    scale = fields.inner("scale", _scale) or scale
    return Criterion(
        id=fields.name("id"),
        title=fields.text("title"),
        weight=fields.number("weight", 0, 100),
        scale=scale,
        sentences=_sentences(fields, scale),
        watched=fields.text("watched", ""),
        floor=_floor(fields, scale),
        strands=_strands(fields),
    )


def _strands(fields: JudgedFields) -> tuple[Strand, ...]:
    named = fields.names("strands", ())
    if not set(named) <= set(STRANDS):
        fields.fault("strands", "no-such-strand", N_("names of strands are {strands}"), strands=", ".join(STRANDS))
    return tuple(one for one in STRANDS if one in named)


def _sentences(fields: JudgedFields, scale: Scale) -> tuple[tuple[Fraction, str], ...]:
    found = fields.member("levels", True)
    given: dict[Fraction, str] = {}
    for key, sentence in found.items() if found else ():
        level = Fraction(key) if NUMBER.fullmatch(key) else None
        if level not in scale.levels():
            fields.faults.append(sentence.fault("no-such-level", N_("{level} is not a level of the scale"), level=key))
        elif not sentence.is_text or not sentence.value.strip():
            fields.faults.append(sentence.fault("no-sentence", N_("needs a sentence of behaviour")))
        else:
            given[level] = sentence.value.strip()
    missing = [level for level in scale.levels() if level not in given]
    if missing and found:
        named = ", ".join(str(float(level)).removesuffix(".0") for level in missing)
        fields.fault("levels", "levels-missing", N_("these levels have no sentence: {levels}"), levels=named)
    return tuple(sorted(given.items()))


def _floor(fields: JudgedFields, scale: Scale | None) -> Fraction | None:
    """A floor in per cent, from `floor` itself or from `floor_level` on the scale."""
    per_cent, level = (
        fields.maybe_number("floor", 0, 100),
        fields.maybe_number("floor_level", -100, 100),
    )
    if level is None:
        return per_cent
    if per_cent is not None:
        fields.fault(
            "floor_level",
            "two-floors",
            N_("give either floor or floor_level, not both"),
        )
    elif scale is None:
        fields.fault(
            "floor_level",
            "several-scales",
            N_("needs one scale for all its criteria; give floor in per cent"),
        )
    elif not scale.lowest <= level <= scale.highest:
        low, high = float(scale.lowest), float(scale.highest)
        fields.fault(
            "floor_level",
            "outside-scale",
            N_("must lie from {low} to {high}"),
            low=low,
            high=high,
        )
    else:
        return scale.share(level) * HUNDRED
    return per_cent


def _one_scale(criteria: Iterable[str], scales: dict[str, Scale]) -> Scale | None:
    found = {scales[id] for id in criteria if id in scales}
    return found.pop() if len(found) == 1 else None


def _part(fields: JudgedFields, every: tuple[str, ...], scales: dict[str, Scale]) -> Part:
    id, title = fields.name("id"), fields.text("title")
    criteria = fields.names("criteria", every)
    return Part(
        id=id,
        title=title,
        kind=fields.choice("kind", PART_KINDS),
        weight=fields.number("weight", 0, 100),
        blocks=_blocks(fields, id, title),
        criteria=criteria,
        floor=_floor(fields, _one_scale(criteria, scales)),
        exercises=fields.inner("exercises", _exercises),
    )


def _blocks(fields: JudgedFields, id: str, title: str) -> tuple[Block, ...]:
    if not fields.has("blocks"):
        return (Block(id, title, fields.whole("minutes", 1, 600)),)
    if fields.has("minutes"):
        fields.fault(
            "minutes",
            "two-lengths",
            N_("a part with blocks has the length of its blocks"),
        )
        fields.member("minutes", False)
    return fields.each("blocks", _block, required=True)


def _block(fields: JudgedFields) -> Block:
    minutes = fields.whole("minutes", 1, 600)
    return Block(
        fields.name("id"),
        fields.text("title"),
        minutes,
        fields.number("weight", 0, 100),
    )


def _exercises(fields: JudgedFields) -> ExerciseList:
    exercises = fields.names("exercises", ())
    return ExerciseList(
        drawn=fields.flag("drawn", False),
        number=fields.whole("number", 1, 200, len(exercises) or None),
        order=fields.choice("order", ("edition", "candidate"), "edition"),
        notice_days=fields.maybe_whole("notice_days", 0, 365),
        exercises=exercises,
    )


def _group(fields: JudgedFields, scales: dict[str, Scale]) -> CriterionGroup:
    criteria = fields.names("criteria")
    floor = _floor(fields, _one_scale(criteria, scales))
    if floor is None:
        fields.fault("floor", "missing", N_("a group needs floor or floor_level"))
    return CriterionGroup(fields.name("id"), fields.text("title"), criteria, floor or Fraction(0))


def _critical_fault(fields: JudgedFields) -> CriticalFault:
    return CriticalFault(fields.name("code"), fields.text("sentence"))


def _cut(fields: JudgedFields, scale: Scale) -> CutScore:
    level = fields.maybe_number("at_level", -100, 100)
    if level is not None and not scale.lowest <= level <= scale.highest:
        low, high = float(scale.lowest), float(scale.highest)
        fields.fault(
            "at_level",
            "outside-scale",
            N_("must lie from {low} to {high}"),
            low=low,
            high=high,
        )
    at = fields.number("at", 0, 100) if level is None else scale.share(level) * HUNDRED
    return CutScore(
        at=at,
        method=fields.choice("method", CUT_METHODS, "fixed"),
        how=fields.text("how"),
        set_on=fields.day("set_on"),
        standard_error=fields.maybe_number("standard_error", 0, 100),
    )


def _band(fields: JudgedFields) -> Band:
    return Band(fields.number("marks", 0, 100, 3), fields.number("standard_errors", 0, 10, 1))


def _apart(fields: JudgedFields) -> Apart:
    return Apart(fields.number("total", 0, 100, 10), fields.maybe_whole("levels", 0, 100))


def _sample(fields: JudgedFields) -> SecondMarkingSample:
    return SecondMarkingSample(
        fails=fields.flag("fails", True),
        inside_band=fields.flag("inside_band", True),
        new_examiners=fields.flag("new_examiners", True),
        random=fields.number("random", 0, 100, 10),
    )


def _resits(fields: JudgedFields) -> Resits:
    return Resits(
        attempts=fields.whole("attempts", 1, 20, 2),
        parts_alone=fields.flag("parts_alone", True),
        after_days=fields.whole("after_days", 0, 1000, 0),
        within_days=fields.maybe_whole("within_days", 0, 2000),
        capped=fields.flag("capped", False),
    )


def _calibration(fields: JudgedFields) -> Calibration:
    return Calibration(
        months=fields.whole("months", 1, 120, 12),
        performances=fields.whole("performances", 0, 20, 3),
        distance=fields.number("distance", 0, 10, Fraction(1, 2)),
        total=fields.number("total", 0, 100, 10),
        founders=fields.whole("founders", 2, 20, 3),
    )
