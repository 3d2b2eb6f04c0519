#include "solver/uncertainty/spread.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>

#include "solver/steady/steady.h"
#include "solver/uncertainty/on_all_cores.h"
#include "solver/uncertainty/sample_solver.h"
#include "solver/uncertainty/sampled_farm.h"
#include "solver/uncertainty/spread_figures.h"

namespace leat::solver {

namespace {

constexpr std::size_t draws_a_turn = 16;

/// What all draws came to, a row a draw.
struct Draws {
  std::vector<DrawnAnswer> answers;
  std::vector<std::size_t> solved;  // the draws that have an answer
};

/// Threads take turns at the draws; each draw writes its own row, so the order does not matter.
Draws all_draws(const SpreadBase& base, const SpreadOptions& options) {
  Draws draws;
  draws.answers.resize(static_cast<std::size_t>(options.draws));
  run_draws(draws.answers.size(), draws_a_turn, options.threads, [&](bool /*calls*/) {
    return [&, solver = std::make_shared<DrawSolver>(base)](std::size_t draw) {
      draws.answers[draw] = solver->solve(draw);
    };
  });
  for (std::size_t draw = 0; draw < draws.answers.size(); ++draw) {
    if (draws.answers[draw].way != DrawnAnswer::Way::Unsolved) {
      draws.solved.push_back(draw);
    }
  }
  return draws;
}

std::optional<double> met_of(const DrawnAnswer& answer, std::size_t place) {
  const std::optional<double>& need = answer.need_m3_s[place];
  if (!need) {
    return std::nullopt;
  }
  return *need > 0.0 ? std::min(1.0, answer.delivered_m3_s[place] / *need) : 1.0;
}

std::vector<double> delivered_in(const Draws& draws, std::size_t place) {
  std::vector<double> values;
  for (const std::size_t draw : draws.solved) {
    values.push_back(draws.answers[draw].delivered_m3_s[place]);
  }
  return values;
}

PlaceSpread place_spread(const Draws& draws, std::size_t place) {
  PlaceSpread spread;
  std::vector<double> values = delivered_in(draws, place);
  if (values.empty()) {
    return spread;
  }
  spread.low_m3_s = percentile(values, low_share);
  spread.likely_m3_s = percentile(values, 0.5);
  spread.high_m3_s = percentile(values, high_share);
  std::size_t with_need = 0;
  std::size_t fall_short = 0;
  for (const std::size_t draw : draws.solved) {
    if (const std::optional<double> met = met_of(draws.answers[draw], place)) {
      ++with_need;
      fall_short += *met < met_limit ? 1U : 0U;
    }
  }
  if (with_need > 0) {
    spread.chance_short = static_cast<double>(fall_short) / static_cast<double>(with_need);
  }
  return spread;
}

std::vector<SummitSpread> summit_spreads(const SpreadBase& base, const Draws& draws) {
  std::vector<SummitSpread> spreads;
  if (draws.solved.empty()) {
    return spreads;
  }
  for (std::size_t vertex = 0; vertex < base.vertices.size(); ++vertex) {
    const auto parted =
        std::count_if(draws.solved.begin(), draws.solved.end(), [&](std::size_t draw) {
          return draws.answers[draw].parts[vertex];
        });
    if (parted > 0 || base.vertices[vertex].is_summit) {
      spreads.push_back({base.vertices[vertex].pipe,
                         base.vertices[vertex].at_m,
                         static_cast<double>(parted) / static_cast<double>(draws.solved.size())});
    }
  }
  return spreads;
}

/// One answer whose spread is to be explained, by draw solved, with its share in the whole.
struct Explained {
  std::vector<double> values;
  double weight = 0.0;
};

/// What is explained: how far needs are met, where that varies at all; else the flows to whoever
/// gets water but troughs that take what they need, each against its own mean.
std::vector<Explained> explained_answers(const model::Farm& farm, const Draws& draws) {
  std::vector<Explained> answers;
  double sum = 0.0;
  const auto take = [&](std::vector<double> values, double scale) {
    const double variance = moments_of(values).variance / (scale * scale);
    if (variance > least_variance) {
      sum += variance;
      answers.push_back({std::move(values), variance});
    }
  };
  for (std::size_t place = 0; place < farm.places.size(); ++place) {
    std::vector<double> met;
    for (const std::size_t draw : draws.solved) {
      if (const std::optional<double> share = met_of(draws.answers[draw], place)) {
        met.push_back(*share);
      }
    }
    if (met.size() == draws.solved.size()) {
      take(std::move(met), 1.0);
    }
  }
  if (answers.empty() && !draws.solved.empty()) {
    for (std::size_t place = 0; place < farm.places.size(); ++place) {
      const bool takes_its_need =
          draws.answers[draws.solved.front()].need_m3_s[place].has_value() &&
          model::is_trough(farm.places[place]);
      if (takes_its_need) {
        continue;  // it takes what stock drink, and that tells nothing of the water
      }
      std::vector<double> flows = delivered_in(draws, place);
      const double mean = moments_of(flows).mean;
      if (mean > still_flow_m3_s) {
        take(std::move(flows), mean);
      }
    }
  }
  for (Explained& answer : answers) {
    answer.weight /= sum;
  }
  return answers;
}

std::vector<Cause> causes_of(const SpreadBase& base, const Draws& draws) {
  const std::vector<Explained> answers = explained_answers(*base.farm, draws);
  std::vector<Cause> causes;
  std::vector<double> deviates(draws.solved.size());
  for (std::size_t i = 0; i < base.inputs.size() && !answers.empty(); ++i) {
    for (std::size_t k = 0; k < draws.solved.size(); ++k) {
      deviates[k] = normal_deviate(base.seed, draws.solved[k], i);
    }
    double share = 0.0;
    for (const Explained& answer : answers) {
      share += answer.weight * explained_share(answer.values, deviates);
    }
    // The points of one path were one afternoon's work, and are one cause.
    if (!causes.empty() && causes.back().input == base.inputs[i].name) {
      causes.back().share += share;
    } else {
      causes.push_back({base.inputs[i].name, base.inputs[i].input.kind, share});
    }
  }
  // Few draws bond inputs by chance; together they cannot explain more than all.
  double sum = 0.0;
  for (const Cause& cause : causes) {
    sum += cause.share;
  }
  for (Cause& cause : causes) {
    cause.share /= std::max(1.0, sum);
  }
  std::erase_if(causes, [](const Cause& cause) { return cause.share < least_told_share; });
  std::stable_sort(causes.begin(), causes.end(), [](const Cause& a, const Cause& b) {
    return a.share > b.share;
  });
  return causes;
}

}  // namespace

Spread spread_of(const model::Farm& farm, const SpreadOptions& options) {
  SteadyState steady = solve_steady_state(farm, options.steady);
  Spread spread;
  spread.answer = std::move(steady.answer);
  spread.seed = options.seed;
  if (!spread.answer.converged || !steady.flow.network) {
    return spread;
  }
  const SpreadBase base = spread_base(farm, steady.flow.options, options.seed);
  const Draws draws = all_draws(base, options);
  spread.draws = options.draws;
  for (const DrawnAnswer& answer : draws.answers) {
    spread.unsolved += answer.way == DrawnAnswer::Way::Unsolved ? 1 : 0;
    spread.solved_slowly += answer.way == DrawnAnswer::Way::Slow ? 1 : 0;
  }
  for (std::size_t place = 0; place < farm.places.size(); ++place) {
    spread.places.push_back(place_spread(draws, place));
  }
  spread.summits = summit_spreads(base, draws);
  spread.causes = causes_of(base, draws);
  return spread;
}

}  // namespace leat::solver
