"""A set-up taken from a document."""

from curriculum.document import Node
from curriculum.faults import N_
from curriculum.fields import Fields, read_one
from curriculum.repertoire.set_up import (
    ATTACHMENTS,
    BOXES,
    FOOT_BARS,
    HANGS,
    HEADRESTS,
    POSTURES,
    SAFETY_STRAPS,
    STRAPS,
    SetUp,
    Springs,
    spring_count_from,
)


def read_set_up(fields: Fields, shared: Node | None) -> SetUp:
    """The exercise's set-up, with what its series sets for all of its exercises beneath it."""
    own = fields.member("set_up")
    if own is None and shared is None:
        return SetUp()
    if own is None or not own.is_mapping or shared is None or not shared.is_mapping:
        return read_one(own or shared, fields.faults, _set_up)
    lines = {**shared.key_lines, **own.key_lines}
    merged = Node({**shared.value, **own.value}, own.line, own.path, lines)
    return read_one(merged, fields.faults, _set_up)


def _set_up(fields: Fields) -> SetUp:
    return SetUp(
        springs=_springs(fields),
        attachment=fields.one_of("attachment", ATTACHMENTS, "") or None,
        other_attachments=_other_attachments(fields),
        hook=fields.text("hook", ""),
        foot_bar=fields.one_of("foot_bar", FOOT_BARS, "") or None,
        headrest=fields.one_of("headrest", HEADRESTS, "") or None,
        straps=fields.one_of("straps", STRAPS, "") or None,
        strap_length=fields.text("strap_length", ""),
        box=fields.one_of("box", BOXES, "") or None,
        board=fields.text("board", ""),
        stopper=fields.text("stopper", ""),
        gear=fields.text("gear", ""),
        barrel_gap=fields.text("barrel_gap", ""),
        hang=fields.one_of("hang", HANGS, "") or None,
        safety_strap=fields.one_of("safety_strap", SAFETY_STRAPS, "") or None,
        posture=fields.one_of("posture", POSTURES, "") or None,
        body=fields.text("body", ""),
        checks=fields.texts("checks"),
    )


def _other_attachments(fields: Fields) -> tuple[str, ...]:
    found = fields.member("other_attachments")
    if found is None or (found.is_list and not found.elements()):
        return ()
    return fields.some_of("other_attachments", ATTACHMENTS)


def _springs(fields: Fields) -> Springs | None:
    found = fields.member("springs")
    if found is None:
        return None
    if found.is_text:
        return _counted(fields, found, found)
    return read_one(found, fields.faults, _springs_in_full)


def _springs_in_full(fields: Fields) -> Springs:
    count, usual = fields.scalar("count", True), fields.scalar("usual")
    counted = _counted(fields, count, usual or count) if count else Springs(0, 0, 0)
    return Springs(
        counted.usual,
        counted.fewest,
        counted.most,
        counted.every,
        kind=fields.text("kind", ""),
        lighter=fields.texts("lighter"),
        heavier=fields.texts("heavier"),
        resist=fields.text("resist", ""),
        assist=fields.text("assist", ""),
    )


def _counted(fields: Fields, count: Node, usual: Node) -> Springs:
    found = spring_count_from(count.value)
    if found is None:
        fields.add(
            count,
            "not-springs",
            N_("“{value}” is not a number of springs such as 4, 3-4 or all"),
            value=count.value,
        )
        return Springs(0, 0, 0)
    fewest, most, every = found
    if usual is count or every:
        return Springs(most, fewest, most, every)
    if not usual.value.isdecimal() or not fewest <= int(usual.value) <= most:
        fields.add(
            usual,
            "not-usual",
            N_("“{value}” must lie from {fewest} to {most}, as count says"),
            value=usual.value,
            fewest=fewest,
            most=most,
        )
        return Springs(most, fewest, most)
    return Springs(int(usual.value), fewest, most)
