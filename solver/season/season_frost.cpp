#include <cstddef>
#include <utility>
#include <vector>

#include "model/quantity/conversion.h"
#include "solver/season/freezing_season.h"
#include "solver/season/season_findings.h"

namespace leat::solver {

namespace {

/// A month with fewer freezing nights than this is no cold one.
constexpr double least_freezing_nights = 0.5;

/// Mean flow of every pipe over the months in which nights freeze; empty where none do.
std::vector<double> flows_in_the_cold(const SeasonPast& past, const FrostAnswer& frost) {
  std::vector<double> flow_m3_s(past.farm.pipes.size(), 0.0);
  double days = 0.0;
  for (const FrostMonth& cold : frost.months) {
    for (const WaterAccount::MonthSum& month : past.account.months()) {
      if (cold.freezing < least_freezing_nights || cold.year != month.year ||
          cold.month != month.month) {
        continue;
      }
      days += month.days;
      for (std::size_t i = 0; i < flow_m3_s.size(); ++i) {
        flow_m3_s[i] += month.pipe_m3[i] / seconds_per_day;
      }
    }
  }
  if (days <= 0.0) {
    return {};
  }
  for (double& flow : flow_m3_s) {
    flow /= days;
  }
  return flow_m3_s;
}

}  // namespace

void find_season_frost(const SeasonPast& past, SeasonAnswer& answer) {
  FrostAnswer frost = freezing_season(past.farm, answer.from, answer.to);
  if (frost.months.empty()) {
    return;
  }
  const std::vector<double> flows = flows_in_the_cold(past, frost);
  if (!flows.empty()) {
    frost = freezing_season(past.farm, answer.from, answer.to, flows);
  }
  for (FrostPipe& pipe : frost.pipes) {
    if (pipe.verdict == FrostVerdict::Enough) {
      continue;
    }
    Finding found;
    found.code = Code::Freezes;
    found.severity = Severity::Note;
    found.where = past.farm.pipes[pipe.pipe].name;
    found.measure = Measure::Flow;
    if (pipe.flow_m3_s) {
      found.value = *pipe.flow_m3_s;
    }
    if (pipe.least_flow_m3_s) {
      found.limit = *pipe.least_flow_m3_s;
    }
    found.detail = PipeFreezes{std::move(pipe)};
    answer.flags.push_back(std::move(found));
  }
  for (SeasonNote& note : frost.notes) {
    answer.notes.push_back(std::move(note));
  }
}

}  // namespace leat::solver
