#include "solver/size/tree_choice.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "solver/findings/states.h"

namespace leat::solver {

namespace {

/// How often the straight-line choice is tightened where the real farm falls short of it.
constexpr int most_tightenings = 12;
constexpr double tightening_share = 0.01;
constexpr double least_tightening_m = 0.01;
/// A part shorter than this is laid in the run's widest size.
constexpr double shortest_part_m = 0.3;

/// Dangers that another size of the run itself takes away.
bool is_of_strength(Code code) {
  return code == Code::OverRating || code == Code::Surge || code == Code::Collapse;
}

double run_length_m(const SizingTask& task, std::size_t run) {
  return in_metres(task.farm.pipes[task.runs[run]].length);
}

class TreeChooser {
 public:
  TreeChooser(const SizingTask& task,
              const WaterTree& tree,
              const AllowedSizes& allowed,
              Trials& trials)
      : task_(task), tree_(tree), given_(allowed), trials_(trials) {}

  TreeChoice choose(PartsOfRun parts) {
    TreeChoice made;
    made.allowed = not_too_fast();
    made.choice = choice_among(task_, made.allowed);
    const HeadBudget budget = budget_among(made.allowed);
    made.choice.limits = budget.limits;
    for (; made.tightenings < most_tightenings; ++made.tightenings) {
      const ChosenSizes chosen = choose_sizes(made.choice, parts);
      if (chosen.ending != ProgramEnding::Solved) {
        break;
      }
      made.bound = made.bound.value_or(chosen.cost);
      Trial trial = trials_.tried(laid_as(chosen, made.allowed));
      if (trial.is_sound()) {
        made.sound = std::move(trial);
        break;
      }
      const bool feeds = trial.can_be_had && trial.answer.converged && trial.shortfall <= 0.0 &&
                         trial.fast_runs == 0;
      if (feeds && (!made.fed || trial.dangers < made.fed->dangers)) {
        made.fed = trial;
      }
      if (!tighten(trial, budget, made.allowed, made.choice)) {
        break;
      }
    }
    return made;
  }

 private:
  /// The sizes a run may have at the tree's flow; the widest where all are too fast.
  [[nodiscard]] AllowedSizes not_too_fast() const {
    AllowedSizes slow = given_;
    for (std::size_t run = 0; run < task_.runs.size(); ++run) {
      const double flow_m3_s = tree_.flow_m3_s[task_.runs[run]];
      const std::size_t widest = given_[run].back();
      std::erase_if(slow[run], [&](std::size_t k) {
        return flow_m3_s >
               fast_velocity_m_s * in_square_metres(bore_area(task_.list.sizes[k].size.bore));
      });
      if (slow[run].empty()) {
        slow[run].push_back(widest);
      }
    }
    return slow;
  }

  [[nodiscard]] HeadBudget budget_among(const AllowedSizes& allowed) const {
    const Surroundings surroundings = surroundings_of(task_.farm, task_.month);
    std::vector<std::size_t> options;
    std::size_t most = 1;
    for (const auto& sizes : allowed) {
      options.push_back(sizes.size());
      most = std::max(most, sizes.size());
    }
    std::vector<std::vector<PipeSpending>> spending;
    for (std::size_t k = 0; k < most; ++k) {
      std::vector<std::size_t> sizes;
      for (const auto& of_run : allowed) {
        sizes.push_back(of_run[std::min(k, of_run.size() - 1)]);
      }
      const LaidFarm laid = laid_farm(task_.farm, trials_.one_size_each(sizes), task_.month);
      spending.push_back(spending_of(laid.farm, tree_, surroundings, task_.month));
    }
    return head_budget(task_.farm, tree_, spending, task_.runs, options, surroundings, task_.month);
  }

  /// Shares of sizes as pipe to be laid, the widest first; a scrap goes to the widest.
  [[nodiscard]] std::vector<LaidRun> laid_as(const ChosenSizes& chosen,
                                             const AllowedSizes& allowed) const {
    std::vector<LaidRun> laid;
    for (std::size_t run = 0; run < task_.runs.size(); ++run) {
      LaidRun made{task_.runs[run], {}};
      double left_m = 0.0;
      for (std::size_t i = allowed[run].size(); i-- > 0;) {
        const double part_m = chosen.share[run][i] * run_length_m(task_, run);
        const bool is_whole = chosen.share[run][i] > 1.0 - 1e-12;
        if (part_m >= shortest_part_m || is_whole) {
          made.parts.push_back({task_.list.sizes[allowed[run][i]].size, part_m});
        } else {
          left_m += part_m;
        }
      }
      if (made.parts.empty()) {  // a run shorter than two scraps
        made.parts.push_back({task_.list.sizes[allowed[run].back()].size, 0.0});
      }
      made.parts.front().length_m += left_m;
      laid.push_back(std::move(made));
    }
    return laid;
  }

  /// Asks for more head where the trial was short, and takes sizes away that do not stand it.
  bool tighten(const Trial& trial,
               const HeadBudget& budget,
               AllowedSizes& allowed,
               SizeChoice& choice) const {
    bool changed = false;
    const std::vector<double> shares =
        shares_met(trial.laid.farm, trial.answer, trials_.wanted().flow_m3_s);
    const auto dangers = dangers_of(trial, task_.farm);
    for (std::size_t i = 0; i < budget.limits.size(); ++i) {
      const std::size_t pipe = budget.origins[i].pipe;
      const std::size_t place = task_.farm.pipes[pipe].to;
      const bool is_short =
          !budget.origins[i].is_summit && shares[place] < trials_.wanted().met[place];
      const bool is_near = budget.origins[i].is_summit &&
                           std::any_of(dangers.begin(), dangers.end(), [&](const auto& danger) {
                             return danger.second == task_.farm.pipes[pipe].name &&
                                    !is_of_strength(danger.first) &&
                                    !trials_.wanted().borne.contains(danger);
                           });
      if (is_short || is_near) {
        choice.limits[i].available_m -=
            std::max(least_tightening_m, tightening_share * std::abs(budget.limits[i].available_m));
        changed = true;
      }
    }
    for (std::size_t run = 0; run < task_.runs.size(); ++run) {
      changed = take_away(trial, dangers, run, allowed, choice) || changed;
    }
    return changed;
  }

  bool take_away(const Trial& trial,
                 const std::set<std::pair<Code, std::string>>& dangers,
                 std::size_t run,
                 AllowedSizes& allowed,
                 SizeChoice& choice) const {
    const bool is_weak = std::any_of(dangers.begin(), dangers.end(), [&](const auto& danger) {
      return danger.second == task_.farm.pipes[task_.runs[run]].name &&
             is_of_strength(danger.first) && !trials_.wanted().borne.contains(danger);
    });
    if (!is_weak || allowed[run].size() < 2) {
      return false;
    }
    const std::string& narrowest = trial.runs[run].parts.back().size.text;
    for (std::size_t i = 0; i < allowed[run].size(); ++i) {
      if (task_.list.sizes[allowed[run][i]].size.text != narrowest || allowed[run].size() < 2) {
        continue;
      }
      const auto at = static_cast<std::ptrdiff_t>(i);
      allowed[run].erase(allowed[run].begin() + at);
      choice.runs[run].options.erase(choice.runs[run].options.begin() + at);
      for (HeadLimit& limit : choice.limits) {
        for (HeadLimit::Spent& spent : limit.spent) {
          if (spent.run == run) {
            spent.loss_m.erase(spent.loss_m.begin() + at);
          }
        }
      }
      return true;
    }
    return false;
  }

  const SizingTask& task_;
  const WaterTree& tree_;
  const AllowedSizes& given_;
  Trials& trials_;
};

}  // namespace

SizeChoice choice_among(const SizingTask& task, const AllowedSizes& allowed) {
  SizeChoice choice;
  for (const PipeForSale& sale : task.list.sizes) {
    choice.stock_m.push_back(sale.stock_m);
  }
  for (std::size_t run = 0; run < task.runs.size(); ++run) {
    SizeRun made{run_length_m(task, run), {}};
    for (const std::size_t k : allowed[run]) {
      const auto& per_metre = task.list.sizes[k].per_metre;
      made.options.push_back(
          {k, per_metre ? std::optional(*per_metre * made.length_m) : std::nullopt});
    }
    choice.runs.push_back(std::move(made));
  }
  return choice;
}

TreeChoice choose_in_tree(const SizingTask& task,
                          const WaterTree& tree,
                          const AllowedSizes& allowed,
                          PartsOfRun parts,
                          Trials& trials) {
  return TreeChooser(task, tree, allowed, trials).choose(parts);
}

}  // namespace leat::solver
