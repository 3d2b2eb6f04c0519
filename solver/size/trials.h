// Sizes tried on the real farm: laid, solved for every load case, and judged against what is
// wanted of them.
#pragma once

#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "model/farm/farm.h"
#include "solver/answer/steady_answer.h"
#include "solver/size/laid_farm.h"
#include "solver/size/pipe_for_sale.h"

namespace leat::solver {

/// What is wanted of any choice: shares of needs, and no danger that could be done without.
struct Wanted {
  std::vector<double> met;  // by place: the least share of its flow; 0 where nothing is wanted
  std::vector<double> flow_m3_s;                 // by place: that whole flow
  std::set<std::pair<Code, std::string>> borne;  // dangers (code, where) no choice avoids
};

/// How a choice of sizes does.
struct Trial {
  std::vector<LaidRun> runs;
  LaidFarm laid;
  SteadyAnswer answer;
  double shortfall = 0.0;  // sum over places of what is missing of the wanted shares
  int dangers = 0;         // that could be done without
  int fast_runs = 0;       // faster than the limit in the needs case
  double cost = 0.0;       // of the pipe bought, in the list's money or weight
  bool can_be_had = true;  // no more is laid than store and shop hold

  [[nodiscard]] bool is_sound() const {
    return can_be_had && answer.converged && shortfall <= 0.0 && dangers == 0 && fast_runs == 0;
  }
};

class Trials {
 public:
  Trials(const model::Farm& farm,
         const PipeList& list,
         std::vector<std::size_t> runs,
         std::optional<model::Month> month);

  /// Solves the farm with the runs laid so.
  [[nodiscard]] Trial tried(std::vector<LaidRun> runs);
  /// Every run in one size of the list, by index.
  [[nodiscard]] std::vector<LaidRun> one_size_each(const std::vector<std::size_t>& sizes) const;
  /// Cost of what must be bought beside the stock; none where a size is not for sale.
  [[nodiscard]] std::optional<double> cost_of(const std::vector<LaidRun>& runs) const;

  void want(Wanted wanted) { wanted_ = std::move(wanted); }
  [[nodiscard]] const Wanted& wanted() const { return wanted_; }
  [[nodiscard]] int count() const { return count_; }

 private:
  void judge(Trial& trial) const;

  const model::Farm& farm_;
  const PipeList& list_;
  std::vector<std::size_t> runs_;
  std::optional<model::Month> month_;
  Wanted wanted_;
  int count_ = 0;
};

/// Share of what is wanted at each place that an answer brings: 1 where nothing is wanted.
[[nodiscard]] std::vector<double> shares_met(const model::Farm& laid,
                                             const SteadyAnswer& answer,
                                             const std::vector<double>& wanted_m3_s);

/// The dangers of an answer by code and place, a part of a run named after its run.
[[nodiscard]] std::set<std::pair<Code, std::string>> dangers_of(const Trial& trial,
                                                                const model::Farm& farm);

}  // namespace leat::solver
