// Room: the operating system: files, clock, processes, threads and signals stand here alone.
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

/// Why `path` could not be written, as far as that can be told before there is anything to write:
/// so that nobody waits for an answer that then has no place. Codes as above.
[[nodiscard]] std::optional<OutputProblem> output_problem(const std::string& path,
                                                          ExistingFile existing);

/// Writes `bytes` to `path` through a temporary file in the same folder, so that the old file stays
/// as it was until the new one is complete on the disk. With `Keep`, an existing file is a problem.
/// Nothing is left behind on failure, nor when the process is told to end (interruption.h). A
/// symbolic link is followed: what it leads to is written, and it stays a link. Other names of the
/// old file (hard links) keep the old content.
[[nodiscard]] std::optional<OutputProblem> write_output_file(const std::string& path,
                                                             std::string_view bytes,
                                                             ExistingFile existing);

}  // namespace leat::render
