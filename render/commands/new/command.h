// `leat new`: a commented starter farm.
#pragma once

#include <string>

#include "render/commands/command.h"
#include "render/commands/output_target.h"

namespace leat::render {

class NewCommand final : public Command {
 public:
  [[nodiscard]] CommandHead head() const override;
  [[nodiscard]] std::optional<UsageProblem> check() const override;
  [[nodiscard]] CommandResult run(const Terminal& terminal) const override;

  OutputTarget farm;    // nowhere means stdout
  bool schema = false;  // the schema beside the file

 protected:
  [[nodiscard]] std::vector<Option> own_options() override;
};

}  // namespace leat::render
