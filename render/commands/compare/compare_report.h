// Farms beside each other for a person and for a script.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "render/io/terminal_style.h"
#include "solver/compare/compare.h"

namespace leat::render {

/// One farm of a comparison: its file as given, what it is called here, the farm.
struct ComparedFile {
  std::string file;
  std::string label;
  const model::Farm* farm = nullptr;
};

/// Farms, answers, dates. All have an answer.
struct CompareView {
  std::vector<ComparedFile> files;
  const solver::Comparison* comparison = nullptr;
  model::UnitSystem units = model::UnitSystem::Metric;
};

/// More farms than this stand below each other, one a row.
inline constexpr std::size_t most_columns = 4;

/// Short names for files: without folder and ending where that tells them apart, else as given.
[[nodiscard]] std::vector<std::string> labels_of(const std::vector<std::string>& files);

/// The screen of `leat compare`: figures side by side, the differences in words, what is wrong.
[[nodiscard]] std::string compare_table(const CompareView& view, const Terminal& terminal);
/// The object of `leat compare --json` (OUTPUT.md).
[[nodiscard]] std::string compare_json(const CompareView& view);
/// One row a farm; flags are left out.
[[nodiscard]] std::string compare_csv(const CompareView& view);

}  // namespace leat::render
