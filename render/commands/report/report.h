// The record of a farm that one files, prints and hands on: every study of leat on one page.
#pragma once

#include <array>
#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/keys/farm_file.h"
#include "solver/answer/steady_answer.h"

namespace leat::render::report {

/// The chapters by name, in the report's own order.
inline constexpr std::array<std::string_view, 12> chapter_names = {"farm",
                                                                   "schematic",
                                                                   "water",
                                                                   "findings",
                                                                   "profiles",
                                                                   "season",
                                                                   "priming",
                                                                   "materials",
                                                                   "measurements",
                                                                   "spread",
                                                                   "cautions",
                                                                   "file"};

struct ReportOptions {
  std::vector<std::string> chapters;  // of `chapter_names`; empty: all. Cautions always come along
  std::optional<model::Month> month;
  std::optional<model::UnitSystem> units;
  std::optional<model::Date> from;  // of the season
  std::optional<model::Date> to;
  std::ostream* progress = nullptr;  // where a long run may tell how far it is; null: nowhere
};

struct Report {
  std::string html;                         // empty where the farm has no answer
  solver::SteadyAnswer answer;              // its problems say why
  std::vector<solver::Finding> flags;       // the answer's, then those of the season
  std::vector<std::string> chapters;        // what is in it
  std::vector<model::Diagnostic> problems;  // why a chapter is without its answer
  bool amiss = false;                       // a caution or danger, or the low case says no
};

/// Writes the report of a farm that was read. The same farm, options and day (drawing_date.h) give
/// the same bytes on one machine.
[[nodiscard]] Report make_report(const model::LoadedFarm& loaded, const ReportOptions& options);

}  // namespace leat::render::report
