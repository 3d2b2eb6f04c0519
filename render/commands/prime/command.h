// `leat prime`: how a siphon is primed.
#pragma once

#include <string>

#include "render/commands/farm_command.h"

namespace leat::render {

class PrimeCommand final : public FarmCommand {
 public:
  [[nodiscard]] CommandHead head() const override;
  [[nodiscard]] CommandResult answer(const model::LoadedFarm& loaded,
                                     const Terminal& terminal) const override;

  std::optional<std::string> pipe;  // of the line; the one that climbs highest when absent
  std::optional<Flow> fill;         // how fast water can be poured in
  std::optional<Pressure> pump;     // the fill pump's shut-off pressure
  std::optional<model::Month> month;

 protected:
  [[nodiscard]] std::vector<Option> farm_options() override;
};

}  // namespace leat::render
