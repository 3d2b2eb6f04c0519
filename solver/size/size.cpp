#include "solver/size/size.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "solver/findings/states.h"
#include "solver/flow/driest_month.h"
#include "solver/size/day_below.h"
#include "solver/size/head_budget.h"
#include "solver/size/pipe_for_sale.h"
#include "solver/size/search.h"
#include "solver/size/size_choice.h"
#include "solver/size/tree_choice.h"
#include "solver/size/trials.h"
#include "solver/steady/steady.h"

namespace leat::solver {

namespace {

/// The search stops after so many farms solved; on large farms after as much work.
constexpr int most_trials_at_all = 1500;
constexpr int most_pipes_solved = 6000;
constexpr int least_trials = 30;
/// How far what a reference choice brings may be missed.
constexpr double share_slack = 0.002;

class Sizing {
 public:
  Sizing(const model::Farm& farm, const SizeOptions& options) : farm_(farm), options_(options) {}

  SizePlan plan() {
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      if (farm_.pipes[i].size.choose) {
        runs_.push_back(i);
      }
    }
    if (depends_on_month(farm_)) {
      month_ = options_.month ? options_.month : driest_month(farm_);
    }
    refuse();
    if (!plan_.refusals.empty()) {
      return std::move(plan_);
    }
    if (runs_.empty()) {
      size_stores_only();
      return std::move(plan_);
    }
    list_ = pipe_list(farm_);
    Trials trials(farm_, list_, runs_, month_);
    trials_ = &trials;
    if (!take_stock()) {
      return std::move(plan_);
    }
    tree_ = water_tree(farm_, month_);
    if (!farm_.pumps.empty() || !farm_.rams.empty()) {
      tree_.known = FlowsKnown::None;  // what they lift hangs on the pipe chosen
    }
    choose();
    finish();
    return std::move(plan_);
  }

 private:
  void refuse() {
    if (runs_.empty() && !has_store_to_size()) {
      plan_.refusals.push_back(SizeRefusal::NothingToSize);
    }
    if (!runs_.empty() && !has_linear_programming()) {
      plan_.refusals.push_back(SizeRefusal::NoLinearProgramming);
    }
  }

  [[nodiscard]] bool has_store_to_size() const {
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      const model::Place& place = farm_.places[i];
      const model::Need* const need = model::need_of_stock(place);
      const bool is_rate = need != nullptr && std::holds_alternative<model::RateNeed>(*need);
      const bool is_store = model::is_trough(place) || model::is_tank(place);
      if (is_store && !is_rate && day_below_m3(farm_, i, month_) > 0.0) {
        return true;
      }
    }
    return false;
  }

  /// The farm as it is laid: only what its troughs and tanks must hold is asked.
  void size_stores_only() {
    SteadyOptions steady;
    steady.month = month_;
    plan_.method = SizeMethod::Exact;
    plan_.answer = solve_steady(farm_, steady);
    plan_.answer.month_chosen = !options_.month && month_;
    plan_.laid = farm_;
    if (plan_.answer.converged) {
      plan_.notes.emplace_back(PipesAsLaid{});
      plan_.stores = store_rules(plan_.laid, plan_.answer, month_, plan_.notes);
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
        if (!dangers.contains({Code::OverRating, farm_.pipes[runs_[run]].name})) {
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
        plan_.meets_needs = false;
        plan_.notes.emplace_back(PartlyReached{farm_.places[i].name, reached});
      }
    }
    for (std::size_t run = 0; run < runs_.size(); ++run) {
      if (allowed_[run].empty()) {
        plan_.notes.emplace_back(NoSizeStands{farm_.pipes[runs_[run]].name});
        for (std::size_t k = 0; k < list_.sizes.size(); ++k) {
          allowed_[run].push_back(k);
        }
      }
    }
    trials_->want(std::move(wanted));
  }

  void choose() {
    const SizingTask task{farm_, runs_, list_, month_};
    if (tree_.known == FlowsKnown::None || !plan_.meets_needs) {
      const SizeChoice choice = choice_among(task, allowed_);
      const ChosenSizes cheapest = choose_sizes(choice, PartsOfRun::TwoSizes);
      if (cheapest.ending == ProgramEnding::Solved) {
        bound_ = cheapest.cost;
      }
      search(choose_sizes(choice, PartsOfRun::OneSize), allowed_);
      return;
    }
    const PartsOfRun parts = options_.one_size ? PartsOfRun::OneSize : PartsOfRun::TwoSizes;
    TreeChoice made = choose_in_tree(task, tree_, allowed_, parts, *trials_);
    bound_ = made.bound;
    if (!made.sound) {
      search(choose_sizes(made.choice, PartsOfRun::OneSize), made.allowed);
      // Where trying finds nothing without its dangers, better what the straight lines say: it
      // meets the needs and is cheap.
      if (made.fed && !best_.is_sound()) {
        best_ = *std::move(made.fed);
      }
      return;
    }
    best_ = *std::move(made.sound);
    plan_.method = made.tightenings == 0 ? SizeMethod::Exact : SizeMethod::Improved;
    if (made.tightenings > 0) {
      plan_.notes.emplace_back(Tightened{made.tightenings});
    }
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
      plan_.notes.emplace_back(SearchEnded{});
    }
    if (!best_.is_sound()) {
      plan_.notes.emplace_back(NoneSound{});
    }
    if (plan_.meets_needs && bound_ && best_.is_sound() && best_.cost <= *bound_ * (1.0 + 1e-9)) {
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
    plan_.notes.emplace_back(FarmsSolved{trials_->count()});
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
      plan_.notes.emplace_back(ChosenByWeight{list_.kind});
    }
    plan_.answer = std::move(best_.answer);
    plan_.answer.month_chosen = !options_.month && month_;
    plan_.laid = std::move(best_.laid.farm);
    if (plan_.answer.converged) {
      plan_.stores = store_rules(plan_.laid, plan_.answer, month_, plan_.notes);
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
  WaterTree tree_;
  std::optional<double> bound_;
  Trial best_;
};

}  // namespace

SizePlan size_plan(const model::Farm& farm, const SizeOptions& options) {
  return Sizing(farm, options).plan();
}

}  // namespace leat::solver
