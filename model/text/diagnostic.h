// What is wrong with a file, said so that its owner can mend it.
#pragma once

#include <string>
#include <vector>

#include "model/text/source_position.h"

namespace leat::model {

enum class Severity { Error, Warning, Note };

/// One problem: a stable code, the place in the file, one sentence that names the thing, the value
/// found and the limit, and a hint that says how to mend it (empty when there is none).
struct Diagnostic {
  Severity severity = Severity::Error;
  std::string code;
  std::string file;
  SourcePosition position;
  std::string text;
  std::string hint;
};

/// The word for a severity as it is printed: "error", "warning" or "note".
[[nodiscard]] const char* severity_word(Severity severity);

}  // namespace leat::model
