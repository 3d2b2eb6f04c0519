// A farm written as text inside a test, read by the real loader and solved; things found by name.
#pragma once

#include <cstddef>
#include <stdexcept>
#include <string>
#include <utility>

#include "model/keys/farm_file.h"
#include "solver/flow/flow_state.h"
#include "solver/steady/steady.h"

namespace leat::tests {

/// Reads a farm from its text. Throws std::runtime_error with every problem where it has any: a
/// test with a faulty farm must fail loudly.
[[nodiscard]] inline model::Farm farm_of(const std::string& text) {
  model::LoadedFarm loaded = model::load_farm(text, "test.yaml");
  if (loaded.farm) {
    return *std::move(loaded.farm);
  }
  std::string faults = "the farm of this test does not load:";
  for (const model::Diagnostic& problem : loaded.problems) {
    faults += "\nline " + std::to_string(problem.position.line) + ": " + problem.text;
  }
  throw std::runtime_error(faults);
}

/// A farm beside its answer, and the way from names to figures. Unknown names throw
/// std::out_of_range.
struct SolvedFarm {
  model::Farm farm;
  solver::SteadyAnswer answer;

  [[nodiscard]] const solver::PlaceAnswer& place(const std::string& name) const {
    for (std::size_t i = 0; i < farm.places.size(); ++i) {
      if (farm.places[i].name == name) {
        return answer.places.at(i);
      }
    }
    throw std::out_of_range("no place is named " + name);
  }

  [[nodiscard]] const solver::PipeAnswer& pipe(const std::string& name) const {
    for (std::size_t i = 0; i < farm.pipes.size(); ++i) {
      if (farm.pipes[i].name == name) {
        return answer.pipes.at(i);
      }
    }
    throw std::out_of_range("no pipe is named " + name);
  }

  /// The flag of that code at that place or pipe, or nullptr.
  [[nodiscard]] const solver::Finding* flag(solver::Code code, const std::string& where) const {
    for (const solver::Finding& found : answer.flags) {
      if (found.code == code && found.where == where) {
        return &found;
      }
    }
    return nullptr;
  }

  /// All flags, a line each, for the message of a failing test.
  [[nodiscard]] std::string flags() const {
    std::string all;
    for (const solver::Finding& found : answer.flags) {
      all += std::string(solver::word_of(found.code)) + " @ " + found.where + "\n";
    }
    return all;
  }
};

/// Reads and solves a farm.
[[nodiscard]] inline SolvedFarm solved(const std::string& text,
                                       const solver::SteadyOptions& options = {}) {
  SolvedFarm made{farm_of(text), {}};
  made.answer = solver::solve_steady(made.farm, options);
  return made;
}

[[nodiscard]] inline SolvedFarm solved(const std::string& text, solver::LoadCase load_case) {
  solver::SteadyOptions options;
  options.load_case = load_case;
  return solved(text, options);
}

/// The flow of litres a second in cubic metres a second, as the answers hold it.
[[nodiscard]] constexpr double litres(double per_second) {
  return per_second * 1e-3;
}

}  // namespace leat::tests
