// `leat profile`: a pipe or a run of pipes from the side, printed or drawn.
#pragma once

#include <string>

#include "render/commands/farm_command.h"
#include "render/commands/shared_options.h"

namespace leat::render {

class ProfileCommand final : public FarmCommand {
 public:
  [[nodiscard]] CommandHead head() const override;
  [[nodiscard]] std::optional<UsageProblem> check() const override;
  [[nodiscard]] CommandResult answer(const model::LoadedFarm& loaded,
                                     const Terminal& terminal) const override;

  std::optional<std::string> pipes;  // a pipe or "FROM..TO"; the telling pipe when absent
  MomentAsked moment;

 protected:
  [[nodiscard]] std::vector<Option> farm_options() override;
};

}  // namespace leat::render
