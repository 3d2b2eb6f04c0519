// `leat solve`: who gets what, and what is wrong.
#pragma once

#include "render/commands/farm_command.h"
#include "render/commands/shared_options.h"

namespace leat::render {

enum class SolveTable { Places, Pipes, Flags };

class SolveCommand final : public FarmCommand {
 public:
  [[nodiscard]] CommandHead head() const override;
  [[nodiscard]] std::optional<UsageProblem> check() const override;
  [[nodiscard]] CommandResult answer(const model::LoadedFarm& loaded,
                                     const Terminal& terminal) const override;

  SolveTable table = SolveTable::Places;
  MomentAsked moment;
  SpreadAsked spread;
  bool verbose = false;
  bool audit = false;  // check the answer against the farm file

 protected:
  [[nodiscard]] std::vector<Option> farm_options() override;
};

}  // namespace leat::render
