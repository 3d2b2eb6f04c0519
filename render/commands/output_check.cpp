#include "render/commands/output_check.h"

#include <algorithm>
#include <set>
#include <utility>
#include <variant>

#include <fmt/format.h>
#include <sys/stat.h>

#include "model/keys/beside_file.h"
#include "model/text/file_text.h"
#include "model/text/yaml_tree.h"
#include "render/commands/command_parts.h"
#include "render/io/fonts.h"

namespace leat::render {

namespace {

using FileNumber = std::pair<dev_t, ino_t>;

/// What tells a file from all others, however it is named; nothing where it is not there.
std::optional<FileNumber> number_of(const std::string& file) {
  struct stat there {};
  if (stat(file.c_str(), &there) != 0) {
    return std::nullopt;
  }
  return FileNumber{there.st_dev, there.st_ino};
}

void add_csv_files(const model::YamlNode& node,
                   const std::string& file,
                   std::set<FileNumber>& numbers) {
  if (model::names_csv(node)) {
    if (const auto number = number_of(model::name_beside(node.text, file))) {
      numbers.insert(*number);
    }
  }
  for (const model::YamlNode& item : node.items) {
    add_csv_files(item, file, numbers);
  }
  for (const model::YamlEntry& entry : node.entries) {
    add_csv_files(entry.value, file, numbers);
  }
}

/// The farm file, what it is based on and the CSV files they name.
std::set<FileNumber> files_read(const model::LoadedFarm& loaded) {
  std::set<FileNumber> numbers;
  for (const std::string& file : loaded.files) {
    if (const auto number = number_of(file)) {
      numbers.insert(*number);
    }
    const auto text = model::read_file_text(file);
    if (const auto* const bytes = std::get_if<std::string>(&text)) {
      model::ProblemList unheard(file);  // reading the farm has told them
      add_csv_files(model::read_yaml(*bytes, unheard), file, numbers);
    }
  }
  return numbers;
}

}  // namespace

std::string pdf_beside(const std::string& html_file) {
  return html_file.substr(0, html_file.rfind('.')) + ".pdf";
}

std::vector<std::string> outputs_of(const CommandLine& line) {
  std::vector<std::string> outputs;
  if (line.command == Command::New && !line.file.empty()) {
    outputs.push_back(line.file);
  }
  if (!line.output.empty() && line.output != "-") {
    outputs.push_back(line.output);
    if (line.pdf) {
      outputs.push_back(pdf_beside(line.output));
    }
  }
  return outputs;
}

std::optional<model::Diagnostic> refused_output(const CommandLine& line,
                                                const model::LoadedFarm& loaded) {
  for (const std::string& output : outputs_of(line)) {
    if (const auto number = number_of(output)) {
      if (files_read(loaded).count(*number) > 0) {
        return problem_of("over-itself",
                          fmt::format("'{}' is a file the farm is read from", output),
                          "give the new file another name");
      }
    }
    const std::string ending = ending_of(output);
    if ((ending == "png" || ending == "pdf") && !has_fonts()) {
      return problem_of("no-font",
                        fmt::format("there is no font to write the words in '{}' with", output),
                        "on Debian: apt-get install fonts-dejavu-core; an SVG needs none");
    }
    if (const auto problem = output_problem(output, line.existing)) {
      return problem_of(problem->code, problem->text, problem->hint);
    }
  }
  return std::nullopt;
}

}  // namespace leat::render
