// `leat draw`: the farm and its answer as a drawing.
#pragma once

#include "render/commands/farm_command.h"
#include "render/commands/shared_options.h"

namespace leat::render {

class DrawCommand final : public FarmCommand {
 public:
  [[nodiscard]] CommandHead head() const override;
  [[nodiscard]] std::optional<UsageProblem> check() const override;
  [[nodiscard]] CommandResult answer(const model::LoadedFarm& loaded,
                                     const Terminal& terminal) const override;

  MomentAsked moment;
  bool by_position = false;  // places stand as their `map` says

 protected:
  [[nodiscard]] std::vector<Option> farm_options() override;
};

}  // namespace leat::render
