// `leat compare`: farms side by side.
#pragma once

#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "render/commands/command.h"
#include "render/commands/shared_options.h"

namespace leat::render {

/// Reads and solves every file and says how they differ. All files are read, so that the problems
/// of all are told.
class CompareCommand final : public Command {
 public:
  [[nodiscard]] CommandHead head() const override;
  [[nodiscard]] std::optional<UsageProblem> check() const override;
  [[nodiscard]] CommandResult run(const Terminal& terminal) const override;

  std::vector<std::string> files;
  SeasonSpan span;
  std::optional<model::Month> month;
  std::optional<model::UnitSystem> units;

 protected:
  [[nodiscard]] std::vector<Option> own_options() override;
};

}  // namespace leat::render
