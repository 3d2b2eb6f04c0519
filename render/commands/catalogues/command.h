// `leat pipes`, `leat fittings`, `leat herd`: the catalogues.
#pragma once

#include <optional>

#include "model/farm/farm.h"
#include "render/commands/command.h"

namespace leat::render {

/// What the three have in common: --csv and --units.
class CatalogueCommand : public Command {
 public:
  std::optional<model::UnitSystem> units;

 protected:
  [[nodiscard]] std::vector<Option> own_options() final;
  [[nodiscard]] model::UnitSystem units_shown() const {
    return units.value_or(model::UnitSystem::Metric);
  }
};

class PipesCommand final : public CatalogueCommand {
 public:
  [[nodiscard]] CommandHead head() const override;
  [[nodiscard]] CommandResult run(const Terminal& terminal) const override;
};

class FittingsCommand final : public CatalogueCommand {
 public:
  [[nodiscard]] CommandHead head() const override;
  [[nodiscard]] CommandResult run(const Terminal& terminal) const override;
};

class HerdCommand final : public CatalogueCommand {
 public:
  [[nodiscard]] CommandHead head() const override;
  [[nodiscard]] CommandResult run(const Terminal& terminal) const override;
};

}  // namespace leat::render
