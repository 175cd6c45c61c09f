"""Questions about seeing and correcting, adapting, and cautions."""

import unicodedata
from collections.abc import Iterator

from curriculum.faults import N_
from curriculum.repertoire.edition import CautionKind, Edition
from curriculum.repertoire.exercise import Caution, Exercise, MovementFault
from curriculum.study.question import Line, Question, line, question_id

LONGEST_PART = 40
ACTIONS = {
    "withhold": N_("Leave it out until licensed advice says otherwise."),
    "modify": N_("Change it until licensed advice says otherwise."),
}


def fault_questions(edition: Edition) -> Iterator[Question]:
    """From what the teacher sees to its cause, to the correction, and to the steps that mend it."""
    for one in edition.exercises:
        confirm = "faults" in one.confirm
        for fault in one.faults:
            for kind, sentence, answer in (
                ("cause", N_("{exercise}. You see: “{sees}” What is the likely cause?"), _text(fault.cause)),
                ("correction", N_("{exercise}. You see: “{sees}” How do you correct it?"), _correction(one, fault)),
                ("mends", N_("{exercise}. You see: “{sees}” Which step back or drill mends it?"), _mending(one, fault)),
            ):
                if answer:
                    prompt = line(sentence, exercise=one.name, sees=fault.sees)
                    id = question_id(kind, one.id, fault.id)
                    yield Question(id, kind, one.id, prompt, answer, confirm, place="faults")


def adaptation_questions(edition: Edition) -> Iterator[Question]:
    """What changes for whom, and why."""
    for one in edition.exercises:
        known: set[str] = set()
        for adaptation in one.adaptations:
            part = part_of(adaptation.when)
            if not part or part in known:
                continue
            known.add(part)
            yield Question(
                question_id("adapt", one.id, part),
                "adapt",
                one.id,
                line(N_("{exercise}. For “{when}”: what changes, and why?"), exercise=one.name, when=adaptation.when),
                (*_text(adaptation.change), *_text(adaptation.why)),
                adaptation.confirm or "adaptations" in one.confirm,
                framed=True,
                place="adapting",
            )


def caution_questions(edition: Edition) -> Iterator[Question]:
    """What a client tells of, and what is then left out or changed; the frame goes with each."""
    for one in edition.exercises:
        for caution in one.cautions:
            kind = edition.caution_kind(caution.code)
            if kind is not None:
                sentence = N_("{exercise}. A client tells you of: {caution}. What do you do, and what do you say?")
                yield Question(
                    question_id("caution", one.id, caution.code),
                    "caution",
                    one.id,
                    line(sentence, exercise=one.name, caution=kind.name),
                    _caution(kind, caution),
                    "cautions" in one.confirm,
                    framed=True,
                    place="cautions",
                )


def part_of(text: str) -> str:
    """The first words of a text as a part of an id: small letters, digits and hyphens."""
    plain = unicodedata.normalize("NFKD", text.casefold())
    words = "".join(letter if letter.isalnum() and letter.isascii() else " " for letter in plain).split()
    return "-".join(words)[:LONGEST_PART].strip("-")


def _text(text: str) -> tuple[Line, ...]:
    return (line("{text}", text=text),) if text else ()


def _correction(one: Exercise, fault: MovementFault) -> tuple[Line, ...]:
    cues = tuple(Line("{cue}: {text}", {"cue": cue.kind, "text": cue.text}) for cue in one.cues_for(fault.id))
    return (*_text(fault.correction), *cues)


def _mending(one: Exercise, fault: MovementFault) -> tuple[Line, ...]:
    every = (*one.regressions, *one.progressions)
    steps = [step for step in every if step.id == fault.drill or fault.id in step.mends]
    return tuple(line("{text}", text=step.text) for step in steps)


def _caution(kind: CautionKind, caution: Caution) -> tuple[Line, ...]:
    instead = caution.instead or ("" if caution.action == "modify" else kind.instead)
    return (
        Line(ACTIONS[caution.action]),
        *_text(caution.text or kind.withhold),
        *((line(N_("Instead: {text}"), text=instead),) if instead else ()),
        *((line(N_("Say: {text}"), text=kind.ask),) if kind.ask else ()),
        *((line(N_("Stop on: {text}"), text=kind.stop),) if kind.stop else ()),
    )
