// `leat improve`: what one change, or two, would help a trough most.
#pragma once

#include <string>

#include "render/commands/farm_command.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

/// Tries every single change of the farm and prints them, best first. The exit status is that of
/// the farm as it is.
class ImproveCommand final : public FarmCommand {
 public:
  [[nodiscard]] CommandHead head() const override;
  [[nodiscard]] CommandResult answer(const model::LoadedFarm& loaded,
                                     const Terminal& terminal) const override;

  std::optional<std::string> place;  // whom to help; the worst off when absent
  solver::LoadCase load_case = solver::LoadCase::Needs;
  std::optional<model::Month> month;
  bool sensitivities = false;  // what small changes do as well
  bool verbose = false;

 protected:
  [[nodiscard]] std::vector<Option> farm_options() override;
};

}  // namespace leat::render
