"""Judges' rounds on a practical's pass mark: opened, answered alone, talked over, answered again, decided."""

import json
import re
import secrets
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import yaml

from app.files.practicals import practical_from_text
from app.queries.exam_facts import practical_edition
from app.queries.judging import answers_of, judges_of, rounds_of
from app.storage.editions import EditionDraft
from app.storage.judging import Judging, JudgingAnswer, JudgingStep
from app.storage.mail import OutgoingMail
from app.storage.work import Store, Work
from app.use_cases.asker import Asker
from app.wording.judging import asked_to_judge, how_text
from assessments.season.compromise import BOUNDS, bound_faults
from assessments.season.judging import answer_faults, block_shares, judged_round
from curriculum.faults import N_, ConflictError, Fault, NotFoundError, RefusedError

LEAST_JUDGES = 2
CUT = re.compile(r"^cut:.*\n(?:[ \t]+.*\n|\n(?=[ \t]))*", re.MULTILINE)


def open_judging(store: Store, asker: Asker, judging_id: str, practical_id: str, judges: Sequence[str]) -> Judging:
    """Open a panel and tell its judges by mail; sent twice it is opened once."""
    with store.writing(asker.school.id) as work:
        known = work.judgings.by_id(judging_id)
        if known:
            return known
        practical = practical_edition(work, practical_id)
        staff = {one.id for one in work.people.with_role("examiner") if one.left_at is None}
        chosen = tuple(dict.fromkeys(judges))
        if len(chosen) < LEAST_JUDGES or not set(chosen) <= staff:
            sentence = N_("choose at least {least} judges")
            raise RefusedError([Fault("judges", sentence, {"least": LEAST_JUDGES}, "judges")])
        kept = Judging(judging_id, practical_id, json.dumps(sorted(chosen)), asker.person_id, asker.now)
        work.judgings.add(kept)
        body = {"judging": kept.id, "judges": sorted(chosen)}
        work.record.append("judging-opened", practical_id, asker.person_id, asker.now, body)
        for id in chosen:
            person = work.people.by_id(id)
            subject, words = asked_to_judge(practical.title, asker.language)
            work.mail.add(OutgoingMail(secrets.token_hex(16), person.email, person.name, subject, words, asker.now))
        work.commit()
    return kept


@dataclass(frozen=True, slots=True)
class Answers:
    """One judge's marks by block in one round, and what pass marks and shares they could accept, if they say."""

    round: int
    marks: Mapping[str, float | None]
    bounds: Mapping[str, float | None]


def send_answers(store: Store, asker: Asker, judging_id: str, answers: Answers) -> None:
    """Keep a judge's answers of a round; they do not change any more."""
    number = answers.round
    with store.writing(asker.school.id) as work:
        judging = _found(work, judging_id)
        if asker.person_id not in judges_of(judging):
            raise NotFoundError
        rounds = rounds_of(work, judging)
        practical = practical_edition(work, judging.practical_id)
        marks = {block: answers.marks.get(block) for block in block_shares(practical)}
        sent = answers_of(work, judging, number).get(asker.person_id)
        if sent == marks:
            return
        if sent is not None or rounds.round != number or not rounds.is_open or rounds.decided:
            raise ConflictError(N_("This round is over, or you have answered already. Open the page again."))
        if faults := (*answer_faults(practical, marks), *bound_faults(answers.bounds)):
            raise RefusedError(faults)
        bounds = {name: value for name in BOUNDS if (value := answers.bounds.get(name)) is not None}
        texts = (json.dumps(one, sort_keys=True) for one in (marks, bounds))
        work.judgings.add_answer(JudgingAnswer(judging.id, asker.person_id, number, *texts, asker.now))
        body = {"judging": judging.id, "round": number}
        work.record.append("pass-mark-judged", judging.practical_id, asker.person_id, asker.now, body)
        work.commit()


def end_round(store: Store, asker: Asker, judging_id: str) -> None:
    """Close the open round without those who have not answered."""
    with store.writing(asker.school.id) as work:
        judging = _found(work, judging_id)
        rounds = rounds_of(work, judging)
        if not rounds.is_open:
            return
        if not answers_of(work, judging, rounds.round):
            raise RefusedError([Fault("no-answers", N_("no judge has answered yet"))])
        _step(work, asker, judging, f"close-{rounds.round}", "")
        work.commit()


def open_second_round(store: Store, asker: Asker, judging_id: str, talk: str) -> None:
    """After the talk, whose notes are kept: every judge answers once more."""
    with store.writing(asker.school.id) as work:
        judging = _found(work, judging_id)
        rounds = rounds_of(work, judging)
        if rounds.round == 2:
            return
        if rounds.is_open or rounds.decided:
            raise ConflictError(N_("The first round is not over, or the pass mark is decided already."))
        if not talk.strip():
            raise RefusedError([Fault("no-talk", N_("say what the judges talked about"), field="talk")])
        _step(work, asker, judging, "second", talk.strip())
        work.commit()


def decide_pass_mark(store: Store, asker: Asker, judging_id: str, at: float | None, reason: str) -> str:
    """Keep the decision and its reason, and begin a draft of the practical with it; the draft's id.

    Exams that are set keep the edition they were set by; the mark counts from the draft's publication on.
    """
    with store.writing(asker.school.id) as work:
        judging = _found(work, judging_id)
        rounds = rounds_of(work, judging)
        if rounds.is_open or rounds.decided:
            raise ConflictError(N_("A round is still open, or the pass mark is decided already."))
        faults = []
        if at is None or not 0 < at < 100:
            faults.append(Fault("no-mark", N_("give a mark between 0 and 100"), field="at"))
        if not reason.strip():
            faults.append(Fault("no-reason", N_("a decision needs its reason"), field="reason"))
        if faults:
            raise RefusedError(faults)
        draft = _draft(work, asker, judging, at, reason.strip())
        _step(work, asker, judging, "decided", reason.strip())
        work.editions.put_draft(draft)
        work.commit()
    return draft.id


def _draft(work: Work, asker: Asker, judging: Judging, at: float, reason: str) -> EditionDraft:
    """A draft of the practical's newest edition, whatever came out since the panel was opened."""
    name = work.editions.by_id(judging.practical_id).name
    editions = [one for one in work.editions.of_kind("practical") if one.name == name]
    edition, number = max(editions, key=lambda one: one.published_at), rounds_of(work, judging).round
    found = judged_round(practical_edition(work, judging.practical_id), answers_of(work, judging, number))
    how = how_text(len(found.judges), number, reason)
    cut: dict[str, object] = {"at": _plain(at), "method": "angoff", "how": how, "set_on": asker.today.isoformat()}
    if len(found.judges) > 1:
        cut["standard_error"] = _plain(round(found.se, 2))
    ((file, text),) = edition.documents.items()
    changed = with_cut(text, cut)
    practical_from_text(changed, file)
    return EditionDraft(
        secrets.token_hex(16), edition.kind, edition.name, edition.id, {file: changed}, 1, asker.person_id, asker.now
    )


def with_cut(text: str, cut: Mapping[str, object]) -> str:
    """A practical's YAML with its `cut:` written anew; all else stays as its author wrote it."""
    block = yaml.safe_dump({"cut": dict(cut)}, allow_unicode=True, sort_keys=False, width=1000)
    text = text if text.endswith("\n") else text + "\n"
    return CUT.sub(lambda _: block, text, count=1) if CUT.search(text) else text + block


def _plain(value: float) -> float | int:
    return int(value) if value == int(value) else value


def _step(work: Work, asker: Asker, judging: Judging, step: str, words: str) -> None:
    work.judgings.add_step(JudgingStep(judging.id, step, words, asker.person_id, asker.now))
    body = {"judging": judging.id, "step": step, "words": words}
    work.record.append("judging-step", judging.practical_id, asker.person_id, asker.now, body)


def _found(work: Work, judging_id: str) -> Judging:
    judging = work.judgings.by_id(judging_id)
    if judging is None:
        raise NotFoundError
    return judging
