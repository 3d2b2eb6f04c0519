#include "model/text/diagnostic.h"

#include <algorithm>

namespace leat::model {

bool has_error(const std::vector<Diagnostic>& problems) {
  return std::any_of(problems.begin(), problems.end(), [](const Diagnostic& problem) {
    return problem.severity == Severity::Error;
  });
}

const char* severity_word(Severity severity) {
  switch (severity) {
    case Severity::Error:
      return "error";
    case Severity::Warning:
      return "warning";
    case Severity::Note:
      return "note";
  }
  return "error";
}

}  // namespace leat::model
