#include "solver/audit/static_laws.h"

namespace leat::solver::audit {

namespace {

class StaticLaws : private Checker {
 public:
  explicit StaticLaws(Case& audited) : Checker(audited) {}

  void check() {
    double highest_m = -1e300;
    for (const model::Place& place : farm_.places) {
      if (const auto own = static_level_m(place)) {
        highest_m = std::max(highest_m, *own);
      }
    }
    for (const model::Pump& pump : farm_.pumps) {
      const auto& [flow, head] = pump.curve.front();
      const auto& [next_flow, next_head] = pump.curve[1];
      const double fall = in_metres(head - next_head) / (next_flow - flow).in_si();
      highest_m += std::max(0.0, in_metres(head) + fall * flow.in_si());  // each at no flow
    }
    for (const model::Ram& ram : farm_.rams) {
      const model::Pipe& drive = farm_.pipes[ram.drive];
      const double level_m =
          in_metres(ram.level.value_or(model::to_end_level(farm_, drive, answer_.month)));
      highest_m = std::max(highest_m, level_m + 26.0 * (highest_m - level_m));
    }
    for (std::size_t i = 0; i < farm_.places.size(); ++i) {
      const PlaceAnswer& said = answer_.places[i];
      const std::string& name = farm_.places[i].name;
      ++report_.balances;
      check_limit(said.delivered_m3_s == 0.0, name, AuditLaw::DeliveredWhileShut);
      if (const auto own = static_level_m(farm_.places[i])) {
        check_limit(
            said.head_m && std::abs(*said.head_m - *own) <= 1e-9, name, AuditLaw::NotAtItsLevel);
      } else if (said.head_m) {
        check_limit(*said.head_m <= highest_m + 1e-9, name, AuditLaw::AboveEveryWater);
      }
      check_place_pressure(i);
    }
    for (std::size_t i = 0; i < farm_.pipes.size(); ++i) {
      check_static_pipe(i);
    }
  }

 private:
  [[nodiscard]] std::optional<double> static_level_m(const model::Place& place) const {
    if (const auto* tank = std::get_if<model::Tank>(&place.data)) {
      return in_metres(tank->floor + tank->full);
    }
    return given_surface_m(place, answer_.month);
  }

  /// Still water stands as high behind a pipe as before it, unless open water or a vent's top lets
  /// it fall to its own level.
  void check_static_pipe(std::size_t i) {
    const model::Pipe& pipe = farm_.pipes[i];
    ++report_.pipes;
    check_limit(answer_.pipes[i].flow_m3_s == 0.0, pipe.name, AuditLaw::RunsWhileShut);
    const bool is_shut = pipe.valve && pipe.valve->shut;
    const bool is_lifted = std::any_of(farm_.rams.begin(),
                                       farm_.rams.end(),
                                       [&](const model::Ram& ram) { return ram.delivery == i; });
    if (is_shut || is_lifted || parts_[i].topped_vents() > 0 ||
        parts_[i].from.kind != PipeMouth::Kind::Place ||
        parts_[i].to.kind != PipeMouth::Kind::Place) {
      return;
    }
    const std::optional<double>& from = answer_.places[pipe.from].head_m;
    const std::optional<double>& to = answer_.places[pipe.to].head_m;
    const bool has_own_level = model::is_open_water(farm_.places[pipe.to]);
    if (from && !has_own_level) {
      check_limit(to && *to >= *from - 1e-9, pipe.name, AuditLaw::StillNotAtEnd);
    }
    const bool feeds_back = !parts_[i].is_one_way() && !pipe.regulator;
    if (to && feeds_back && !model::is_open_water(farm_.places[pipe.from])) {
      check_limit(from && *from >= *to - 1e-9, pipe.name, AuditLaw::StillNotAtStart);
    }
  }
};

}  // namespace

void check_static(Case& audited) {
  StaticLaws(audited).check();
}

}  // namespace leat::solver::audit
