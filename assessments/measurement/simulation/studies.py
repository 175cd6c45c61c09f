"""Every study there is, by its name."""

from assessments.hours import forecast_study, oddity_study
from assessments.measurement.simulation import (
    agreement_coverage,
    audit_power,
    cut_coverage,
    decision_truth,
    drift_power,
    link_power,
    measure_coverage,
    phi_coverage,
    rasch_recovery,
)

STUDIES = {
    module.STUDY.name: module.STUDY
    for module in (
        rasch_recovery,
        measure_coverage,
        agreement_coverage,
        phi_coverage,
        cut_coverage,
        link_power,
        drift_power,
        audit_power,
        decision_truth,
        forecast_study,
        oddity_study,
    )
}
