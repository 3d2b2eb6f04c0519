// Reading a farm file: text in, a checked farm or every problem in it out.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/diagnostic.h"
#include "model/farm.h"

namespace leat::model {

/// What reading a farm file gave. `farm` is there exactly when `problems` holds no error.
struct LoadedFarm {
  std::optional<Farm> farm;
  std::vector<Diagnostic> problems;  // sorted by position
  std::string source;                // the text read, for the line and caret under a problem
  std::map<std::string, std::string> csv_sources;  // the same for CSV files with problems, by name
};

/// The text of the file a problem is in; empty where it could not be read.
[[nodiscard]] std::string_view source_of(const LoadedFarm& loaded, const Diagnostic& problem);

/// Reads a farm from text. Survives any bytes; reports every problem, not only the first.
/// `file_name` is used in messages and to find CSV files beside it.
[[nodiscard]] LoadedFarm load_farm(std::string_view text, const std::string& file_name);

/// Reads a farm from a file; an unreadable file is a problem like any other (code "unreadable").
[[nodiscard]] LoadedFarm load_farm_file(const std::string& path);

}  // namespace leat::model
