// `leat fit`: what explains that less was measured.
#pragma once

#include "render/commands/farm_command.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// Explains the farm's measurements; with `--write` also writes a copy of the file with the
/// likeliest cause in it.
class FitCommand final : public FarmCommand {
 public:
  [[nodiscard]] CommandHead head() const override;
  [[nodiscard]] std::optional<UsageProblem> check() const override;
  [[nodiscard]] CommandResult answer(const model::LoadedFarm& loaded,
                                     const Terminal& terminal) const override;

  // A trough is measured with its float held down.
  solver::LoadCase load_case = solver::LoadCase::Wide;
  std::optional<model::Month> month;

 protected:
  [[nodiscard]] std::vector<Option> farm_options() override;
};

}  // namespace leat::render
