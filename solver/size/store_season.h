// How much a trough or tank must hold, found by running a season with it larger and smaller.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "model/farm/date.h"
#include "model/farm/farm.h"

namespace leat::solver {

/// Runs stretches of one month, by the hour, of a farm whose other stores are as the file has them.
/// Every store begins full. A volume carries where no trough below the store goes short that an
/// ample store keeps supplied.
class StoreSeason {
 public:
  /// The month falls in the year of which the farm's records know most of its days, else in a
  /// common year; floats do not break. The farm must outlive this.
  StoreSeason(const model::Farm& farm, model::Month month);

  /// Least volume [m3] of the trough or tank that carries the whole month, to 2 %; 0 where none is
  /// needed, none where no volume up to 40 days' amount keeps anything supplied.
  [[nodiscard]] std::optional<double> for_the_month_m3(std::size_t place) const;
  /// The same for `days` in which nothing comes in (a trough's own line shut; of a tank every
  /// spring and creek dry), at the month's beginning or its end, whichever asks for more.
  [[nodiscard]] std::optional<double> without_inflow_m3(std::size_t place, int days) const;

 private:
  struct Stretch {
    model::Date from;
    model::Date to;
    bool is_cut = false;  // nothing comes into the place
  };
  [[nodiscard]] std::optional<double> least_m3(std::size_t place, const Stretch& stretch) const;
  /// By place: whether it is a trough or outlet that is short on no day.
  [[nodiscard]] std::vector<bool> supplied(std::size_t place,
                                           const Stretch& stretch,
                                           double volume_m3) const;

  const model::Farm& farm_;
  model::Date first_;
  model::Date last_;
};

}  // namespace leat::solver
