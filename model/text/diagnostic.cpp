#include "model/text/diagnostic.h"

namespace leat::model {

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
