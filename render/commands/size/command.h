// `leat size`: what pipe to lay, and the farm file with it.
#pragma once

#include "render/commands/farm_command.h"

namespace leat::render {

/// Sizes the farm; with an output named, writes the file with the sizes in it, never over the file
/// it was read from, and only where it reads back as the same farm and solves.
class SizeCommand final : public FarmCommand {
 public:
  [[nodiscard]] CommandHead head() const override;
  [[nodiscard]] std::optional<UsageProblem> check() const override;
  [[nodiscard]] CommandResult answer(const model::LoadedFarm& loaded,
                                     const Terminal& terminal) const override;

  bool one_size = false;  // no run in two sizes
  std::optional<model::Month> month;

 protected:
  [[nodiscard]] std::vector<Option> farm_options() override;
};

}  // namespace leat::render
