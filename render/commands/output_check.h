// What can be refused about a command's output before anything is computed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/keys/farm_file.h"
#include "model/text/diagnostic.h"
#include "render/io/output_file.h"

namespace leat::render {

/// Why one of these files cannot be written: codes of output_file.h, and over-itself for a file
/// that the farm is read from, by whatever name or link.
[[nodiscard]] std::optional<model::Diagnostic> refused_output(const std::vector<std::string>& files,
                                                              ExistingFile existing,
                                                              const model::LoadedFarm& loaded);

}  // namespace leat::render
