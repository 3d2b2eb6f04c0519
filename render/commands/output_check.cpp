#include "render/commands/output_check.h"

#include <set>
#include <utility>

#include <fmt/format.h>
#include <sys/stat.h>

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

/// The farm file, what it is based on and the CSV files they name.
std::set<FileNumber> files_read(const model::LoadedFarm& loaded) {
  std::set<FileNumber> numbers;
  for (const std::vector<std::string>& files : {loaded.files, loaded.csv_files}) {
    for (const std::string& file : files) {
      if (const auto number = number_of(file)) {
        numbers.insert(*number);
      }
    }
  }
  return numbers;
}

}  // namespace

std::optional<model::Diagnostic> refused_output(const std::vector<std::string>& files,
                                                ExistingFile existing,
                                                const model::LoadedFarm& loaded) {
  for (const std::string& output : files) {
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
    if (const auto problem = output_problem(output, existing)) {
      return problem_of(*problem);
    }
  }
  return std::nullopt;
}

}  // namespace leat::render
