#include "solver/size/trials.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "solver/findings/states.h"
#include "solver/steady/steady.h"

namespace leat::solver {

namespace {

/// The name in the first farm of a pipe or joint of the laid one.
std::string first_name(const LaidFarm& laid, const model::Farm& farm, const std::string& name) {
  for (std::size_t i = 0; i < laid.origin.size(); ++i) {
    if (laid.farm.pipes[i].name == name) {
      return farm.pipes[laid.origin[i]].name;
    }
  }
  for (std::size_t i = 0; i < laid.joint_origin.size(); ++i) {
    if (laid.farm.places[farm.places.size() + i].name == name) {
      return farm.pipes[laid.joint_origin[i]].name;
    }
  }
  return name;
}

}  // namespace

std::vector<double> shares_met(const model::Farm& laid,
                               const SteadyAnswer& answer,
                               const std::vector<double>& wanted_m3_s) {
  std::vector<double> shares(wanted_m3_s.size(), 1.0);
  for (std::size_t i = 0; i < shares.size(); ++i) {
    if (wanted_m3_s[i] <= 0.0) {
      continue;
    }
    double got_m3_s = answer.places[i].delivered_m3_s;
    if (model::is_tank(laid.places[i])) {
      got_m3_s = 0.0;
      for (std::size_t p = 0; p < laid.pipes.size(); ++p) {
        got_m3_s += laid.pipes[p].to == i ? answer.pipes[p].flow_m3_s : 0.0;
      }
    }
    shares[i] = std::clamp(got_m3_s / wanted_m3_s[i], 0.0, 1.0);
  }
  return shares;
}

std::set<std::pair<Code, std::string>> dangers_of(const Trial& trial, const model::Farm& farm) {
  std::set<std::pair<Code, std::string>> dangers;
  for (const Finding& flag : trial.answer.flags) {
    if (flag.severity != Severity::Danger) {
      continue;
    }
    dangers.emplace(flag.code, first_name(trial.laid, farm, flag.where));
  }
  return dangers;
}

Trials::Trials(const model::Farm& farm,
               const PipeList& list,
               std::vector<std::size_t> runs,
               std::optional<model::Month> month)
    : farm_(farm), list_(list), runs_(std::move(runs)), month_(month) {}

Trial Trials::tried(std::vector<LaidRun> runs) {
  ++count_;
  Trial trial;
  trial.laid = laid_farm(farm_, runs, month_);
  trial.runs = std::move(runs);
  SteadyOptions options;
  options.month = month_;
  trial.answer = solve_steady(trial.laid.farm, options);
  const std::optional<double> cost = cost_of(trial.runs);
  trial.can_be_had = cost.has_value();
  trial.cost = cost.value_or(0.0);
  if (trial.answer.converged) {
    judge(trial);
  }
  return trial;
}

void Trials::judge(Trial& trial) const {
  const std::vector<double> shares = shares_met(trial.laid.farm, trial.answer, wanted_.flow_m3_s);
  for (std::size_t i = 0; i < shares.size(); ++i) {
    trial.shortfall += std::max(0.0, wanted_.met[i] - shares[i]);
  }
  for (const auto& danger : dangers_of(trial, farm_)) {
    trial.dangers += wanted_.borne.contains(danger) ? 0 : 1;
  }
  for (std::size_t i = 0; i < trial.laid.origin.size(); ++i) {
    const bool is_run = std::find(runs_.begin(), runs_.end(), trial.laid.origin[i]) != runs_.end();
    const bool is_fast = std::abs(trial.answer.pipes[i].velocity_m_s) > fast_velocity_m_s * 1.0001;
    trial.fast_runs += is_run && is_fast ? 1 : 0;
  }
}

std::vector<LaidRun> Trials::one_size_each(const std::vector<std::size_t>& sizes) const {
  std::vector<LaidRun> runs;
  for (std::size_t i = 0; i < runs_.size(); ++i) {
    runs.push_back(
        {runs_[i], {{list_.sizes[sizes[i]].size, in_metres(farm_.pipes[runs_[i]].length)}}});
  }
  return runs;
}

std::optional<double> Trials::cost_of(const std::vector<LaidRun>& runs) const {
  std::map<std::string, double> laid_m;
  for (const LaidRun& run : runs) {
    for (const LaidPart& part : run.parts) {
      laid_m[part.size.text] += part.length_m;
    }
  }
  double cost = 0.0;
  for (const PipeForSale& sale : list_.sizes) {
    const auto laid = laid_m.find(sale.size.text);
    const double bought_m = laid == laid_m.end() ? 0.0 : laid->second - sale.stock_m;
    if (bought_m <= 1e-6) {
      continue;
    }
    if (!sale.per_metre) {
      return std::nullopt;
    }
    cost += bought_m * *sale.per_metre;
  }
  return cost;
}

}  // namespace leat::solver
