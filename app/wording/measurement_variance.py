"""Plain sentences about where differences between marks come from, for a director who is no statistician."""

from collections.abc import Iterator, Mapping, Sequence

from app.wording.faults import fault_text
from app.wording.languages import ENGLISH, Language
from assessments.measurement.statistic import Statistic
from curriculum.faults import N_

SPREAD = N_("Of the spread in single marks:")
OWN = N_("  {percent} % reflects real differences between them ({name}).")
PART = N_("  {percent} % comes from {name}.")
REST = N_("  {percent} % is what none of these explains ({name}).")
AS_WAS = N_("The exam as it was")
WORTH = N_("{plan}: a mark is right to within about ±{reach} (95 %); dependability {phi} (likely {low} to {high}).")
HELD = N_("{plan}: not shown ({why}).")
CUT = N_("  At the cut, dependability of the decision is {value}.")
FEW = N_("Read with care: {why}.")


def variance_sentences(
    found: Mapping[str, object], factors: Sequence[str], judge: str, objects: int, language: Language = ENGLISH
) -> Iterator[str]:
    """The answer of `variance_report` in words."""
    yield from _spread(found["shares"], factors[0], language)
    yield from _plan(language(AS_WAS), found, language)
    for plan in found["plans"]:
        yield from _plan(language.listed([f"{number} {name}" for name, number in plan["plan"].items()]), plan, language)
    cautions = {fault_text(flag, language) for flag in (*found["phi"].flags, *found["flags"])}
    yield from (language(FEW, why=why) for why in sorted(cautions))


def _spread(shares: Mapping[str, float | None], thing: str, language: Language) -> Iterator[str]:
    if None in shares.values():
        return
    yield language(SPREAD)
    last = list(shares)[-1]
    for name, share in shares.items():
        sentence = OWN if name == thing else REST if name == last else PART
        yield language(sentence, percent=language.decimal(100 * share, 0), name=name)


def _plan(name: str, answer: Mapping[str, Statistic], language: Language) -> Iterator[str]:
    phi, error = answer["phi"], answer["sem_absolute"]
    if phi.estimate is None or error.estimate is None:
        yield language(HELD, plan=name, why=fault_text(phi.withheld or error.withheld, language))
        return
    figures = {"phi": phi.estimate, "low": phi.low, "high": phi.high}
    shown = {key: "–" if value is None else language.decimal(value, 2) for key, value in figures.items()}
    yield language(WORTH, plan=name, reach=language.figure(float(f"{1.96 * error.estimate:.2g}")), **shown)
    if answer["phi_cut"] is not None and answer["phi_cut"].estimate is not None:
        yield language(CUT, value=language.decimal(answer["phi_cut"].estimate, 2))
