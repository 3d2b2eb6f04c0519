// Which pipes meet at a place, found once, so that walks over the farm need not look at every pipe.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "model/farm/farm.h"

namespace leat::solver {

/// The pipes of each place of a farm. A ram's drive pipe ends in the open air: it is not among
/// those of the place where the ram stands, so that no walk comes back up through it.
class PipesByPlace {
 public:
  PipesByPlace() = default;
  explicit PipesByPlace(const model::Farm& farm);

  /// Indexes of the pipes that start or end at a place, in the order of the farm.
  [[nodiscard]] std::span<const std::size_t> at(std::size_t place) const {
    return std::span(pipes_).subspan(first_[place], first_[place + 1] - first_[place]);
  }

 private:
  std::vector<std::size_t> first_;  // by place, and one more: where its pipes begin in `pipes_`
  std::vector<std::size_t> pipes_;
};

/// The places that rows of pipes, however long, join to those marked; the marked ones with them.
/// One mark a place of the farm, before and after.
[[nodiscard]] std::vector<bool> joined_by_pipes(const model::Farm& farm, std::vector<bool> marked);

}  // namespace leat::solver
