#include "solver/prime/line_reading.h"

#include <algorithm>
#include <string>
#include <utility>

#include "model/catalogue/fitting_catalogue.h"
#include "model/text/nearest_word.h"
#include "solver/flow/line_course.h"
#include "solver/steady/steady.h"

namespace leat::solver {

namespace {

class LineReader {
 public:
  LineReader(const model::Farm& farm, const PrimeOptions& options)
      : farm_(farm), options_(options) {}

  LineReading read() {
    const std::optional<std::size_t> asked = asked_pipe();
    if (reading_.problem || !solve(farm_, LoadCase::Wide)) {
      return std::move(reading_);
    }
    choose_line(asked);
    const model::Farm opened = with_open_valves();
    const SteadyAnswer wide = solve_steady(opened, steady_options(LoadCase::Wide));
    // Where nothing depends on how hard the line draws, it is judged as `solve` judges it.
    const bool is_siphon = !prime_course(farm_, reading_.answer, line_).fills_itself();
    if (!solve(opened, is_siphon ? LoadCase::Wide : LoadCase::Needs) || !runs_as_written()) {
      return std::move(reading_);
    }
    read_course();
    read_flows(opened, wide);
    return std::move(reading_);
  }

 private:
  std::optional<std::size_t> asked_pipe() {
    if (!options_.pipe) {
      return std::nullopt;
    }
    std::vector<std::string> names;
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      names.push_back(farm_.pipes[i].name);
      if (names.back() == *options_.pipe) {
        return i;
      }
    }
    reading_.problem =
        priming::UnknownPipe{*options_.pipe, model::nearest_word(*options_.pipe, names)};
    return std::nullopt;
  }

  [[nodiscard]] SteadyOptions steady_options(LoadCase load_case) const {
    SteadyOptions steady;
    steady.load_case = load_case;
    steady.month = options_.month;
    return steady;
  }

  bool solve(const model::Farm& farm, LoadCase load_case) {
    reading_.answer = solve_steady(farm, steady_options(load_case));
    if (!reading_.answer.converged) {
      reading_.problems = reading_.answer.problems;
    }
    return reading_.answer.converged;
  }

  [[nodiscard]] bool starts_at_ram(const LineCourse& line) const {
    return std::any_of(farm_.rams.begin(), farm_.rams.end(), [&](const model::Ram& ram) {
      return farm_.pipes[ram.delivery].from == line.from;
    });
  }

  void choose_line(std::optional<std::size_t> asked) {
    if (asked) {
      line_ = line_through(farm_, reading_.answer, *asked);
      return;
    }
    const LineFinder finder(farm_, reading_.answer);
    double highest_climb_m = 0.0;
    bool found = false;
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      LineCourse line = finder.through(i);
      if (starts_at_ram(line)) {
        continue;  // the ram fills it
      }
      const double climb_m = prime_course(farm_, reading_.answer, line).climb_m();
      const bool higher = climb_m > highest_climb_m + 1e-9;
      const bool longer = highest_climb_m <= 0.0 && line.length_m > line_.length_m + 1e-9;
      if (!found || higher || longer) {
        found = true;
        highest_climb_m = std::max(highest_climb_m, climb_m);
        line_ = std::move(line);
      }
    }
  }

  /// A valve that the file has shut is planned for as open: a primed line is meant to run.
  model::Farm with_open_valves() {
    model::Farm opened = farm_;
    for (const std::size_t pipe : line_.pipes) {
      std::optional<model::Valve>& valve = opened.pipes[pipe].valve;
      if (valve && valve->shut) {
        valve->shut = false;
        valve->open = 1.0;
        reading_.opened_valves.push_back(pipe);
      }
    }
    return opened;
  }

  /// Whether the line starts at water and nothing runs up it.
  bool runs_as_written() {
    if (!model::is_open_water(farm_.places[line_.from])) {
      reading_.problem = priming::StartsWithoutWater{farm_.pipes[line_.pipes.back()].name,
                                                     farm_.places[line_.from].name};
      return false;
    }
    for (const std::size_t pipe : line_.pipes) {
      if (reading_.answer.pipes[pipe].flow_m3_s < -still_flow_m3_s) {
        reading_.problem = priming::RunsBackwards{farm_.pipes[pipe].name};
        return false;
      }
    }
    return true;
  }

  void read_course() {
    reading_.course = prime_course(farm_, reading_.answer, line_);
    reading_.lock = air_lock_of(farm_, reading_.answer, line_);
    for (const FallingLeg& leg : falling_legs(farm_, reading_.answer)) {
      if (std::count(line_.pipes.begin(), line_.pipes.end(), leg.pipe) > 0) {
        reading_.air.push_back(leg);
      }
    }
  }

  [[nodiscard]] double flow_at_end(const SteadyAnswer& answer) const {
    return answer.pipes[line_.pipes.back()].flow_m3_s;
  }

  void read_flows(model::Farm without, const SteadyAnswer& wide) {
    if (!wide.converged) {
      return;
    }
    reading_.flow_m3_s = flow_at_end(wide);
    reading_.inflow_m3_s = wide.pipes[line_.pipes.front()].flow_m3_s;
    bool has_one = false;
    for (const std::size_t pipe : line_.pipes) {
      std::vector<model::Fitting>& fittings = without.pipes[pipe].fittings;
      const auto kept = std::remove_if(fittings.begin(), fittings.end(), model::is_foot_valve);
      has_one = has_one || kept != fittings.end();
      fittings.erase(kept, fittings.end());
    }
    if (!has_one) {
      return;
    }
    const SteadyAnswer free = solve_steady(without, steady_options(LoadCase::Wide));
    if (free.converged) {
      reading_.flow_without_foot_valve_m3_s = flow_at_end(free);
    }
  }

  const model::Farm& farm_;
  const PrimeOptions& options_;
  LineCourse line_;
  LineReading reading_;
};

}  // namespace

LineReading read_line(const model::Farm& farm, const PrimeOptions& options) {
  return LineReader(farm, options).read();
}

}  // namespace leat::solver
