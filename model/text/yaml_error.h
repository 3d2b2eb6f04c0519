// What a YAML parser's complaint means for the person who wrote the file.
#pragma once

#include <string_view>

#include "model/text/problem_list.h"
#include "model/text/text_scan.h"

namespace leat::model {

/// Reports that the text is no YAML, at the place where the slip probably is: the quote or bracket
/// that is never closed, the missing space after a colon, else where the parser stopped.
void report_yaml_error(std::string_view parser_message,
                       SourcePosition position,
                       const ColumnCounter& columns,
                       const TextScan& scan,
                       ProblemList& problems);

}  // namespace leat::model
