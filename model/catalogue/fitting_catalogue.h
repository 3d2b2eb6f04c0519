// Fittings: loss coefficient K on the pipe's own velocity head, each row with its source.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/farm/farm.h"
#include "model/quantity/quantity.h"

namespace leat::model {

/// One fitting of the catalogue. K = `k` where given, else `n_ft` times fT of the bore; where
/// neither is given (coupler, sudden changes of bore) K comes from the bores by a formula.
struct CatalogueFitting {
  std::string name;
  std::optional<double> k;
  std::optional<double> n_ft;
  bool one_way = false;
  bool foot_valve = false;          // holds the water of a line at its inlet
  std::optional<double> lifting_n;  // foot valves: lifting velocity [ft/s] = n sqrt(v), see source
  Length opening_head;              // spring checks
  Placement::Where default_place = Placement::Where::Spread;
  std::string source;
};

/// Every fitting, in the order `leat fittings` lists them.
[[nodiscard]] const std::vector<CatalogueFitting>& fitting_catalogue();

/// The row with that name (case and extra spaces do not matter), or nullptr. The rows whose name
/// holds BORE ("contraction from BORE", "expansion to BORE") are listed, never found: their K needs
/// the bore the user wrote (contraction_k, expansion_k).
[[nodiscard]] const CatalogueFitting* find_fitting(std::string_view name);

/// Whether a fitting of a farm is one of the catalogue's foot valves.
[[nodiscard]] bool is_foot_valve(const Fitting& fitting);

/// Friction factor of fully rough flow used with n fT, by bore: the C1 row (Crane TP-410, A-26) at
/// bores 15.8 .. 77.9 mm, straight between, constant outside.
[[nodiscard]] double ft_of_bore(Length bore);

/// K of one piece in a pipe of the given bore.
[[nodiscard]] double loss_coefficient(const CatalogueFitting& fitting, Length bore);

/// Velocity in the pipe below which a foot valve does not lift fully, none for other fittings:
/// n sqrt(v) ft/s with v = 1/62.4 ft3/lb (Crane TP-410 form, from memory), the same in every bore.
[[nodiscard]] std::optional<Velocity> lifting_velocity(const CatalogueFitting& fitting,
                                                       Length bore);

/// K of a sudden change of bore, on the velocity head of the pipe it is written in.
/// contraction: water comes from `other` (wider) into this bore: 0.5 (1 - b^2).
/// expansion: water goes from this bore into `other` (wider): (1 - b^2)^2 (Borda-Carnot).
/// Where `other` is the narrower one, the K on the narrow pipe's head is converted by (area)^2.
[[nodiscard]] double contraction_k(Length bore, Length other);
[[nodiscard]] double expansion_k(Length bore, Length other);

/// Least opening the published tables cover: gate 1/8 of the stem's travel, ball 1/3 (60 degrees
/// closed).
[[nodiscard]] double least_opening(ValveType type);

/// K of a part-open valve from the opening tables (Weisbach, from memory): ln K straight between
/// the points and to the fully open K (8 fT gate, 3 fT ball). `open` in [least_opening, 1];
/// outside it is taken as the nearest end. The gate's K at 7/8 (0.07) is below that of the fully
/// open valve: the two come from different sources, and the difference is of no account.
[[nodiscard]] double valve_loss_coefficient(ValveType type, double open, Length bore);

}  // namespace leat::model
