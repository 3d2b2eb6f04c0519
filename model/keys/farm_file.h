// Reading a farm file: text in, a checked farm or every problem in it out.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/farm/farm.h"
#include "model/text/diagnostic.h"

namespace leat::model {

/// What reading a farm file gave. `farm` is there exactly when `problems` holds no error.
struct LoadedFarm {
  std::optional<Farm> farm;
  std::vector<Diagnostic> problems;  // sorted by position
  std::string source;                // the text read, for the line and caret under a problem
  // The same for the other files that have problems, by name: CSV files, what a variant is based
  // on.
  std::map<std::string, std::string> csv_sources;
  std::vector<std::string> files;      // the farm file and what it is based on, in this order
  std::vector<std::string> csv_files;  // what was read beside them, named from where leat runs
};

/// The text of the file a problem is in; empty where it could not be read.
[[nodiscard]] std::string_view source_of(const LoadedFarm& loaded, const Diagnostic& problem);

/// A problem found in the loaded farm by who knows no files (the solver), with the file and line
/// its position is in: places and pipes of a variant may stand in its base (source_files.h).
[[nodiscard]] Diagnostic placed(const LoadedFarm& loaded, Diagnostic problem);

/// Reads a farm from text. A variant is laid over its base, which is read beside `file_name`.
/// Survives any bytes; reports every problem, not only the first. `file_name` is used in messages
/// and to find files beside it.
[[nodiscard]] LoadedFarm load_farm(std::string_view text, const std::string& file_name);

/// Reads a farm from a file; an unreadable file is a problem like any other (code "unreadable").
[[nodiscard]] LoadedFarm load_farm_file(const std::string& path);

}  // namespace leat::model
