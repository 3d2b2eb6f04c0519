#include "solver/uncertainty/season_spread.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <limits>
#include <utility>

#include "solver/flow/place_answers.h"
#include "solver/network/pipe_geometry.h"
#include "solver/uncertainty/on_all_cores.h"
#include "solver/uncertainty/sampled_farm.h"
#include "solver/uncertainty/spread_figures.h"

namespace leat::solver {

namespace {

/// What never happens in a draw happens after all days.
constexpr int never = std::numeric_limits<int>::max();

struct DrawnTrough {
  double got_m3 = 0.0;
  double need_m3 = 0.0;
  double met_m3 = 0.0;  // of the need: what one month has to spare makes up for no other
  double dry_h = 0.0;
  int first_short = never;  // day number

  [[nodiscard]] double met() const { return need_m3 > 0.0 ? std::min(1.0, met_m3 / need_m3) : 1.0; }
};

struct DrawnStore {
  double lowest_m = 0.0;
  bool ran_empty = false;
  int filled = never;  // day number
};

/// What is kept of one season.
struct DrawnSeason {
  bool solved = false;
  std::vector<DrawnTrough> troughs;
  std::vector<DrawnStore> tanks;
  std::vector<DrawnStore> ponds;
  std::vector<bool> parts;   // by vertex
  std::vector<bool> breaks;  // by pipe
};

/// An inner point of a path, where water may part.
struct Vertex {
  std::size_t pipe = 0;
  double at_m = 0.0;
  bool is_summit = false;  // of the farm as written
};

std::vector<Vertex> vertices_of(const model::Farm& farm, model::Month month) {
  std::vector<Vertex> vertices;
  for (std::size_t pipe = 0; pipe < farm.pipes.size(); ++pipe) {
    const PipeCourse course = course_of(farm, farm.pipes[pipe], month);
    const std::vector<std::size_t> summits = course.summits();
    for (std::size_t point = 1; point + 1 < course.points.size(); ++point) {
      const bool is_summit = std::find(summits.begin(), summits.end(), point) != summits.end();
      vertices.push_back({pipe, course.points[point].at_m, is_summit});
    }
  }
  return vertices;
}

class SeasonDraws {
 public:
  SeasonDraws(const model::Farm& farm,
              const SeasonSpreadOptions& options,
              std::span<const UncertainInput> inputs,
              const Progress& progress)
      : farm_(farm), options_(options), inputs_(inputs), progress_(progress) {}

  SeasonSpread study() {
    SeasonSpread spread;
    spread.seed = options_.seed;
    spread.answer =
        run_season(farm_, options_.season, [this](double share) { return tell(share); });
    if (!spread.answer.converged) {
      return spread;
    }
    season_ = options_.season;
    season_.from = spread.answer.from;
    season_.to = spread.answer.to;
    season_.until_dry.reset();
    vertices_ = vertices_of(farm_, model::month_of(spread.answer.from));
    run_all();
    if (stopped_) {
      const SeasonAnswer asked = std::move(spread.answer);
      spread.answer = {};
      spread.answer.from = asked.from;
      spread.answer.to = asked.to;
      spread.answer.step_s = asked.step_s;
      spread.answer.problems.emplace_back(SeasonStopped{.in_draws = true});
      return spread;
    }
    spread.draws = options_.draws;
    spread.unsolved = options_.draws - static_cast<int>(solved_.size());
    sum_up(spread);
    return spread;
  }

 private:
  /// The share of all seasons, the one of the farm as written among them, that is done.
  [[nodiscard]] bool tell(double seasons_done) const {
    return !progress_ || progress_(seasons_done / (options_.draws + 1.0));
  }

  void run_all() {
    drawn_.resize(static_cast<std::size_t>(options_.draws));
    std::atomic<int> done{1};
    std::atomic<bool> stopped{false};
    run_draws(drawn_.size(), 1, options_.threads, [&](bool calls) {
      return [&, calls, farm = farm_](std::size_t draw) mutable {
        if (stopped) {
          return;
        }
        draw_into(farm, farm_, inputs_, options_.seed, draw);
        const SeasonAnswer answer = run_season(farm, season_, [&](double share) {
          if (calls && !tell(done + share)) {
            stopped = true;
          }
          return !stopped;
        });
        drawn_[draw] = kept_of(answer, farm);
        ++done;
      };
    });
    stopped_ = stopped;
    for (std::size_t draw = 0; draw < drawn_.size(); ++draw) {
      if (drawn_[draw].solved) {
        solved_.push_back(draw);
      }
    }
  }

  /// How far a store stands higher in the draw than as written, its wall with it.
  [[nodiscard]] double raised_m(const model::Farm& drawn, std::size_t place) const {
    const model::Month month = model::month_of(season_.from);
    return elevation_of(drawn.places[place], month) - elevation_of(farm_.places[place], month);
  }

  [[nodiscard]] DrawnSeason kept_of(const SeasonAnswer& answer, const model::Farm& drawn) const {
    DrawnSeason kept;
    kept.solved = answer.converged;
    if (!kept.solved) {
      return kept;
    }
    for (const TroughSeason& trough : answer.troughs) {
      DrawnTrough sum;
      for (const MonthAtTrough& month : trough.months) {
        sum.got_m3 += month.got_m3;
        sum.need_m3 += month.need_m3;
        sum.met_m3 += month.met.value_or(0.0) * month.need_m3;
        sum.dry_h += month.dry_h;
      }
      if (trough.first_dry) {
        sum.first_short = model::day_number(*trough.first_dry);
      }
      kept.troughs.push_back(sum);
    }
    for (const TankSeason& tank : answer.tanks) {
      kept.tanks.push_back({tank.lowest_m - raised_m(drawn, tank.place), tank.ran_empty, never});
    }
    for (const PondSeason& pond : answer.ponds) {
      kept.ponds.push_back({pond.lowest_m - raised_m(drawn, pond.place),
                            pond.ran_empty,
                            pond.filled_on ? model::day_number(*pond.filled_on) : never});
    }
    kept.parts.assign(vertices_.size(), false);
    kept.breaks.assign(farm_.pipes.size(), false);
    for (const SiphonBroken& broken : answer.broken) {
      if (!broken.parted) {
        kept.breaks[broken.pipe] = true;
        continue;
      }
      for (std::size_t i = 0; i < vertices_.size(); ++i) {
        if (vertices_[i].pipe == broken.high_pipe &&
            std::abs(vertices_[i].at_m - broken.high_at_m) < 1e-9) {
          kept.parts[i] = true;
        }
      }
    }
    return kept;
  }

  template <class Figure>
  [[nodiscard]] std::vector<double> values(Figure figure) const {
    std::vector<double> all;
    all.reserve(solved_.size());
    for (const std::size_t draw : solved_) {
      all.push_back(static_cast<double>(figure(drawn_[draw])));
    }
    return all;
  }

  template <class Figure>
  [[nodiscard]] LowLikelyHigh range(Figure figure) const {
    std::vector<double> all = values(figure);
    return {percentile(all, low_share), percentile(all, 0.5), percentile(all, high_share)};
  }

  /// Of day numbers. A day is a day: no line between two of them.
  template <class Day>
  [[nodiscard]] EarlyLikelyLate days(Day day) const {
    std::vector<int> sorted;
    for (const std::size_t draw : solved_) {
      sorted.push_back(day(drawn_[draw]));
    }
    std::sort(sorted.begin(), sorted.end());
    const auto at = [&](double rank) {
      const int number = sorted[static_cast<std::size_t>(rank)];
      return number == never ? std::nullopt : std::optional(model::date_of_day(number));
    };
    const auto last = static_cast<double>(sorted.size() - 1);
    return {at(std::floor(low_share * last)),
            at(std::floor(0.5 * last)),
            at(std::ceil(high_share * last))};
  }

  template <class Happens>
  [[nodiscard]] double chance(Happens happens) const {
    const auto count = std::count_if(
        solved_.begin(), solved_.end(), [&](std::size_t draw) { return happens(drawn_[draw]); });
    return static_cast<double>(count) / static_cast<double>(solved_.size());
  }

  void sum_up(SeasonSpread& spread) const {
    if (solved_.empty()) {
      return;
    }
    for (std::size_t i = 0; i < spread.answer.troughs.size(); ++i) {
      spread.troughs.push_back(trough_spread(i, spread.answer.troughs[i].place));
    }
    for (std::size_t i = 0; i < spread.answer.tanks.size(); ++i) {
      spread.tanks.push_back(store_spread(&DrawnSeason::tanks, i, spread.answer.tanks[i].place));
    }
    for (std::size_t i = 0; i < spread.answer.ponds.size(); ++i) {
      spread.ponds.push_back(store_spread(&DrawnSeason::ponds, i, spread.answer.ponds[i].place));
    }
    for (std::size_t i = 0; i < vertices_.size(); ++i) {
      const double parts = chance([i](const DrawnSeason& drawn) { return drawn.parts[i]; });
      if (parts > 0.0 || vertices_[i].is_summit) {
        spread.summits.push_back({vertices_[i].pipe, vertices_[i].at_m, parts});
      }
    }
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      const double breaks = chance([i](const DrawnSeason& drawn) { return drawn.breaks[i]; });
      if (breaks > 0.0) {
        spread.breaks.push_back({i, breaks});
      }
    }
    find_causes(spread);
  }

  [[nodiscard]] TroughSpread trough_spread(std::size_t i, std::size_t place) const {
    TroughSpread spread;
    spread.place = place;
    spread.got_m3 = range([i](const DrawnSeason& drawn) { return drawn.troughs[i].got_m3; });
    spread.dry_h = range([i](const DrawnSeason& drawn) { return drawn.troughs[i].dry_h; });
    if (chance([i](const DrawnSeason& drawn) { return drawn.troughs[i].need_m3 > 0.0; }) == 0.0) {
      return spread;
    }
    spread.met = range([i](const DrawnSeason& drawn) { return drawn.troughs[i].met(); });
    spread.chance_short =
        chance([i](const DrawnSeason& drawn) { return drawn.troughs[i].first_short != never; });
    spread.first_short =
        days([i](const DrawnSeason& drawn) { return drawn.troughs[i].first_short; });
    return spread;
  }

  [[nodiscard]] StoreSpread store_spread(std::vector<DrawnStore> DrawnSeason::*stores,
                                         std::size_t i,
                                         std::size_t place) const {
    StoreSpread spread;
    spread.place = place;
    spread.lowest_m = range([&](const DrawnSeason& drawn) { return (drawn.*stores)[i].lowest_m; });
    spread.filled = days([&](const DrawnSeason& drawn) { return (drawn.*stores)[i].filled; });
    spread.chance_empty =
        chance([&](const DrawnSeason& drawn) { return (drawn.*stores)[i].ran_empty; });
    return spread;
  }

  /// Whose figure is explained, by draw solved; nothing where none spreads.
  [[nodiscard]] std::vector<double> explained_values(SeasonSpread& spread) const {
    std::vector<double> best;
    double least = 2.0;
    for (std::size_t i = 0; i < spread.troughs.size(); ++i) {
      if (spread.troughs[i].chance_short.value_or(0.0) == 0.0) {
        continue;
      }
      std::vector<double> met =
          values([i](const DrawnSeason& drawn) { return drawn.troughs[i].met(); });
      const Moments moments = moments_of(met);
      if (moments.variance > least_variance && moments.mean < least) {
        least = moments.mean;
        best = std::move(met);
        spread.explained = {ExplainedSpread::What::NeedMet, spread.troughs[i].place};
      }
    }
    if (!best.empty()) {
      return best;
    }
    double most = least_variance;
    const auto take = [&](std::vector<DrawnStore> DrawnSeason::*stores,
                          const std::vector<StoreSpread>& spreads) {
      for (std::size_t i = 0; i < spreads.size(); ++i) {
        std::vector<double> lowest =
            values([&](const DrawnSeason& drawn) { return (drawn.*stores)[i].lowest_m; });
        const double variance = moments_of(lowest).variance;
        if (variance > most) {
          most = variance;
          best = std::move(lowest);
          spread.explained = {ExplainedSpread::What::LowestLevel, spreads[i].place};
        }
      }
    };
    take(&DrawnSeason::tanks, spread.tanks);
    take(&DrawnSeason::ponds, spread.ponds);
    return best;
  }

  void find_causes(SeasonSpread& spread) const {
    const std::vector<double> explained = explained_values(spread);
    if (explained.empty()) {
      return;
    }
    std::vector<std::vector<double>> deviates;
    for (std::size_t i = 0; i < inputs_.size(); ++i) {
      std::vector<double>& row = deviates.emplace_back();
      for (const std::size_t draw : solved_) {
        row.push_back(inputs_[i].deviation > 0.0 ? normal_deviate(options_.seed, draw, i) : 0.0);
      }
    }
    for (const ExplainingInput& found : explaining_inputs(explained, std::move(deviates))) {
      const UncertainInput& input = inputs_[found.input];
      // The points of one path were one afternoon's work, and are one cause.
      const auto known =
          std::find_if(spread.causes.begin(), spread.causes.end(), [&](const Cause& cause) {
            return cause.input == input.name;
          });
      if (known != spread.causes.end()) {
        known->share += found.share;
      } else {
        spread.causes.push_back({input.name, input.input.kind, found.share});
      }
    }
    std::erase_if(spread.causes, [](const Cause& cause) { return cause.share < least_told_share; });
    std::stable_sort(spread.causes.begin(),
                     spread.causes.end(),
                     [](const Cause& a, const Cause& b) { return a.share > b.share; });
  }

  const model::Farm& farm_;
  const SeasonSpreadOptions& options_;
  std::span<const UncertainInput> inputs_;
  const Progress& progress_;
  SeasonOptions season_;
  std::vector<Vertex> vertices_;
  std::vector<DrawnSeason> drawn_;   // by draw
  std::vector<std::size_t> solved_;  // draws that have an answer
  bool stopped_ = false;
};

}  // namespace

SeasonSpread season_spread_of(const model::Farm& farm,
                              const SeasonSpreadOptions& options,
                              std::span<const UncertainInput> inputs,
                              const Progress& progress) {
  return SeasonDraws(farm, options, inputs, progress).study();
}

SeasonSpread season_spread_of(const model::Farm& farm,
                              const SeasonSpreadOptions& options,
                              const Progress& progress) {
  const std::vector<UncertainInput> inputs =
      season_inputs(farm, model::month_of(options.season.from));
  return season_spread_of(farm, options, inputs, progress);
}

}  // namespace leat::solver
