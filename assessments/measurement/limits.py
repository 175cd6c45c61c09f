"""The least data a result may rest on; judgement, so settings: change them where a school has its own."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from assessments.measurement.statistic import Statistic, reason
from curriculum.faults import N_, Fault


@dataclass(frozen=True, slots=True)
class Limit:
    """Withhold below one count, flag below another, for each thing counted."""

    withhold: Mapping[str, float] = field(default_factory=dict)
    flag: Mapping[str, float] = field(default_factory=dict)

    def applied(self, statistic: Statistic, anyway: bool = False, **counts: float) -> Statistic:
        """The statistic, held back or flagged by its counts; `anyway` turns holding back into a flag.

        What the data do not define stays undefined either way.
        """
        if statistic.withheld:
            return statistic
        few = [_few(thing, counts[thing], least) for thing, least in self.withhold.items() if counts[thing] < least]
        if few and not anyway:
            return statistic.held_back(few[0])
        thin = [_thin(thing, counts[thing], least) for thing, least in self.flag.items() if counts[thing] < least]
        return statistic.flagged(*few, *(() if few else thin))


def _few(thing: str, found: float, least: float) -> Fault:
    return reason(
        "too-few",
        N_("rests on {found} {thing}; at least {least} are needed"),
        **_counts(thing, found, least),
    )


def _thin(thing: str, found: float, least: float) -> Fault:
    sentence = N_("rests on only {found} {thing}; below {least} read it with its interval")
    return reason("few", sentence, **_counts(thing, found, least))


def _counts(thing: str, found: float, least: float) -> dict[str, object]:
    return {
        "thing": thing.replace("_", " "),
        "found": f"{found:g}",
        "least": f"{least:g}",
    }


@dataclass(frozen=True, slots=True)
class Limits:
    """One `Limit` for each kind of result, with the defaults the school starts from."""

    pair: Limit = Limit({"common_units": 10}, {"common_units": 30})
    many: Limit = Limit({"units_with_two_ratings": 10}, {"units_with_two_ratings": 30})
    intraclass: Limit = Limit({"units": 10, "examiners": 2}, {"units": 30, "examiners": 4})
    mark_differences: Limit = Limit({"pairs": 20}, {"pairs": 50})
    examiner_variance: Limit = Limit({"examiners": 3, "candidates": 20}, {"examiners": 6, "candidates": 50})
    candidate_variance: Limit = Limit({"candidates": 20}, {"candidates": 50})
    cronbach: Limit = Limit({"candidates": 30, "items": 3}, {"candidates": 100})
    consistency: Limit = Limit({"candidates": 50}, {"candidates": 200})
    angoff: Limit = Limit({"judges": 5}, {"judges": 8})
    borderline_group: Limit = Limit({"borderline_candidates": 10}, {"borderline_candidates": 20})
    borderline_regression: Limit = Limit({"candidates": 15, "grades_used": 3}, {"candidates": 50})
    least_r2: float = 0.4
    contrasting_groups: Limit = Limit({"candidates_in_the_smaller_group": 10}, {"candidates_in_the_smaller_group": 30})
    compromise: Limit = Limit({"judges": 5, "candidates": 50}, {"judges": 8, "candidates": 100})
    severity: Limit = Limit({"ratings": 20, "candidates": 5})
    most_severity_error: float = 0.25
    candidate_measure: Limit = Limit({"ratings": 8})
    most_candidate_error: float = 0.4
    steps: Limit = Limit({"ratings_a_step": 10}, {"ratings_a_step": 30})
    fit: Limit = Limit({"ratings": 30}, {"ratings": 100})
    bias_term: Limit = Limit({"ratings": 10}, {"ratings": 30})
    drift: Limit = Limit({"sessions": 2, "ratings_a_session": 20}, {"sessions": 4})
    detection: Limit = Limit(
        {"signal_trials": 5, "noise_trials": 5},
        {"signal_trials": 15, "noise_trials": 15},
    )
    difficulty: Limit = Limit({"candidates": 15}, {"candidates": 30})


DEFAULT_LIMITS = Limits()
