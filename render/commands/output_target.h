// Where a command writes besides its answer on stdout.
#pragma once

#include <string>

#include "render/io/output_file.h"

namespace leat::render {

struct OutputTarget {
  std::string file;  // "-" is stdout; empty: nowhere
  ExistingFile existing = ExistingFile::Keep;

  [[nodiscard]] bool is_asked() const { return !file.empty(); }
  [[nodiscard]] bool is_stdout() const { return file == "-"; }
  [[nodiscard]] bool is_file() const { return is_asked() && !is_stdout(); }
};

}  // namespace leat::render
