// What the audit of an answer found, in words.
#pragma once

#include <string>

#include "solver/audit/audit.h"

namespace leat::render {

/// The report in one line, without a line end.
[[nodiscard]] std::string audit_sentence(const solver::AuditReport& report);

}  // namespace leat::render
