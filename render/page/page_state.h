// All that a page shows of a farm at one moment, as one JSON object.
#pragma once

#include <cstddef>
#include <mutex>
#include <optional>
#include <string>

#include "render/document/json_text.h"
#include "render/page/live_farm.h"
#include "render/page/page_view.h"

namespace leat::render {

/// Which form the schematic of this farm took, so that a turned valve does not lay it out anew in
/// every form. May be used by several threads.
class DrawnForm {
 public:
  [[nodiscard]] std::optional<std::size_t> known_for(const model::Farm& farm);
  void remember(const model::Farm& farm, std::size_t form);

 private:
  static std::string shape_of(const model::Farm& farm);
  std::mutex mutex_;
  std::string shape_;
  std::size_t form_ = 0;
};

/// The object of OUTPUT.md, "try": who gets what, what is wrong, the schematic, what can be changed
/// and what was. Where there is no answer, `problem` says why and `svg` is null.
[[nodiscard]] Json page_state(const FarmMoment& moment, const PageView& view, DrawnForm& form);

/// What `leat solve --json` prints of the same text.
[[nodiscard]] std::string page_answer(const FarmMoment& moment, const PageView& view);

}  // namespace leat::render
