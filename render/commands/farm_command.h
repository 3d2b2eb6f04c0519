// A command that answers about one farm file.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/farm/farm.h"
#include "model/keys/farm_file.h"
#include "render/commands/command.h"
#include "render/commands/output_target.h"

namespace leat::render {

class FarmCommand : public Command {
 public:
  /// A farm file must be named.
  [[nodiscard]] std::optional<UsageProblem> check() const override;

  /// Reads the farm and answers; refuses before that what cannot be written.
  [[nodiscard]] CommandResult run(const Terminal& terminal) const final;

  /// What the command says of a farm that was read: `loaded.farm` is there.
  [[nodiscard]] virtual CommandResult answer(const model::LoadedFarm& loaded,
                                             const Terminal& terminal) const = 0;

  /// The system of units of tables, sentences and drawings.
  [[nodiscard]] model::UnitSystem units_for(const model::Farm& farm) const {
    return units.value_or(farm.show);
  }

  std::string file;
  std::optional<model::UnitSystem> units;  // the farm's own `show` when absent
  OutputTarget output;                     // of the commands that write a file

 protected:
  /// FILE, then the command's.
  [[nodiscard]] std::vector<Option> own_options() final;
  [[nodiscard]] virtual std::vector<Option> farm_options() = 0;

  /// The files it writes besides its answer on stdout.
  [[nodiscard]] virtual std::vector<std::string> files_written() const;
};

}  // namespace leat::render
