#include "render/commands/catalogues/command.h"

#include "render/commands/catalogues/catalogue_report.h"
#include "render/commands/shared_options.h"

namespace leat::render {

std::vector<Option> CatalogueCommand::own_options() {
  return {csv_option(the_only_table, csv), units_option(units)};
}

CommandHead PipesCommand::head() const {
  return {"pipes",
          "List the pipe sizes known by name, each with its source.",
          "  leat pipes\n  leat pipes --csv\n"};
}

CommandResult PipesCommand::run(const Terminal& /*terminal*/) const {
  return {pipes_text(form(), units_shown()), "", ExitCode::NothingAmiss};
}

CommandHead FittingsCommand::head() const {
  return {"fittings",
          "List the fittings known by name, each with its source.",
          "  leat fittings\n  leat fittings --json\n"};
}

CommandResult FittingsCommand::run(const Terminal& /*terminal*/) const {
  return {fittings_text(form(), units_shown()), "", ExitCode::NothingAmiss};
}

CommandHead HerdCommand::head() const {
  return {"herd",
          "List what stock drink, each with its source.",
          "  leat herd\n  leat herd --units US\n"};
}

CommandResult HerdCommand::run(const Terminal& /*terminal*/) const {
  return {herd_text(form(), units_shown()), "", ExitCode::NothingAmiss};
}

}  // namespace leat::render
