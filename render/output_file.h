// Writing a file whole or not at all.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace leat::render {

enum class ExistingFile { Keep, Replace };

/// Why a file was not written; `hint` may be empty.
struct OutputProblem {
  std::string code;  // "exists", "not-a-file", "cannot-write"
  std::string text;
  std::string hint;
};

/// Writes `bytes` to `path` through a temporary file in the same folder, so that the old file stays
/// as it was until the new one is complete on the disk. With `Keep`, an existing file is a problem.
/// Nothing is left behind on failure.
[[nodiscard]] std::optional<OutputProblem> write_output_file(const std::string& path,
                                                             std::string_view bytes,
                                                             ExistingFile existing);

}  // namespace leat::render
