#include "render/commands/farm_command.h"

#include <utility>

#include "render/commands/command_parts.h"
#include "render/commands/option_kinds.h"
#include "render/commands/output_check.h"
#include "render/io/interruption.h"

namespace leat::render {

std::vector<Option> FarmCommand::own_options() {
  std::vector<Option> options = farm_options();
  options.insert(options.begin(), farm_file_argument("the farm file", file));
  return options;
}

std::optional<UsageProblem> FarmCommand::check() const {
  if (auto problem = Command::check()) {
    return problem;
  }
  if (file.empty()) {
    return UsageProblem{
        std::nullopt, "no-file", "the farm file is missing", "leat new writes a starter file"};
  }
  return std::nullopt;
}

std::vector<std::string> FarmCommand::files_written() const {
  return output.is_file() ? std::vector<std::string>{output.file} : std::vector<std::string>();
}

CommandResult FarmCommand::run(const Terminal& terminal) const {
  const model::LoadedFarm loaded = model::load_farm_file(file);
  if (!loaded.farm) {
    return failure(*this, loaded.problems, loaded);
  }
  const std::vector<std::string> files = files_written();
  if (const auto problem = refused_output(files, output.existing, loaded)) {
    return failure(*this, {*problem}, {});
  }
  for (const std::string& written : files) {
    expect_output(written);
  }
  return answer(loaded, terminal);
}

}  // namespace leat::render
