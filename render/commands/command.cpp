#include "render/commands/command.h"

#include <iterator>

#include "render/commands/option_kinds.h"

namespace leat::render {

std::vector<Option> Command::options() {
  std::vector<Option> all = {
      switch_option({"-h", "--help"}, "this text", help),
      switch_option({"--json"}, "print JSON: SI, the unit in each key", json)};
  std::vector<Option> own = own_options();
  std::move(own.begin(), own.end(), std::back_inserter(all));
  return all;
}

std::optional<UsageProblem> Command::check() const {
  if (json && csv) {
    return flags_clash("--json and --csv cannot both be had", "");
  }
  return std::nullopt;
}

AnswerForm Command::form() const {
  if (json) {
    return AnswerForm::Json;
  }
  return csv ? AnswerForm::Csv : AnswerForm::Screen;
}

}  // namespace leat::render
