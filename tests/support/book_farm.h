// A textbook's reservoirs, junctions and pipes as a farm, and its printed figures as rows.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "tests/support/farm_text.h"

namespace leat::tests {

/// A pipe of a textbook: no losses but its own unless `ends` says otherwise.
struct BookPipe {
  std::string name;
  std::string from;
  std::string to;
  double length_m = 0.0;
  double bore_m = 0.0;
  std::string law;  // "friction factor: 0.04" or "roughness: 0.24 mm"
  std::string ends = "entrance: 0, exit: 0";
};

[[nodiscard]] inline std::string text_of(const BookPipe& pipe) {
  return fmt::format("  {}: {{from: {}, to: {}, length: {} m, size: {{bore: {} m, {}}}, {}}}\n",
                     pipe.name,
                     pipe.from,
                     pipe.to,
                     pipe.length_m,
                     pipe.bore_m,
                     pipe.law,
                     pipe.ends);
}

/// Levels of creeks and tees by name, then pipes.
struct BookFarm {
  std::vector<std::pair<std::string, double>> creeks;
  std::vector<std::pair<std::string, double>> tees;
  std::vector<BookPipe> pipes;
  std::string site = "{water: 15 C}";
};

[[nodiscard]] inline SolvedFarm solved_book(const BookFarm& book) {
  std::string text = fmt::format("farm: from a book\nsite: {}\ncreeks:\n", book.site);
  for (const auto& [name, level_m] : book.creeks) {
    text += fmt::format("  {}: {{surface: {} m}}\n", name, level_m);
  }
  text += book.tees.empty() ? "" : "tees:\n";
  for (const auto& [name, level_m] : book.tees) {
    text += fmt::format("  {}: {} m\n", name, level_m);
  }
  text += "pipes:\n";
  for (const BookPipe& pipe : book.pipes) {
    text += text_of(pipe);
  }
  return solved(text);
}

/// One printed figure against the farm's own.
struct Row {
  std::string what;
  double expected = 0.0;
  double computed = 0.0;
  double tolerance = 0.0;  // relative
  std::string source;
};

inline void check(const std::vector<Row>& rows) {
  for (const Row& row : rows) {
    CAPTURE(row.what, row.source);
    CHECK(row.computed == Approx(row.expected).epsilon(row.tolerance));
  }
}

[[nodiscard]] inline double flow_of(const SolvedFarm& farm, const std::string& pipe) {
  REQUIRE(farm.answer.converged);
  return farm.pipe(pipe).flow_m3_s;
}

}  // namespace leat::tests
