"""The repertoire in words: set-up, repetitions, seconds, cues, faults. a sentence is put in the reader's language."""

from fractions import Fraction
from math import ceil

from app.wording.languages import ENGLISH, Language
from curriculum.faults import N_
from curriculum.repertoire.exercise import Position
from curriculum.repertoire.set_up import SetUp, Springs
from curriculum.repertoire.tempo import Repetitions

CUE_KINDS = {
    "verbal": N_("Say"),
    "tactile": N_("Touch, with consent"),
    "imagery": N_("Image"),
    "demonstration": N_("Show"),
}
WEIGHTS = {"safety": N_("Safety"), "form": N_("Form"), "rhythm": N_("Rhythm")}
LEVERS = {
    "range": N_("Range"),
    "springs": N_("Springs"),
    "count": N_("Repetitions"),
    "position": N_("Position"),
    "support": N_("Support"),
    "tempo": N_("Tempo"),
}
FAMILIES = {
    "flexion": N_("flexion"),
    "extension": N_("extension"),
    "side-bend": N_("side bend"),
    "rotation": N_("rotation"),
    "inversion": N_("inversion"),
    "hinge": N_("hinge"),
    "support": N_("support"),
}
BAR_LOCKS = {
    "foot-lowered": N_("Foot bar that a foot may lower, where the machine and its maker's manual allow it"),
    "locks": N_("Foot bar that locks"),
}
PHASES = {"set-up": N_("while setting up"), "throughout": N_("throughout"), "": ""}
EACH = {
    "side": N_("each side"),
    "leg": N_("each leg"),
    "arm": N_("each arm"),
    "foot": N_("each foot"),
    "hand": N_("each hand"),
    "way": N_("each way"),
}
PARTS = {
    "springs": N_("Springs"),
    "attachment": N_("Hooked in"),
    "hook": N_("Hook"),
    "foot_bar": N_("Foot bar"),
    "headrest": N_("Headrest"),
    "straps": N_("Straps"),
    "strap_length": N_("Length of straps"),
    "box": N_("Box"),
    "board": N_("Board"),
    "stopper": N_("Stopper"),
    "gear": N_("Gear"),
    "barrel_gap": N_("Gap of the barrel"),
    "hang": N_("Bar or springs"),
    "safety_strap": N_("Safety strap"),
    "posture": N_("Client"),
    "level": N_("Level"),
    "repetitions": N_("Repetitions"),
}
FIELDS = PARTS | {
    "place": N_("Place in the order"),
    "families": N_("Movement"),
    "aim": N_("Aim"),
    "body": N_("Body in the set-up"),
    "spotting": N_("Spotting"),
    "positions": N_("Positions"),
    "tempo": N_("Tempo"),
    "mount": N_("Getting on"),
    "dismount": N_("Getting off"),
    "cues": N_("Cues"),
    "faults": N_("Faults"),
    "cautions": N_("Cautions"),
    "adaptations": N_("Adapting"),
    "transitions": N_("Transitions"),
    "lighter": N_("Reasons for fewer springs"),
    "heavier": N_("Reasons for more springs"),
}
SETTINGS = {
    "any": N_("as it is found"),
    "none": N_("none"),
    "up": N_("up"),
    "middle": N_("middle"),
    "low": N_("low"),
    "down": N_("down"),
    "off": N_("off"),
    "on": N_("on"),
    "half": N_("halfway up"),
    "top": N_("top"),
    "bottom": N_("bottom"),
    "hands": N_("in the hands"),
    "feet": N_("on the feet"),
    "thighs": N_("on the thighs"),
    "foot-strap": N_("feet under the foot strap"),
    "long": N_("long"),
    "short": N_("short"),
    "roll-bar": N_("roll-down bar"),
    "push-through-bar": N_("push-through bar"),
    "trapeze": N_("trapeze"),
    "roll-bar-and-trapeze": N_("roll-down bar and trapeze"),
    "arm-springs": N_("arm springs"),
    "leg-springs": N_("leg springs"),
    "loops": N_("loops"),
    "supine": N_("on the back"),
    "prone": N_("on the front"),
    "side-lying": N_("on the side"),
    "sitting": N_("sitting"),
    "kneeling": N_("kneeling"),
    "on-all-fours": N_("on all fours"),
    "standing": N_("standing"),
    "inverted": N_("head down"),
    "hanging": N_("hanging"),
}
LISTED = ("foot_bar", "headrest", "straps", "box", "hang", "safety_strap", "posture")
AFTER_SPRINGS = tuple(part for part in PARTS if part not in ("springs", "attachment", "level", "repetitions"))


def springs_text(springs: Springs | None, language: Language = ENGLISH) -> str:
    """How many springs, in words; empty where the apparatus has none."""
    if springs is None:
        return ""
    if springs.every:
        return language(N_("all springs, so that nothing moves"))
    if springs.fewest != springs.most:
        sentence = N_("{fewest} to {most} springs, usually {usual}")
        return language(sentence, fewest=springs.fewest, most=springs.most, usual=springs.usual)
    return language.ngettext("{number} spring", "{number} springs", springs.usual)


def load_text(set_up: SetUp, language: Language = ENGLISH) -> str:
    """What an exercise pulls on: springs, where they are hooked in, bar or loops, and a safety strap that is on."""
    hooked = _attachment_text(set_up, language)
    parts = (
        springs_text(set_up.springs, language),
        language(N_("hooked in: {places}"), places=hooked) if hooked else "",
        _setting("hang", set_up.hang, language) if set_up.hang != "none" else "",
        language(N_("safety strap on")) if set_up.safety_strap == "on" else "",
    )
    return " · ".join(part for part in parts if part)


def repetitions_text(repetitions: Repetitions, language: Language = ENGLISH) -> str:
    """`10 times`, `3 to 5 times, each side`, `3 sets of 5`, `10 breaths`."""
    text = _times(repetitions, language)
    if repetitions.sets > 1:
        text = language.ngettext("{number} set of {each}", "{number} sets of {each}", repetitions.sets, each=text)
    return language.listed([text, *(language(EACH[one]) for one in repetitions.each)])


def _times(repetitions: Repetitions, language: Language) -> str:
    """How often; a unit such as breaths is the edition's own word."""
    fewest, most, unit = repetitions.fewest, repetitions.most, repetitions.unit
    if fewest != most and unit:
        return language(N_("{fewest} to {most} {unit}"), fewest=fewest, most=most, unit=unit)
    if fewest != most and repetitions.sets > 1:
        return language(N_("{fewest} to {most}"), fewest=fewest, most=most)
    if fewest != most:
        return language(N_("{fewest} to {most} times"), fewest=fewest, most=most)
    if unit:
        return language(N_("{number} {unit}"), number=most, unit=unit)
    if repetitions.sets > 1 and most > 1:
        return language.figure(most)
    return language(N_("once")) if most == 1 else language.ngettext("{number} time", "{number} times", most)


def position_text(position: Position, language: Language) -> str:
    """Repetitions, and tempo or the seconds of one."""
    times = repetitions_text(position.repetitions, language)
    if position.tempo is None:
        each = seconds_text(position.seconds_each, language)
        return language(N_("{times}, {seconds} for one"), times=times, seconds=each)
    beats = language.ngettext("{number} count a minute", "{number} counts a minute", position.beats)
    return language(N_("{times}: {tempo}; {beats}"), times=times, tempo=position.tempo, beats=beats)


def seconds_text(seconds: Fraction, language: Language = ENGLISH) -> str:
    """Whole seconds, rounded up, as minutes and seconds."""
    minutes, rest = divmod(ceil(seconds), 60)
    if not minutes:
        return language(N_("{seconds} s"), seconds=rest)
    if rest:
        return language(N_("{minutes} min {seconds} s"), minutes=minutes, seconds=rest)
    return language(N_("{minutes} min"), minutes=minutes)


def set_up_rows(set_up: SetUp, confirm: tuple[str, ...] = (), language: Language = ENGLISH) -> list[tuple[str, str]]:
    """Parts of the apparatus and what they are set to, with a mark where the school has still to confirm."""
    rows = [("springs", springs_text(set_up.springs, language))]
    rows += [("attachment", _attachment_text(set_up, language))]
    rows += [(part, _setting(part, getattr(set_up, part), language)) for part in AFTER_SPRINGS]
    mark = language(N_("school to confirm"))
    return [(language(PARTS[part]), f"{text} ({mark})" if part in confirm else text) for part, text in rows if text]


def _attachment_text(set_up: SetUp, language: Language) -> str:
    places = tuple(language(SETTINGS[one]) for one in (set_up.attachment, *set_up.other_attachments) if one)
    if len(places) < 2:
        return "".join(places)
    return language(N_("usually {usual}, or {others}"), usual=places[0], others=", ".join(places[1:]))


def to_confirm_text(fields: tuple[str, ...], language: Language = ENGLISH) -> str:
    """The fields that the school has still to confirm, in one sentence; empty if there are none."""
    named = [language(FIELDS[one]) if one in FIELDS else one.replace("_", " ") for one in fields]
    return language(N_("School to confirm: {fields}."), fields=language.listed(named)) if fields else ""


def _setting(part: str, value: str | None, language: Language) -> str:
    return language(SETTINGS[value]) if value and part in LISTED else value or ""
