#include "solver/size/search.h"

#include <algorithm>
#include <tuple>
#include <utility>

namespace leat::solver {

namespace {

/// Savings below this are rounding.
constexpr double least_saving = 1e-9;
/// A run's two parts are told apart to this share of it.
constexpr double finest_share = 0.02;
/// A shorter end is not worth the joint.
constexpr double least_end_share = 0.1;

using Sizes = std::vector<std::size_t>;  // by run: index into the list

/// Better in what is wanted; of equals the cheaper.
bool is_better(const Trial& trial, const Trial& other) {
  const auto rank = [](const Trial& of) {
    return std::tuple(!of.can_be_had, !of.answer.converged, of.dangers, of.shortfall, of.fast_runs);
  };
  return rank(trial) != rank(other) ? rank(trial) < rank(other)
                                    : trial.cost < other.cost - least_saving;
}

class Search {
 public:
  Search(Trials& trials, const AllowedSizes& allowed, Sizes start, int most_trials)
      : trials_(trials), allowed_(allowed), sizes_(std::move(start)), most_trials_(most_trials) {
    best_ = trials_.tried(trials_.one_size_each(sizes_));
  }

  Trial run() {
    while (!best_.is_sound() && step_wider()) {
    }
    while (has_time() && (step_narrower() || exchange())) {
    }
    return std::move(best_);
  }

 private:
  [[nodiscard]] bool has_time() const { return trials_.count() < most_trials_; }

  /// The best of all single changes, whatever it costs.
  bool step_wider() {
    Trial found = best_;
    Sizes found_sizes = sizes_;
    for (std::size_t run = 0; run < sizes_.size() && has_time(); ++run) {
      for (const std::size_t size : allowed_[run]) {
        Sizes sizes = sizes_;
        sizes[run] = size;
        if (size == sizes_[run] || !has_time()) {
          continue;
        }
        Trial trial = trials_.tried(trials_.one_size_each(sizes));
        if (is_better(trial, found)) {
          found = std::move(trial);
          found_sizes = std::move(sizes);
        }
      }
    }
    return accept(std::move(found), std::move(found_sizes));
  }

  bool accept(Trial found, Sizes sizes) {
    if (sizes == sizes_) {
      return false;
    }
    best_ = std::move(found);
    sizes_ = std::move(sizes);
    return true;
  }

  /// Tries the cheaper choices of a list, the cheapest first; the first sound one is taken.
  bool take_first_sound(std::vector<std::pair<double, Sizes>> choices) {
    std::sort(choices.begin(), choices.end());
    for (auto& [cost, sizes] : choices) {
      if (!has_time()) {
        return false;
      }
      Trial trial = trials_.tried(trials_.one_size_each(sizes));
      if (is_better(trial, best_)) {
        return accept(std::move(trial), std::move(sizes));
      }
    }
    return false;
  }

  void add_if_cheaper(Sizes sizes, std::vector<std::pair<double, Sizes>>& choices) const {
    const auto cost = trials_.cost_of(trials_.one_size_each(sizes));
    if (cost && *cost < best_.cost - least_saving) {
      choices.emplace_back(*cost, std::move(sizes));
    }
  }

  bool step_narrower() {
    std::vector<std::pair<double, Sizes>> choices;
    for (std::size_t run = 0; run < sizes_.size(); ++run) {
      for (const std::size_t size : allowed_[run]) {
        Sizes sizes = sizes_;
        sizes[run] = size;
        add_if_cheaper(std::move(sizes), choices);
      }
    }
    return take_first_sound(std::move(choices));
  }

  /// Two runs changed at once, where that is cheaper.
  bool exchange() {
    std::vector<std::pair<double, Sizes>> choices;
    for (std::size_t one = 0; one < sizes_.size(); ++one) {
      for (std::size_t other = one + 1; other < sizes_.size(); ++other) {
        for (const std::size_t size : allowed_[one]) {
          for (const std::size_t beside : allowed_[other]) {
            Sizes sizes = sizes_;
            sizes[one] = size;
            sizes[other] = beside;
            if (size != sizes_[one] && beside != sizes_[other]) {
              add_if_cheaper(std::move(sizes), choices);
            }
          }
        }
      }
    }
    return take_first_sound(std::move(choices));
  }

  Trials& trials_;
  const AllowedSizes& allowed_;
  Sizes sizes_;
  int most_trials_;
  Trial best_;
};

/// The run with its end laid in another size.
LaidRun with_narrow_end(const LaidRun& run, const model::PipeSize& narrow, double share) {
  LaidRun made = run;
  const double length_m = run.parts.front().length_m;
  made.parts.front().length_m = length_m * (1.0 - share);
  made.parts.push_back({narrow, length_m * share});
  return made;
}

}  // namespace

Trial searched(Trials& trials, const AllowedSizes& allowed, Sizes start, int most_trials) {
  return Search(trials, allowed, std::move(start), most_trials).run();
}

Trial in_two_sizes(Trials& trials,
                   const PipeList& list,
                   const AllowedSizes& allowed,
                   Trial best,
                   int most_trials) {
  for (std::size_t run = 0; run < best.runs.size(); ++run) {
    const LaidPart whole = best.runs[run].parts.front();
    for (auto size = allowed[run].rbegin(); size != allowed[run].rend(); ++size) {
      const model::PipeSize& narrow = list.sizes[*size].size;
      if (!(narrow.bore < whole.size.bore)) {
        continue;
      }
      const std::vector<LaidRun> before = best.runs;
      double fits = 0.0;
      double too_much = 1.0;
      while (too_much - fits > finest_share && trials.count() < most_trials) {
        const double share = 0.5 * (fits + too_much);
        std::vector<LaidRun> runs = before;
        runs[run] = with_narrow_end({best.runs[run].pipe, {whole}}, narrow, share);
        Trial trial = trials.tried(std::move(runs));
        const bool is_good =
            share >= least_end_share && trial.is_sound() && trial.cost < best.cost - least_saving;
        (is_good ? fits : too_much) = share;
        if (is_good) {
          best = std::move(trial);
        }
      }
      if (fits > 0.0) {
        break;
      }
    }
  }
  return best;
}

}  // namespace leat::solver
