#include "solver/findings/finding_list.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace leat::solver {

namespace {

/// Two load cases differ by more than the solver's rounding, or the first one stays.
constexpr double least_difference = 1e-6;

/// A figure as one meets it on a farm, in SI: the measure for how far two are apart. Findings of
/// one code at one place may measure different things.
double usual_figure(Measure measure) {
  switch (measure) {
    case Measure::Ratio:
    case Measure::Length:
    case Measure::Velocity:
    case Measure::Volume:
      return 1.0;
    case Measure::Pressure:
      return 1e3;
    case Measure::Flow:
      return 1e-3;
  }
  return 1.0;
}

bool is_worse(const Finding& finding, const Finding& kept, Worse worse) {
  if (finding.severity != kept.severity) {
    return finding.severity < kept.severity;
  }
  if (!finding.value || !kept.value) {
    return false;
  }
  const double found = *finding.value / usual_figure(finding.measure);
  const double before = *kept.value / usual_figure(kept.measure);
  const double more = worse == Worse::Higher ? found - before : before - found;
  return more > least_difference * std::max(1.0, std::abs(before));
}

}  // namespace

Finding made_finding(Code code,
                     Severity severity,
                     const std::string& where,
                     LoadCase load_case,
                     const Measured& measured,
                     Detail detail) {
  Finding made;
  made.code = code;
  made.severity = severity;
  made.where = where;
  made.value = measured.value;
  made.limit = measured.limit;
  made.measure = measured.measure;
  made.load_case = load_case;
  made.detail = std::move(detail);
  return made;
}

void FindingList::raise(Finding finding, Worse worse) {
  const auto same = std::find_if(findings_.begin(), findings_.end(), [&](const Finding& other) {
    return other.code == finding.code && other.where == finding.where;
  });
  if (same == findings_.end()) {
    findings_.push_back(std::move(finding));
  } else if (is_worse(finding, *same, worse)) {
    *same = std::move(finding);
  }
}

std::vector<Finding> FindingList::sorted() && {
  std::stable_sort(findings_.begin(), findings_.end(), [](const Finding& a, const Finding& b) {
    return a.severity < b.severity;
  });
  return std::move(findings_);
}

}  // namespace leat::solver
