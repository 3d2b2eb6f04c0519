#include "solver/size/size_choice.h"

#include <algorithm>

namespace leat::solver {

namespace {

/// A share this small is the simplex method's rounding, not pipe.
constexpr double least_share = 1e-9;

/// Where the columns of a run's options stand in the program.
struct OptionColumns {
  std::vector<std::optional<std::size_t>> bought;  // share bought
  std::vector<std::optional<std::size_t>> store;   // share out of the store
};

class ProgramOfChoice {
 public:
  ProgramOfChoice(const SizeChoice& choice, PartsOfRun parts) : choice_(choice) {
    for (const SizeRun& run : choice.runs) {
      add_run(run, parts);
    }
    add_stock();
    for (const HeadLimit& limit : choice.limits) {
      add_limit(limit);
    }
  }

  ChosenSizes solve() const {
    const ProgramAnswer answer = solve_program(program_);
    ChosenSizes chosen;
    chosen.ending = answer.ending;
    chosen.cost = answer.cost;
    if (answer.ending != ProgramEnding::Solved) {
      return chosen;
    }
    for (std::size_t run = 0; run < columns_.size(); ++run) {
      std::vector<double> shares;
      double sum = 0.0;
      for (std::size_t i = 0; i < columns_[run].bought.size(); ++i) {
        double share = 0.0;
        for (const auto& column : {columns_[run].bought[i], columns_[run].store[i]}) {
          share += column ? answer.values[*column] : 0.0;
        }
        shares.push_back(share < least_share ? 0.0 : share);
        sum += shares.back();
      }
      for (double& share : shares) {
        share /= sum;
      }
      chosen.share.push_back(std::move(shares));
    }
    return chosen;
  }

 private:
  std::size_t add_column(double cost, bool is_choice) {
    program_.columns.push_back({cost, is_choice});
    return program_.columns.size() - 1;
  }

  [[nodiscard]] double in_store_m(std::size_t size) const {
    return size < choice_.stock_m.size() ? choice_.stock_m[size] : 0.0;
  }

  /// The shares of a run add up to 1; with one size a run, those of the size chosen.
  void add_run(const SizeRun& run, PartsOfRun parts) {
    OptionColumns made;
    LinearProgram::Row whole{{}, 1.0, true};
    for (const SizeOption& option : run.options) {
      const bool is_held = in_store_m(option.size) > 0.0;
      made.bought.push_back(option.cost ? std::optional(add_column(*option.cost, false))
                                        : std::nullopt);
      made.store.push_back(is_held ? std::optional(add_column(0.0, false)) : std::nullopt);
      LinearProgram::Row laid{{}, 0.0, true};
      for (const auto& column : {made.bought.back(), made.store.back()}) {
        if (column) {
          laid.terms.push_back({*column, 1.0});
        }
      }
      if (parts == PartsOfRun::TwoSizes) {
        whole.terms.insert(whole.terms.end(), laid.terms.begin(), laid.terms.end());
      } else if (!laid.terms.empty()) {
        const std::size_t is_chosen = add_column(0.0, true);
        laid.terms.push_back({is_chosen, -1.0});
        program_.rows.push_back(laid);
        whole.terms.push_back({is_chosen, 1.0});
      }
    }
    program_.rows.push_back(std::move(whole));
    columns_.push_back(std::move(made));
  }

  void add_stock() {
    for (std::size_t size = 0; size < choice_.stock_m.size(); ++size) {
      LinearProgram::Row row{{}, choice_.stock_m[size], false};
      for (std::size_t run = 0; run < columns_.size(); ++run) {
        for (std::size_t i = 0; i < columns_[run].store.size(); ++i) {
          if (columns_[run].store[i] && choice_.runs[run].options[i].size == size) {
            row.terms.push_back({*columns_[run].store[i], choice_.runs[run].length_m});
          }
        }
      }
      if (!row.terms.empty()) {
        program_.rows.push_back(std::move(row));
      }
    }
  }

  void add_limit(const HeadLimit& limit) {
    LinearProgram::Row row{{}, limit.available_m, false};
    for (const HeadLimit::Spent& spent : limit.spent) {
      const OptionColumns& columns = columns_[spent.run];
      for (std::size_t i = 0; i < columns.bought.size(); ++i) {
        for (const auto& column : {columns.bought[i], columns.store[i]}) {
          if (column && spent.loss_m[i] != 0.0) {
            row.terms.push_back({*column, spent.loss_m[i]});
          }
        }
      }
    }
    program_.rows.push_back(std::move(row));
  }

  const SizeChoice& choice_;
  LinearProgram program_;
  std::vector<OptionColumns> columns_;
};

}  // namespace

ChosenSizes choose_sizes(const SizeChoice& choice, PartsOfRun parts) {
  return ProgramOfChoice(choice, parts).solve();
}

}  // namespace leat::solver
