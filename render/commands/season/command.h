// `leat season`: the farm run through its dates, printed, drawn.
#pragma once

#include <string>

#include "render/commands/farm_command.h"
#include "render/commands/shared_options.h"
#include "solver/answer/season_answer.h"

namespace leat::render {

enum class SeasonTable { Troughs, Tanks, Ponds, Levels, Balance };

/// Tells how far the run is on `terminal.progress` where there is one.
class SeasonCommand final : public FarmCommand {
 public:
  [[nodiscard]] CommandHead head() const override;
  [[nodiscard]] std::optional<UsageProblem> check() const override;
  [[nodiscard]] CommandResult answer(const model::LoadedFarm& loaded,
                                     const Terminal& terminal) const override;

  SeasonTable table = SeasonTable::Troughs;
  SeasonSpan span;
  std::optional<std::string> until_dry;  // spring whose yield is lowered
  SpreadAsked spread;

 protected:
  [[nodiscard]] std::vector<Option> farm_options() override;
};

/// What the command prints of an answer; `dates_chosen` says why these dates were taken.
[[nodiscard]] CommandResult season_result(const SeasonCommand& asked,
                                          const model::LoadedFarm& loaded,
                                          const solver::SeasonAnswer& answer,
                                          const std::string& dates_chosen,
                                          const Terminal& terminal);

}  // namespace leat::render
