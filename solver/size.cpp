#include "solver/size.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "solver/driest_month.h"
#include "solver/judgements.h"
#include "solver/size/head_budget.h"
#include "solver/size/pipe_for_sale.h"
#include "solver/size/search.h"
#include "solver/size/size_choice.h"
#include "solver/size/trials.h"

namespace leat::solver {

namespace {

/// The search stops after so many farms solved; on large farms after as much work.
constexpr int most_trials_at_all = 1500;
constexpr int most_pipes_solved = 60000;
constexpr int least_trials = 60;
/// How often the straight-line choice is tightened where the real farm falls short of it.
constexpr int most_tightenings = 12;
constexpr double tightening_share = 0.01;
constexpr double least_tightening_m = 0.01;
/// A part shorter than this is laid in the run's widest size.
constexpr double shortest_part_m = 0.3;
/// How far what a reference choice brings may be missed.
constexpr double share_slack = 0.002;

model::Diagnostic problem_at(const model::Farm& farm,
                             std::string code,
                             model::SourcePosition position,
                             std::string text,
                             std::string hint) {
  model::Diagnostic problem;
  problem.code = std::move(code);
  problem.file = farm.file;
  problem.position = position;
  problem.text = std::move(text);
  problem.hint = std::move(hint);
  return problem;
}

/// Dangers that another size of the run itself takes away.
bool is_of_strength(const std::string& code) {
  return code == "over-rating" || code == "surge" || code == "collapse";
}

class Sizing {
 public:
  Sizing(const model::Farm& farm, const SizeOptions& options) : farm_(farm), options_(options) {}

  SizePlan plan() {
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      if (farm_.pipes[i].size.choose) {
        runs_.push_back(i);
      }
    }
    refuse();
    if (!plan_.problems.empty()) {
      return std::move(plan_);
    }
    if (depends_on_month(farm_)) {
      month_ = options_.month ? options_.month : driest_month(farm_);
    }
    list_ = pipe_list(farm_);
    Trials trials(farm_, list_, runs_, month_, options_.units);
    trials_ = &trials;
    if (!take_stock()) {
      return std::move(plan_);
    }
    tree_ = water_tree(farm_, month_);
    choose();
    finish();
    return std::move(plan_);
  }

 private:
  void refuse() {
    for (const model::UnsolvedKey& key : farm_.unsolved) {
      if (!is_size_choice(key)) {
        plan_.problems.push_back(problem_at(
            farm_,
            "not-solved-yet",
            key.position,
            fmt::format("{} belongs to a capability this version does not have", key.what),
            "take it out of a copy of the file to size the rest"));
      }
    }
    if (runs_.empty()) {
      plan_.problems.push_back(problem_at(farm_,
                                          "nothing-to-size",
                                          {},
                                          "no pipe of the farm is marked 'size: choose'",
                                          "write 'size: choose' on the pipes to be sized"));
    }
    if (!has_linear_programming()) {
      plan_.problems.push_back(problem_at(farm_,
                                          "no-glpk",
                                          {},
                                          "this leat was built without GLPK, which sizing needs",
                                          "install libglpk-dev and build leat again"));
    }
  }

  /// Every size of the list in all runs at once: what can be had, what cannot be helped, and which
  /// size no run may have.
  bool take_stock() {
    Wanted wanted;
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      wanted.flow_m3_s.push_back(wanted_at(farm_, i, month_).value_or(0.0));
      wanted.met.push_back(0.0);
    }
    trials_->want(wanted);
    allowed_.resize(runs_.size());
    double most = -1.0;
    bool first = true;
    for (std::size_t k = 0; k < list_.sizes.size(); ++k) {
      Trial trial =
          trials_->tried(trials_->one_size_each(std::vector<std::size_t>(runs_.size(), k)));
      if (!trial.answer.converged) {
        if (plan_.problems.empty()) {
          unsolved_ = trial.answer.problems;
        }
        continue;
      }
      const auto dangers = dangers_of(trial, farm_);
      for (std::size_t run = 0; run < runs_.size(); ++run) {
        if (!dangers.contains({"over-rating", farm_.pipes[runs_[run]].name})) {
          allowed_[run].push_back(k);
        }
      }
      if (first) {
        wanted.borne = dangers;
        first = false;
      } else {
        std::erase_if(wanted.borne, [&](const auto& danger) { return !dangers.contains(danger); });
      }
      const std::vector<double> shares =
          shares_met(trial.laid.farm, trial.answer, wanted.flow_m3_s);
      double sum = 0.0;
      for (const double share : shares) {
        sum += share;
      }
      if (sum >= most - 1e-9) {
        most = sum;
        reference_ = k;
        reference_shares_ = shares;
      }
    }
    if (first) {
      plan_.problems = unsolved_;
      return false;
    }
    set_goal(std::move(wanted));
    return true;
  }

  void set_goal(Wanted wanted) {
    for (std::size_t i = 0; i < wanted.met.size(); ++i) {
      const double reached = reference_shares_[i];
      wanted.met[i] = wanted.flow_m3_s[i] > 0.0 ? std::min(met_limit, reached - share_slack) : 0.0;
      if (reached < met_limit) {
        can_meet_all_ = false;
        plan_.notes.push_back(
            fmt::format("no size of the list brings {} more than {:.0f} % of what is wanted there: "
                        "the sizes are chosen to lose nothing of that",
                        farm_.places[i].name,
                        100.0 * reached));
      }
    }
    for (std::size_t run = 0; run < runs_.size(); ++run) {
      if (allowed_[run].empty()) {
        plan_.notes.push_back(
            fmt::format("no size of the list stands the pressure in {}", name_of(run)));
        for (std::size_t k = 0; k < list_.sizes.size(); ++k) {
          allowed_[run].push_back(k);
        }
      }
    }
    trials_->want(std::move(wanted));
  }

  [[nodiscard]] const std::string& name_of(std::size_t run) const {
    return farm_.pipes[runs_[run]].name;
  }
  [[nodiscard]] double length_m(std::size_t run) const {
    return in_metres(farm_.pipes[runs_[run]].length);
  }

  /// The sizes a run may have at the tree's flow; the widest where all are too fast.
  [[nodiscard]] AllowedSizes not_too_fast() const {
    AllowedSizes slow = allowed_;
    for (std::size_t run = 0; run < runs_.size(); ++run) {
      const double flow_m3_s = tree_.flow_m3_s[runs_[run]];
      const std::size_t widest = allowed_[run].back();
      std::erase_if(slow[run], [&](std::size_t k) {
        return flow_m3_s >
               fast_velocity_m_s * in_square_metres(bore_area(list_.sizes[k].size.bore));
      });
      if (slow[run].empty()) {
        slow[run].push_back(widest);
      }
    }
    return slow;
  }

  [[nodiscard]] SizeChoice choice_among(const AllowedSizes& allowed) const {
    SizeChoice choice;
    for (const PipeForSale& sale : list_.sizes) {
      choice.stock_m.push_back(sale.stock_m);
    }
    for (std::size_t run = 0; run < runs_.size(); ++run) {
      SizeRun made{length_m(run), {}};
      for (const std::size_t k : allowed[run]) {
        const auto& per_metre = list_.sizes[k].per_metre;
        made.options.push_back(
            {k, per_metre ? std::optional(*per_metre * made.length_m) : std::nullopt});
      }
      choice.runs.push_back(std::move(made));
    }
    return choice;
  }

  [[nodiscard]] HeadBudget budget_among(const AllowedSizes& allowed) const {
    const Surroundings surroundings = surroundings_of(farm_, month_);
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
      const LaidFarm laid = laid_farm(farm_, trials_->one_size_each(sizes), month_);
      spending.push_back(spending_of(laid.farm, tree_, surroundings, month_));
    }
    return head_budget(farm_, tree_, spending, runs_, options, surroundings, month_);
  }

  /// Shares of sizes as pipe to be laid, the widest first; a scrap goes to the widest.
  [[nodiscard]] std::vector<LaidRun> laid_as(const ChosenSizes& chosen,
                                             const AllowedSizes& allowed) const {
    std::vector<LaidRun> laid;
    for (std::size_t run = 0; run < runs_.size(); ++run) {
      LaidRun made{runs_[run], {}};
      double left_m = 0.0;
      for (std::size_t i = allowed[run].size(); i-- > 0;) {
        const double part_m = chosen.share[run][i] * length_m(run);
        const bool is_whole = chosen.share[run][i] > 1.0 - 1e-12;
        if (part_m >= shortest_part_m || is_whole) {
          made.parts.push_back({list_.sizes[allowed[run][i]].size, part_m});
        } else {
          left_m += part_m;
        }
      }
      if (made.parts.empty()) {  // a run shorter than two scraps
        made.parts.push_back({list_.sizes[allowed[run].back()].size, 0.0});
      }
      made.parts.front().length_m += left_m;
      laid.push_back(std::move(made));
    }
    return laid;
  }

  void choose() {
    SizeChoice choice;
    AllowedSizes allowed = allowed_;
    if (tree_.known != FlowsKnown::None && can_meet_all_) {
      allowed = not_too_fast();
      choice = choice_among(allowed);
      if (choose_in_tree(allowed, choice)) {
        return;
      }
    } else {
      choice = choice_among(allowed);
      set_bound(choose_sizes(choice, PartsOfRun::TwoSizes));
    }
    search(choose_sizes(choice, PartsOfRun::OneSize), allowed);
  }

  void set_bound(const ChosenSizes& chosen) {
    if (chosen.ending == ProgramEnding::Solved && !bound_) {
      bound_ = chosen.cost;
    }
  }

  /// The straight-line choice, tightened where the real farm falls short. False where it does not
  /// come out.
  bool choose_in_tree(AllowedSizes& allowed, SizeChoice& choice) {
    const PartsOfRun parts = options_.one_size ? PartsOfRun::OneSize : PartsOfRun::TwoSizes;
    HeadBudget budget = budget_among(allowed);
    choice.limits = budget.limits;
    for (int round = 0; round < most_tightenings; ++round) {
      const ChosenSizes chosen = choose_sizes(choice, parts);
      if (chosen.ending != ProgramEnding::Solved) {
        return false;
      }
      set_bound(chosen);
      Trial trial = trials_->tried(laid_as(chosen, allowed));
      if (trial.is_sound()) {
        plan_.method = round == 0 ? SizeMethod::Exact : SizeMethod::Improved;
        if (round > 0) {
          plan_.notes.push_back(fmt::format(
              "solved as a farm, the cheapest choice by the sum of losses fell short: it was "
              "tightened {} time{}",
              round,
              round == 1 ? "" : "s"));
        }
        best_ = std::move(trial);
        return true;
      }
      if (!tighten(trial, budget, allowed, choice)) {
        return false;
      }
    }
    return false;
  }

  /// Asks for more head where the trial was short, and takes sizes away that do not stand it.
  bool tighten(const Trial& trial,
               HeadBudget& budget,
               AllowedSizes& allowed,
               SizeChoice& choice) const {
    bool changed = false;
    const std::vector<double> shares =
        shares_met(trial.laid.farm, trial.answer, trials_->wanted().flow_m3_s);
    const auto dangers = dangers_of(trial, farm_);
    for (std::size_t i = 0; i < budget.limits.size(); ++i) {
      const std::size_t pipe = budget.origins[i].pipe;
      const std::size_t place = farm_.pipes[pipe].to;
      const bool is_short =
          !budget.origins[i].is_summit && shares[place] < trials_->wanted().met[place];
      const bool is_near = budget.origins[i].is_summit &&
                           std::any_of(dangers.begin(), dangers.end(), [&](const auto& danger) {
                             return danger.second == farm_.pipes[pipe].name &&
                                    !is_of_strength(danger.first) &&
                                    !trials_->wanted().borne.contains(danger);
                           });
      if (is_short || is_near) {
        choice.limits[i].available_m -=
            std::max(least_tightening_m, tightening_share * std::abs(budget.limits[i].available_m));
        changed = true;
      }
    }
    for (std::size_t run = 0; run < runs_.size(); ++run) {
      changed = take_away(trial, dangers, run, allowed, choice) || changed;
    }
    return changed;
  }

  bool take_away(const Trial& trial,
                 const std::set<std::pair<std::string, std::string>>& dangers,
                 std::size_t run,
                 AllowedSizes& allowed,
                 SizeChoice& choice) const {
    const bool is_weak = std::any_of(dangers.begin(), dangers.end(), [&](const auto& danger) {
      return danger.second == name_of(run) && is_of_strength(danger.first) &&
             !trials_->wanted().borne.contains(danger);
    });
    if (!is_weak || allowed[run].size() < 2) {
      return false;
    }
    const std::string& narrowest = trial.runs[run].parts.back().size.text;
    for (std::size_t i = 0; i < allowed[run].size(); ++i) {
      if (list_.sizes[allowed[run][i]].size.text != narrowest || allowed[run].size() < 2) {
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

  /// By trying, from the choice of straight lines and from the reference.
  void search(const ChosenSizes& start, const AllowedSizes& start_allowed) {
    plan_.method = SizeMethod::Improved;
    const int most = std::clamp(most_pipes_solved / static_cast<int>(farm_.pipes.size() + 1),
                                least_trials,
                                most_trials_at_all);
    best_ = searched(*trials_, allowed_, nearest_allowed(reference_), most / 2);
    if (start.ending == ProgramEnding::Solved) {
      std::vector<std::size_t> sizes;
      for (std::size_t run = 0; run < runs_.size(); ++run) {
        const auto& shares = start.share[run];
        const auto widest = std::max_element(shares.begin(), shares.end()) - shares.begin();
        sizes.push_back(start_allowed[run][static_cast<std::size_t>(widest)]);
      }
      Trial other = searched(*trials_, allowed_, std::move(sizes), (most * 3) / 4);
      if (other.is_sound() && (!best_.is_sound() || other.cost < best_.cost)) {
        best_ = std::move(other);
      }
    }
    if (!options_.one_size && best_.is_sound()) {
      best_ = in_two_sizes(*trials_, list_, allowed_, std::move(best_), most);
    }
    if (trials_->count() >= most) {
      plan_.notes.push_back("the search was ended at its limit: a cheaper choice may be left");
    }
    if (!best_.is_sound()) {
      plan_.notes.push_back(
          "no choice tried does all that is asked: the flags say what is amiss with this one");
    }
    if (bound_ && best_.is_sound() && best_.cost <= *bound_ * (1.0 + 1e-9)) {
      plan_.method = SizeMethod::Exact;  // nothing can be cheaper than the bound
    }
  }

  [[nodiscard]] std::vector<std::size_t> nearest_allowed(std::size_t size) const {
    std::vector<std::size_t> sizes;
    for (const auto& allowed : allowed_) {
      const auto above = std::lower_bound(allowed.begin(), allowed.end(), size);
      sizes.push_back(above == allowed.end() ? allowed.back() : *above);
    }
    return sizes;
  }

  void finish() {
    plan_.notes.push_back(fmt::format("{} farms were solved on the way", trials_->count()));
    std::vector<double> left_m;
    for (const PipeForSale& sale : list_.sizes) {
      left_m.push_back(sale.stock_m);
    }
    for (const LaidRun& run : best_.runs) {
      SizedRun sized{run.pipe, {}};
      for (const LaidPart& part : run.parts) {
        sized.parts.push_back({part.size, part.length_m, bought(part, left_m)});
      }
      plan_.runs.push_back(std::move(sized));
    }
    if (list_.has_prices) {
      plan_.cost = best_.cost;
      plan_.bound =
          bound_ && best_.is_sound() ? std::optional(std::min(*bound_, best_.cost)) : bound_;
    } else {
      plan_.notes.push_back(
          fmt::format("the file gives no prices of pipe: the sizes of {} that weigh least are "
                      "chosen, since plastic pipe is sold by its weight",
                      list_.kind));
    }
    plan_.answer = std::move(best_.answer);
    plan_.answer.month_chosen = !options_.month && month_;
    plan_.laid = std::move(best_.laid.farm);
    if (plan_.answer.converged) {
      plan_.stores = store_rules(plan_.laid, plan_.answer, month_);
    }
  }

  /// What of a part must be bought, the stock going to the first runs.
  [[nodiscard]] std::optional<double> bought(const LaidPart& part,
                                             std::vector<double>& left_m) const {
    for (std::size_t k = 0; k < list_.sizes.size(); ++k) {
      if (list_.sizes[k].size.text != part.size.text) {
        continue;
      }
      const double out_of_store_m = std::min(left_m[k], part.length_m);
      left_m[k] -= out_of_store_m;
      const double bought_m = part.length_m - out_of_store_m;
      return list_.has_prices
                 ? std::optional(bought_m > 1e-6 ? bought_m * list_.sizes[k].per_metre.value_or(0.0)
                                                 : 0.0)
                 : std::nullopt;
    }
    return std::nullopt;
  }

  const model::Farm& farm_;
  const SizeOptions& options_;
  SizePlan plan_;
  std::vector<std::size_t> runs_;  // indexes of the pipes to be sized
  std::optional<model::Month> month_;
  PipeList list_;
  Trials* trials_ = nullptr;
  AllowedSizes allowed_;
  std::size_t reference_ = 0;  // the size that, in all runs, brings most
  std::vector<double> reference_shares_;
  std::vector<model::Diagnostic> unsolved_;
  bool can_meet_all_ = true;
  WaterTree tree_;
  std::optional<double> bound_;
  Trial best_;
};

}  // namespace

std::vector<LaidRun> SizePlan::laid_runs() const {
  std::vector<LaidRun> lain;
  for (const SizedRun& run : runs) {
    LaidRun made{run.pipe, {}};
    for (const SizedPart& part : run.parts) {
      made.parts.push_back({part.size, part.length_m});
    }
    lain.push_back(std::move(made));
  }
  return lain;
}

SizePlan size_plan(const model::Farm& farm, const SizeOptions& options) {
  return Sizing(farm, options).plan();
}

const char* word_of(SizeMethod method) {
  return method == SizeMethod::Exact ? "exact" : "improved";
}

}  // namespace leat::solver
