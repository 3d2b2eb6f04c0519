// `leat try`: a page on this machine where valves can be turned, until it is stopped.
#pragma once

#include "render/commands/farm_command.h"

namespace leat::render {

/// Serves the page until the process is told to end (SIGINT, SIGTERM). The address goes to
/// `terminal.announce` as soon as it is known, as text or as JSON; without one there is nobody to
/// tell and nothing is served.
class TryCommand final : public FarmCommand {
 public:
  [[nodiscard]] CommandHead head() const override;
  [[nodiscard]] CommandResult answer(const model::LoadedFarm& loaded,
                                     const Terminal& terminal) const override;

  bool no_browser = false;  // leaves the desktop's browser closed

 protected:
  [[nodiscard]] std::vector<Option> farm_options() override;
};

}  // namespace leat::render
