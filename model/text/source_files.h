// The lines of a variant and of the files it is based on, numbered on from file to file: a position
// of a farm's place or pipe then tells by itself which file it stands in.
#pragma once

#include <cstddef>

#include "model/text/source_position.h"

namespace leat::model {

/// No file has as many lines: it holds at most 32 MB (text_scan.h).
inline constexpr int lines_a_file = 40'000'000;

/// Which of a farm's files a position is in: 0 the file that was asked for, 1 the one that is based
/// on, and so on.
[[nodiscard]] constexpr std::size_t file_index(SourcePosition position) {
  return static_cast<std::size_t>(position.line > 0 ? position.line / lines_a_file : 0);
}

/// The position as it is counted in its own file.
[[nodiscard]] constexpr SourcePosition within_file(SourcePosition position) {
  return {position.line > 0 ? position.line % lines_a_file : position.line, position.column};
}

/// A position counted in its own file, numbered on for the farm's file of that index.
[[nodiscard]] constexpr SourcePosition in_file(SourcePosition position, std::size_t index) {
  return {position.line + static_cast<int>(index) * lines_a_file, position.column};
}

}  // namespace leat::model
