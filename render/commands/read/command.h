// `leat read`: what was understood of a farm file.
#pragma once

#include "render/commands/farm_command.h"

namespace leat::render {

class ReadCommand final : public FarmCommand {
 public:
  [[nodiscard]] CommandHead head() const override;
  [[nodiscard]] CommandResult answer(const model::LoadedFarm& loaded,
                                     const Terminal& terminal) const override;

  std::optional<model::Month> month;

 protected:
  [[nodiscard]] std::vector<Option> farm_options() override;
};

}  // namespace leat::render
