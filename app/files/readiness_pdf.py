"""The readiness report as a tagged PDF (PDF/UA-1); import this late, typst is heavy."""

from datetime import date, datetime

from app.files.pdf import made_pdf
from app.wording import readiness as words
from app.wording.hours import hours
from app.wording.languages import ENGLISH, Language
from assessments.readiness.evidence import HoursEvidence, RuleLine
from assessments.readiness.report import Gap, ReadinessReport
from curriculum.faults import N_

MOST_RULES = 12


def readiness_pdf(
    report: ReadinessReport,
    person: str,
    school: str,
    on: datetime,
    language: Language = ENGLISH,
) -> bytes:
    """The report for one person; the same arguments give the same bytes.

    `on` is when it is made, with its time zone; it becomes the file's date.
    """
    if on.tzinfo is None:
        raise ValueError("on needs a time zone")
    return made_pdf("readiness.typ", _data(report, person, school, on, language), int(on.timestamp()))


def _data(report: ReadinessReport, person: str, school: str, on: datetime, language: Language) -> dict:
    title = language(N_("Readiness of {person}"), person=person)
    footer = language(N_("What the school's record held on {day}. The certificate is decided by the school."))
    return {
        **language.printed(),
        "title": title,
        "school": school,
        "person": person if person.strip() else "–",
        "programme": f"{report.title} · {report.edition}",
        "day": words.day_or_nothing(report.on, language),
        "answer": words.answer(report, language),
        "footer": footer.format(day=words.day_or_nothing(report.on, language)),
        "labels": {key: language(text) for key, text in LABELS.items()},
        "line": _line(report, language),
        "gaps": _gaps(report, language),
        "criteria": _criteria(report, language),
        "rules": _rules(report.hours, language),
    }


LABELS = {
    "gaps": N_("To clear, in this order"),
    "number": N_("No."),
    "what": N_("What"),
    "who": N_("Who"),
    "earliest": N_("Can be done by"),
    "latest": N_("Begin by"),
    "criteria": N_("What the certificate asks for"),
    "asked": N_("Asked for"),
    "state": N_("State"),
    "detail": N_("What the record holds"),
    "rules": N_("Hours: what is still short"),
    "rule": N_("Rule"),
    "needed": N_("Needed"),
    "met": N_("Credited"),
    "waiting": N_("Waiting"),
    "short": N_("Still to do"),
}


def _gaps(report: ReadinessReport, language: Language) -> list[dict]:
    titles = {line.id: line.title for line in report.lines}
    return [_gap(number, gap, titles, language) for number, gap in enumerate(report.gaps, 1)]


def _gap(number: int, gap: Gap, titles: dict[str, str], language: Language) -> dict:
    latest = words.day_or_nothing(gap.latest_start, language)
    return {
        "number": str(number),
        "title": gap.title,
        "text": words.gap_text(gap, language),
        "waits": words.waits_text(gap, titles, language),
        "who": language(words.WHO[gap.who]),
        "earliest": words.day_or_nothing(gap.earliest, language),
        "latest": language(N_("{day}, passed"), day=latest) if gap.late else latest or "–",
        "late": gap.late,
    }


def _criteria(report: ReadinessReport, language: Language) -> list[dict]:
    met, missing = language(N_("met")), language(N_("not yet"))
    return [
        {
            "title": line.title,
            "met": line.met,
            "state": met if line.met else missing,
            "text": words.criterion_text(line, language),
        }
        for line in report.lines
    ]


def _rules(found: HoursEvidence | None, language: Language) -> list[dict]:
    short = [one for one in found.rules if one.short > 0] if found else []
    rows = [{"title": one.title, "amounts": _amounts(one, language)} for one in short[:MOST_RULES]]
    if len(short) > MOST_RULES:
        more = language(N_("and {count} more rules, on the hours page"), count=len(short) - MOST_RULES)
        rows.append({"title": more, "amounts": ["", "", "", ""]})
    return rows


def _amounts(one: RuleLine, language: Language) -> list[str]:
    amounts = (one.needed, one.met, one.waiting, one.short)
    return [hours(amount, language) if one.unit == "minutes" else language.figure(amount) for amount in amounts]


def _line(report: ReadinessReport, language: Language) -> dict | None:
    """Places along the line from 0 to 1, as the trainee's line on the pages: ink, ticks, today, knot."""
    found = report.hours
    if found is None or found.enrolled is None or found.window_end is None or found.window_end <= found.enrolled:
        return None
    end = max((gap.earliest for gap in report.gaps), default=None)
    window = (found.window_end - found.enrolled).days
    whole = min(max(window, (end - found.enrolled).days if end else 0), window * 3 // 2)
    needed = max(1, found.needed_minutes)
    credited = min(1, found.credited_minutes / needed) if found.needed_minutes else 1
    return {
        "ends": window / whole,
        "today": _along(report.on, found.enrolled, whole),
        "forecast": None if end is None else _along(end, found.enrolled, whole),
        "show_forecast": end is not None and end > found.window_end,
        "credited": credited,
        "waiting": min(found.waiting_minutes / needed, 1 - credited),
        **_line_words(report, found, end, language),
    }


def _along(day: date, start: date, whole: int) -> float:
    return min(1, max(0, (day - start).days / whole))


def _line_words(report: ReadinessReport, found: HoursEvidence, end: date | None, language: Language) -> dict:
    shown = {
        "start": words.day_or_nothing(found.enrolled, language),
        "ends": words.day_or_nothing(found.window_end, language),
        "today": words.day_or_nothing(report.on, language),
        "credited": hours(found.credited_minutes, language),
        "needed": hours(found.needed_minutes, language),
        "waiting": hours(found.waiting_minutes, language),
        "further": hours(found.further_minutes, language),
        "earliest": words.day_or_nothing(end, language),
    }
    alt = language(N_("Line of time from {start} to {ends}; today is {today}."))
    key = language(N_("Ink: {credited} of {needed} credited. Ticks: {waiting} waiting. Thin: {further} to do."))
    knot = language(N_("Knot: all there by {earliest}.")) if end else ""
    return {
        "alt": alt.format(**shown),
        "key": f"{key} {knot}".strip().format(**shown),
        "enrolled_text": language(N_("enrolled {start}"), **shown),
        "ends_text": language(N_("window ends {ends}"), **shown),
        "today_text": language(N_("today")),
        "forecast_text": shown["earliest"],
    }
