// What can be refused about a command's output before anything is computed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/keys/farm_file.h"
#include "model/text/diagnostic.h"
#include "render/cli/command_line.h"

namespace leat::render {

/// The files a command writes besides its answer on stdout: OUT, its PDF.
[[nodiscard]] std::vector<std::string> outputs_of(const CommandLine& line);

/// "farm.html" becomes "farm.pdf".
[[nodiscard]] std::string pdf_beside(const std::string& html_file);

/// Why one of them cannot be written: codes of output_file.h, and over-itself for a file that the
/// farm is read from, by whatever name or link.
[[nodiscard]] std::optional<model::Diagnostic> refused_output(const CommandLine& line,
                                                              const model::LoadedFarm& loaded);

}  // namespace leat::render
