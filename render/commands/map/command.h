// `leat map FILE -o OUT`: the farm and its answer for map programs.
#pragma once

#include "render/commands/farm_command.h"
#include "render/commands/shared_options.h"

namespace leat::render {

/// Solves the farm and writes it as GeoJSON, to a file ending in .geojson or .json or to stdout.
/// What is not on the map, or hard to believe on it, goes to stderr.
class MapCommand final : public FarmCommand {
 public:
  [[nodiscard]] CommandHead head() const override;
  [[nodiscard]] std::optional<UsageProblem> check() const override;
  [[nodiscard]] CommandResult answer(const model::LoadedFarm& loaded,
                                     const Terminal& terminal) const override;

  MomentAsked moment;

 protected:
  [[nodiscard]] std::vector<Option> farm_options() override;
};

}  // namespace leat::render
