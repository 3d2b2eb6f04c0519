// `leat report`: the farm's record as one HTML file, and as PDF beside it.
#pragma once

#include <string>
#include <vector>

#include "render/commands/farm_command.h"
#include "render/commands/shared_options.h"

namespace leat::render {

/// Writes the report where it was asked for. Where a chapter has no answer or the PDF cannot be
/// printed, the HTML is written all the same, and the status is "failed".
class ReportCommand final : public FarmCommand {
 public:
  [[nodiscard]] CommandHead head() const override;
  [[nodiscard]] std::optional<UsageProblem> check() const override;
  [[nodiscard]] CommandResult answer(const model::LoadedFarm& loaded,
                                     const Terminal& terminal) const override;

  bool pdf = false;
  std::vector<std::string> chapters;  // empty: all
  SeasonSpan span;
  std::optional<model::Month> month;

 protected:
  [[nodiscard]] std::vector<Option> farm_options() override;
  [[nodiscard]] std::vector<std::string> files_written() const override;
};

}  // namespace leat::render
