#include "render/commands/new/command.h"

#include <utility>

#include <fmt/format.h>

#include "render/commands/command_parts.h"
#include "render/commands/new/schema_file.h"
#include "render/commands/new/starter_file.h"
#include "render/commands/shared_options.h"
#include "render/commands/solve/json_report.h"
#include "render/io/interruption.h"

namespace leat::render {

namespace {

/// The starter farm, under the line by which an editor finds the schema.
std::string starter_text(bool has_schema_beside) {
  const std::optional<std::string> schema =
      has_schema_beside ? std::optional<std::string>(schema_name) : schema_on_this_machine();
  return (schema ? schema_line(*schema) : std::string()) + starter_file();
}

/// A file's folder with its slash; empty for the one leat runs in.
std::string folder_of(const std::string& file) {
  return file.substr(0, file.rfind('/') + 1);
}

}  // namespace

CommandHead NewCommand::head() const {
  return {"new",
          "Write a commented starter farm, to FILE or to the screen.",
          "  leat new\n  leat new my-farm.yaml\n"};
}

std::vector<Option> NewCommand::own_options() {
  Option file = farm_file_argument("file to write", farm.file);
  file.is_optional = true;
  return {std::move(file),
          switch_option(
              {"--schema"},
              "put farm.schema.json beside FILE as well, for editors on machines without leat",
              schema),
          replace_option(farm)};
}

std::optional<UsageProblem> NewCommand::check() const {
  if (schema && !farm.is_asked()) {
    return flags_clash("--schema needs a file to stand beside",
                       "write leat new my-farm.yaml --schema");
  }
  if (schema && farm.file.substr(folder_of(farm.file).size()) == schema_name) {
    return flags_clash(
        fmt::format("--schema writes a '{}' of its own beside the farm", schema_name),
        "give the farm another name");
  }
  return Command::check();
}

CommandResult NewCommand::run(const Terminal& /*terminal*/) const {
  std::vector<std::pair<OutputTarget, std::string>> files;  // and their texts
  if (schema) {
    files.push_back({{folder_of(farm.file) + schema_name, farm.existing}, schema_text()});
  }
  const std::string text = starter_text(schema);
  if (farm.is_asked()) {
    files.emplace_back(farm, text);
  }
  // All can be written before any is.
  for (const auto& [target, bytes] : files) {
    expect_output(target.file);
    if (const auto problem = output_problem(target.file, target.existing)) {
      return failure(*this, {problem_of(*problem)}, {});
    }
  }
  CommandResult result;
  for (const auto& [target, bytes] : files) {
    if (const auto problem = writing_problem(target, bytes)) {
      return failure(*this, {*problem}, {});
    }
    result.err += fmt::format("wrote {}\n", target.file);
  }
  if (json) {
    result.out = new_json(farm.file, text);
  } else if (!farm.is_asked()) {
    result.out = text;
  }
  return result;
}

}  // namespace leat::render
