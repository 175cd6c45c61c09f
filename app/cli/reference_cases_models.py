"""Which command gives each open reference value: variance components and the many-facet Rasch model."""

from app.cli.reference_cases import ReferenceCase

CASES: list[ReferenceCase] = []


def case(name, arguments, reads, near=None):
    CASES.append(ReferenceCase(name, tuple(arguments), reads, near or {}))


def at(*path):
    def read(answer):
        for step in path:
            answer = next(row for row in answer if row["id"] == step[1]) if isinstance(step, tuple) else answer[step]
        return answer["estimate"] if isinstance(answer, dict) and "estimate" in answer else answer

    return read


def element(facet, label, figure="estimate"):
    return at("facets", facet, ("id", str(label)), figure)


def step(number, group=None, figure="estimate"):
    def read(answer):
        rows = [row for row in answer["steps"] if row["step"] == number]
        return next(row for row in rows if group is None or row["id"] == str(group))[figure]

    return read


def plan(number, figure):
    return at("plans", number, figure)


def by_score(score):
    """Maximum-likelihood measure of any candidate with so many of five right."""
    return lambda answer: next(
        row["maximum_likelihood"] for row in answer["candidates"] if round(5 * row["raw"]) == score
    )


VARIANCE = ["variance", "--anyway"]
SIZES = (12, 5, 10, 15, 20)
reads = {f"var_{key}": at("components", name) for key, name in (("p", "p"), ("i", "i"), ("pi", "p x i"))}
for place, size in enumerate(SIZES):
    reads |= {
        f"Erho2_ni{size}": plan(place, "g_coefficient"),
        f"Phi_ni{size}": plan(place, "phi"),
        f"abs_error_var_ni{size}": plan(place, "absolute_error"),
        f"rel_error_var_ni{size}": plan(place, "relative_error"),
    }
reads["grand_mean"] = at("mean")
PERSON_ITEM = [*VARIANCE, "open_brennan2001_syn1_pxi.csv", "--object", "p", "--facets", "i"]
PLANS = [word for size in SIZES for word in ("--plan", f"i={size}")]
case("brennan2001_syn1_pxi", [*PERSON_ITEM, *PLANS], reads)
for cut in ("0.4", "0.5", "0.6", "0.7", "0.8", "0.9"):
    key = f"Phi_lambda_{cut}_ni12_unbiased"
    case("brennan2001_syn1_pxi", [*PERSON_ITEM, "--cut", cut, "--method", "reml"], {key: at("raw_phi_cut")})

names = {"p": "p", "i": "i", "o": "o", "pi": "p x i", "po": "p x o", "io": "i x o", "pio": "p x i x o"}
reads = {f"var_{key}": at("components", name) for key, name in names.items()}
PAIRS = ((4, 2), (4, 1), (4, 4), (8, 2), (12, 3))
for place, (items, occasions) in enumerate(PAIRS):
    reads[f"Erho2_ni{items}_no{occasions}"] = plan(place, "g_coefficient")
    reads[f"Phi_ni{items}_no{occasions}"] = plan(place, "phi")
ITEM_OCCASION = [*VARIANCE, "open_brennan2001_syn3_pxixo.csv", "--object", "p", "--facets", "i,o"]
PLANS = [word for items, occasions in PAIRS for word in ("--plan", f"i={items},o={occasions}")]
case("brennan2001_syn3_pxixo", [*ITEM_OCCASION, *PLANS], reads)
fixed = {"Erho2_i_fixed_ni4_no2": at("g_coefficient"), "Phi_i_fixed_ni4_no2": at("phi")}
case("brennan2001_syn3_pxixo", [*ITEM_OCCASION, "--fixed", "i"], fixed)

names = {"p": "p", "t": "t", "r:t": "r(t)", "pt": "p x t", "pr:t": "p x r(t)"}
reads = {f"var_{key}": at("components", name) for key, name in names.items()}
PAIRS = ((3, 4), (3, 2), (6, 2), (10, 1), (12, 2))
for place, (tasks, examiners) in enumerate(PAIRS):
    reads[f"Erho2_nt{tasks}_nr{examiners}"] = plan(place, "g_coefficient")
    reads[f"Phi_nt{tasks}_nr{examiners}"] = plan(place, "phi")
PLANS = [word for tasks, examiners in PAIRS for word in ("--plan", f"t={tasks},r={examiners}")]
NESTED = ["--object", "p", "--facets", "t,r", "--nested", "r=t"]
case("brennan2001_syn4_pxr_in_t", [*VARIANCE, "open_brennan2001_syn4_pxr_in_t.csv", *NESTED, *PLANS], reads)
for method, ending in (("anova", "analogous_anova"), ("reml", "reml")):
    reads = {f"var_{key}_{ending}": at("components", name) for key, name in names.items()}
    case("unbalanced_pxr_in_t", [*VARIANCE, "open_unbalanced_pxr_in_t.csv", *NESTED, "--method", method], reads)

RASCH = ["rasch", "--anyway", "--draws", "0"]
ITEMS = [f"Item {number}" for number in range(1, 6)]


def common_slope(item):
    return lambda answer: (element("item", item)(answer) - answer["means"]["all"]["estimate"]) / answer["sigma"]


LSAT = [*RASCH, "open_lsat6.csv", "--wide"]
reads = {f"item{number}_common_slope": common_slope(item) for number, item in enumerate(ITEMS, 1)}
reads |= {"common_slope": at("sigma"), "loglik_common_slope": at("log_likelihood")}
case("lsat6_rasch", LSAT, reads)
reads = {f"item{number}_cml_sumzero": element("item", item) for number, item in enumerate(ITEMS, 1)}
for number, item in enumerate(ITEMS, 1):
    reads |= {f"item{number}_{kind}_ms": element("item", item, kind) for kind in ("infit", "outfit")}
reads |= {f"theta_ml_raw{score}": by_score(score) for score in range(1, 5)} | {"cml_loglik": at("log_likelihood")}
case("lsat6_rasch", [*LSAT, "--estimator", "conditional"], reads)

STEPPED = [*RASCH, "open_erm_pcmdat2.csv", "--wide", "--model", "partial-credit"]


def threshold(item, number):
    return lambda answer: element("item", item)(answer) + step(number, item)(answer)


reads = {f"item{n}_threshold{k}": threshold(f"I{n}", k) for n in range(1, 5) for k in (1, 2)}
for n in range(1, 5):
    reads |= {f"item{n}_{kind}_ms": element("item", f"I{n}", kind) for kind in ("infit", "outfit")}
reads |= {"cml_loglik": at("log_likelihood"), "person_separation_reliability": at("reliability")}
case("erm_pcmdat2", [*STEPPED, "--estimator", "conditional"], reads)
reads = {
    "mml_deviance": lambda answer: -2 * answer["log_likelihood"],
    "mml_var_theta": lambda answer: answer["sigma"] ** 2,
}
case("erm_pcmdat2", STEPPED, reads, {"mml_var_theta": 0.002})
reads = {f"item{n}_location": element("item", f"I{n}") for n in range(1, 7)}
reads |= {f"step{k}": step(k) for k in (1, 2, 3)} | {"cml_loglik": at("log_likelihood")}
case("erm_rsmdat", [*RASCH, "open_erm_rsmdat.csv", "--wide", "--estimator", "conditional"], reads)

COMPLETE = [*RASCH, "open_mfrm_complete_rsm.csv", "--facets", "examiner,criterion", "--estimator", "conditional"]
reads = {f"cml_examiner{n}": element("examiner", n) for n in range(1, 5)}
reads |= {f"cml_criterion{n}": element("criterion", n) for n in range(1, 4)}
reads |= {f"cml_step{k}": step(k) for k in (1, 2, 3)} | {"cml_loglik": at("log_likelihood")}
case("mfrm_complete_rsm_cml", COMPLETE, reads)

FACETS = {"examiner": 6, "exercise": 4, "criterion": 3}


def of_facets(prefix):
    found = {f"{prefix}_{facet}{n}": element(facet, n) for facet, size in FACETS.items() for n in range(1, size + 1)}
    return found | {f"se_{prefix}_examiner{n}": element("examiner", n, "se") for n in range(1, 7)}


def candidate(number, figure):
    return at("candidates", ("id", str(number)), figure)


whole = {
    "candidate_separation_reliability_wle": at("reliability"),
    "candidate_separation_index_G": at("reliability", "separation"),
    "examiner_separation_reliability": at("reliability", "facets", "examiner", "reliability"),
    "examiner_homogeneity_chi2": at("reliability", "facets", "examiner", "chi_square"),
    "connect_extra_null_dims": at("extra_dimensions"),
    "mml_loglik": at("log_likelihood"),
    "mml_sd_theta": at("sigma"),
}
for n in range(1, 7):
    whole |= {f"{kind}_ms_examiner{n}": element("examiner", n, kind) for kind in ("infit", "outfit")}
for n in range(1, 6):
    whole |= {
        f"candidate{n}_wle": candidate(n, "estimate"),
        f"candidate{n}_wle_se": candidate(n, "se"),
        f"candidate{n}_fair_average": candidate(n, "adjusted"),
        f"candidate{n}_raw_average": candidate(n, "raw"),
    }
PARTIAL = ["--model", "partial-credit", "--steps", "criterion"]
for name, file, more in (
    ("mfrm_small_rsm", "open_mfrm_small_rsm.csv", []),
    ("mfrm_small_pcm", "open_mfrm_small_pcm.csv", PARTIAL),
):
    for prefix, estimator in (("mml", "marginal"), ("jml", "joint")):
        if more:
            steps = {f"{prefix}_step{k}_criterion{g}": step(k, g) for k in (1, 2, 3) for g in (1, 2, 3)}
        else:
            steps = {f"{prefix}_step{k}": step(k) for k in (1, 2, 3)}
        reads = of_facets(prefix) | steps | (whole if prefix == "mml" else {"jml_loglik": at("log_likelihood")})
        near = {"mml_loglik": 0.001, "examiner_homogeneity_chi2": 0.01}
        case(name, [*RASCH, file, *more, "--estimator", estimator], reads, near)

reads = {
    f"mml_{facet}{n}": element(facet, n)
    for facet, size in {**FACETS, "examiner": 5}.items()
    for n in range(1, size + 1)
}
reads |= {f"se_examiner{n}": element("examiner", n, "se") for n in range(1, 5)}
reads |= {"loglik": at("log_likelihood"), "sd_theta": at("sigma")}
case("mfrm_dichotomous", [*RASCH, "open_mfrm_dichotomous.csv"], reads)

for name, file in (
    ("mfrm_disconnected_tiny", "open_mfrm_disconnected_tiny.csv"),
    ("mfrm_weak_link", "open_mfrm_weak_link.csv"),
):
    reads = {"extra_null_dimensions": at("extra_dimensions")}
    for facet in FACETS:
        reads[f"subsets_{facet}"] = lambda answer, facet=facet: [
            [int(label) for label in island] for island in answer["islands"][facet]
        ]
    if name == "mfrm_weak_link":
        reads["se_between_team_severity_difference"] = at("weakest_link", "se")
    case(name, [*RASCH, file, "--estimator", "joint"], reads)


def pair(figure, refit=False):
    def read(answer):
        rows = answer["interactions"]
        row = next(row for row in rows if row["examiner"] == "2" and row.get("criterion") == "3")
        return row["refit"][figure] if refit else row[figure]

    return read


def clearest(answer):
    """The pair of examiner and criterion with the largest t."""
    rows = [row for row in answer["interactions"] if "criterion" in row and row["t"] is not None]
    return max(rows, key=lambda row: abs(row["t"]))


def listed(figure):
    return lambda answer: [round(row[figure], 4) for row in answer["facets"]["examiner"]]


reads = {
    "infit_ms_by_examiner": listed("infit"),
    "outfit_ms_by_examiner": listed("outfit"),
    "screen_bias_examiner2_criterion3": pair("estimate"),
    "screen_bias_examiner2_criterion3_se": pair("se"),
    "joint_bias": pair("estimate", refit=True),
    "joint_bias_se": pair("se", refit=True),
    "joint_drift_examiner5_total": lambda answer: 150 * answer["drift"]["slopes"][4]["refit"]["estimate"],
    "joint_drift_se": lambda answer: 150 * answer["drift"]["slopes"][4]["refit"]["se"],
    "highest_infit_examiner": lambda answer: int(max(answer["facets"]["examiner"], key=lambda row: row["infit"])["id"]),
    "largest_abs_t_pair_1based": lambda answer: [int(clearest(answer)["examiner"]), int(clearest(answer)["criterion"])],
    "screen_drift_t_by_examiner": lambda answer: [round(row["t"], 3) for row in answer["drift"]["slopes"]],
}
# The reference fits the drift of examiner 5 at the same time as this term.
near = {"joint_bias": 0.005, "joint_bias_se": 0.001}
case("mfrm_effects_open", [*RASCH, "open_mfrm_effects.csv", "--time", "candidate"], reads, near)
