// All that a page shows of a farm at one moment, as one JSON object.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "render/document/json_text.h"
#include "render/page/live_farm.h"
#include "render/page/page_view.h"

namespace leat::render {

/// Which form the schematic of this farm took, so that a turned valve does not lay it out anew in
/// every form.
class DrawnForm {
 public:
  [[nodiscard]] std::optional<std::size_t> known_for(const model::Farm& farm) const;
  void remember(const model::Farm& farm, std::size_t form);

 private:
  static std::string shape_of(const model::Farm& farm);
  std::string shape_;
  std::size_t form_ = 0;
};

/// The object of OUTPUT.md, "try": who gets what, what is wrong, the schematic, what can be changed
/// and what was. Where there is no answer, `problem` says why and `svg` is null.
/// `new_name` is a name for the file that its changes may be saved to.
[[nodiscard]] Json page_state(const FarmMoment& moment,
                              const PageView& view,
                              const std::string& new_name,
                              DrawnForm& form);

}  // namespace leat::render
