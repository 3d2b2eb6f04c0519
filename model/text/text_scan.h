// A look at the raw bytes of a farm file before anything parses them: what a YAML reader would
// swallow, misread or choke on.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/text/problem_list.h"
#include "model/text/source_position.h"
#include "model/text/text_position.h"

namespace leat::model {

/// The largest nesting of lists and maps a farm file may have.
inline constexpr int deepest_nesting = 50;
/// The largest farm file [bytes].
inline constexpr std::size_t largest_file = std::size_t{32} * 1024 * 1024;

/// What the scan found out. Open quotes and brackets are told only so that a parser's error can be
/// put where it began: the scan does not know every rule by which a quote is none.
struct TextScan {
  bool fit_to_parse = true;
  std::optional<SourcePosition> open_quote;
  std::vector<SourcePosition> open_brackets;
};

/// Encoding, control characters and line endings of a text file. Nothing after the first such fault
/// can be trusted to be what its writer saw, so only the first is told. Returns whether all is
/// well.
[[nodiscard]] bool check_bytes(std::string_view text,
                               const std::string& file,
                               ProblemList& problems);

/// Reports bytes no farm file may hold: a wrong encoding, control characters, old line endings,
/// tabs as indent, too much nesting, too large a file, and a ` #` that cuts a word in two.
[[nodiscard]] TextScan scan_text(std::string_view text, ProblemList& problems);

}  // namespace leat::model
