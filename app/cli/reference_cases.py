"""Which command gives each open reference value: agreement, reliability, cut scores, decision consistency, detection."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

Read = Callable[[Mapping[str, object]], object]


@dataclass(frozen=True, slots=True)
class ReferenceCase:
    """`words` of `throughline measure` for one entry, and how to read each of its values from the answer.

    A word that ends in .csv is a file of the folder. `near` widens a tolerance, for a reason that stands beside it.
    """

    entry: str
    words: tuple[str, ...]
    reads: Mapping[str, Read]
    near: Mapping[str, float] = field(default_factory=dict)


def at_path(path: str) -> Read:
    """`key`, `key inner`, `key low high`, or several keys of numbers; a statistic's estimate where a path ends at one."""

    def read(answer: Mapping[str, object]) -> object:
        first, *rest = path.split()
        value = answer[first]
        if rest and not isinstance(value, dict):
            return [answer[key] for key in (first, *rest)]
        if len(rest) == 2:
            return [value[end] for end in rest]
        value = value[rest[0]] if rest else value
        return value["estimate"] if isinstance(value, dict) else value

    return read


AGREEMENT = {
    "cohen_1960_1968_3x3": (
        "open_cohen1968_3x3.csv --square --disagreement 0,1,3;1,0,6;3,6,0",
        {
            "percent_agreement": "percent",
            "kappa": "kappa",
            "kappa_ase": "kappa_se",
            "weighted_kappa_cohen_disagreement_weights_0_1_3_6": "kappa_weighted",
            "weighted_kappa_linear": "kappa_linear",
            "weighted_kappa_quadratic": "kappa_quadratic",
            "weighted_kappa_quadratic_ase": "kappa_quadratic_se",
        },
    ),
    "shrout_fleiss_1979": (
        "open_shrout_fleiss1979.csv --wide --anyway",
        {
            "ICC(1,1)": "icc_1_1",
            "ICC(2,1)=ICC(A,1)": "icc_a_1",
            "ICC(3,1)=ICC(C,1)": "icc_c_1",
            "ICC(1,k)": "icc_1_k",
            "ICC(2,k)=ICC(A,k)": "icc_a_k",
            "ICC(3,k)=ICC(C,k)": "icc_c_k",
            "ICC(1,1)_ci95": "icc_1_1 low high",
            "ICC(A,1)_ci95": "icc_a_1 low high",
            "ICC(C,1)_ci95": "icc_c_1 low high",
        },
    ),
    "fleiss_1971_30x6": (
        "open_fleiss1971_raw.csv --wide",
        {
            "kappa": "fleiss_kappa",
            "z_under_null": "fleiss_z",
            "se_for_ci_subject_sampling (Gwet 2008)": "fleiss_kappa_se",
            **{f"category_kappa_{category}": f"fleiss_categories {category}" for category in range(1, 6)},
        },
    ),
    "fleiss_10x14": ("open_fleiss_10x14.csv --counts", {"kappa": "fleiss_kappa"}),
    "krippendorff_2011_12x4": (
        "open_krippendorff2011_12x4.csv --wide --categories 1,2,3,4,5",
        {
            "alpha_nominal": "alpha_nominal",
            "alpha_ordinal": "alpha_ordinal",
            "alpha_interval": "alpha_interval",
            "alpha_ratio": "alpha_ratio",
            "percent_agreement": "percent",
            "AC1": "ac1",
            "AC1_se": "ac1_se",
            "AC2_linear": "ac2_linear",
            "AC2_quadratic": "ac2_quadratic",
            "AC2_ordinal": "ac2_ordinal",
            "fleiss_kappa_missing (Gwet generalisation)": "fleiss_kappa",
        },
    ),
    "gwet_3x3_abstractors": (
        "open_gwet_3x3.csv --square",
        {
            "AC1": "ac1",
            "AC1_se": "ac1_se",
            "kappa_identity": "kappa",
            "kappa_linear": "kappa_linear",
            "kappa_quadratic": "kappa_quadratic",
            "agreement_identity": "percent",
            "agreement_linear": "percent_linear",
            "agreement_quadratic": "percent_quadratic",
            "AC2_linear": "ac2_linear",
            "AC2_linear_se": "ac2_linear_se",
            "AC2_quadratic": "ac2_quadratic",
            "AC2_quadratic_se": "ac2_quadratic_se",
        },
    ),
    "bland_altman_1986_pefr": (
        "open_bland_altman1986_pefr.csv --wide --anyway",
        {
            "bias": "bias",
            "bias_ci95": "bias low high",
            "sd_diff": "sd_difference",
            "loa_low_1.96": "limits low",
            "loa_high_1.96": "limits high",
            "loa_se_1.96": "limits_se",
        },
    ),
}
RELIABILITY = {
    "chatterjee_price_attitude": (
        "open_attitude.csv --wide",
        {"alpha": "alpha", "alpha_ci95_feldt": "alpha low high", "sem_total": "sem"},
    ),
    "lsat6_alpha": ("open_lsat6.csv --wide", {"alpha": "alpha"}),
}
STATION = "open_brm_station.csv --grade global_grade"
COMPROMISE = "open_compromise_scores.csv --judges open_compromise_judges.csv --max 50"
CUT_SCORES = [
    (
        "angoff_5x8",
        "open_angoff_5x8.csv --method angoff --wide",
        {
            "cut": "cut",
            "cut_percent": "cut_percent",
            "se_judges": "se",
            "se_judges_random_items_fixed": "se",
            "se_judges_and_items_random": "se_new_elements",
            "median_cut": "median",
            "var_judge": "variances judge",
            "var_item": "variances element",
            "var_resid": "variances residual",
        },
    ),
    (
        "brm_station",
        f"{STATION} --method borderline-regression --borderline 2",
        {
            "brm_intercept": "intercept",
            "brm_slope_intergrade_discrimination": "slope",
            "brm_r2": "r2",
            "brm_rmse_resid": "residual_sd",
            "brm_cut": "cut",
            "brm_se_cut_analytic": "se",
            "brm_se_cut_bootstrap": "se_resampled",
        },
    ),
    (
        "brm_station",
        f"{STATION} --method borderline-group --borderline 2",
        {
            "bg_mean": "mean",
            "bg_median": "cut",
            "bg_n": "borderline_candidates",
            "bg_se_mean": "se_mean",
            "bg_se_median_bootstrap": "se",
        },
    ),
    (
        "contrasting_station",
        f"{STATION} --method contrasting-groups --competent 3",
        {
            "logistic_cut_p50": "cut",
            "logistic_cut_se_delta": "se",
            "equal_density_normal_cut": "normal_cut",
            "min_misclassified": "errors",
        },
    ),
    (
        "compromise",
        f"{COMPROMISE} --method hofstee",
        {
            "hofstee_cut": "cut",
            "hofstee_fail_percent": "fail_percent",
            "hofstee_kmin_kmax_fmin_fmax": "kmin kmax fmin fmax",
        },
    ),
    (
        "compromise",
        f"{COMPROMISE} --method beuk",
        {
            "beuk_cut": "cut",
            "beuk_pass_percent": "pass_percent",
            "beuk_slope_sv_over_sk": "slope",
            "beuk_kbar_vbar": "mean_cut mean_pass",
        },
    ),
]
CONSISTENCY = [
    (
        "dc_beta_binomial_40",
        f"open_dc_scores_40.csv --cut {cut} --max 40 --method {method}",
        {f"{name}_{short}_cut{cut}": key for short, key in keys.items()} | {"KR21": "kr21"},
    )
    for cut in (20, 24, 28)
    for method, name, keys in (
        ("huynh", "beta_binomial", {"p0": "agreement", "kappa": "kappa"}),
        ("livingston-lewis", "livingston_lewis", {"p0": "agreement", "kappa": "kappa", "accuracy": "accuracy"}),
    )
]
CASES = [
    ReferenceCase(entry, (what, *words.split()), {name: at_path(path) for name, path in keys.items()})
    for what, entry, words, keys in (
        *(("agreement", entry, *case) for entry, case in AGREEMENT.items()),
        *(("reliability", entry, *case) for entry, case in RELIABILITY.items()),
        *(("cut-score", *case) for case in CUT_SCORES),
        *(("consistency", *case) for case in CONSISTENCY),
    )
]
# What an answer holds in other words than the reference.
CASES += [
    ReferenceCase(
        "contrasting_station",
        tuple(f"cut-score {STATION} --method contrasting-groups --competent 3".split()),
        {
            "min_misclassification_cuts": lambda answer: list(
                range(int(answer["least_errors_from"]), int(answer["least_errors_to"]) + 1)
            )
        },
    ),
    ReferenceCase(
        "bland_altman_1986_pefr",
        tuple("agreement open_bland_altman1986_pefr.csv --wide --anyway".split()),
        {
            "loa_low_2sd": lambda answer: answer["bias"]["estimate"] - 2 * answer["sd_difference"],
            "loa_high_2sd": lambda answer: answer["bias"]["estimate"] + 2 * answer["sd_difference"],
        },
    ),
]
