#include "solver/findings/pipe_strength.h"

#include "solver/hydraulics/pipe_rating.h"
#include "solver/hydraulics/pressure_wave.h"
#include "solver/hydraulics/ring_collapse.h"

namespace leat::solver {

namespace {

/// By its modulus a wall of unknown stuff is told apart: polyethylene stays below, steel above.
constexpr double stiffest_polyethylene_Pa = 2e9;
constexpr double stiffest_plastic_Pa = 10e9;
/// PVC keeps about half its modulus over decades of load: from memory.
constexpr double pvc_season_share = 0.5;
/// Running water cools a pipe that lies in the sun: taken as the warmest that ratings go to.
constexpr double sunny_while_running_C = 40.0;
constexpr double sunny_while_still_C = 50.0;

Temperature warmth_of(model::Lies lies, bool is_still) {
  switch (lies) {
    case model::Lies::Unsaid:
    case model::Lies::Buried:
      return celsius(20.0);
    case model::Lies::Grass:
      return celsius(30.0);
    case model::Lies::Sun:
      return celsius(is_still ? sunny_while_still_C : sunny_while_running_C);
  }
  return celsius(20.0);
}

enum class Stuff { Polyethylene, Pvc, Metal };

Stuff stuff_of(const model::PipeSize& size) {
  switch (size.material) {
    case model::PipeMaterial::Polyethylene:
      return Stuff::Polyethylene;
    case model::PipeMaterial::Pvc:
      return Stuff::Pvc;
    case model::PipeMaterial::Steel:
      return Stuff::Metal;
    case model::PipeMaterial::Hose:
    case model::PipeMaterial::SuctionHose:
    case model::PipeMaterial::Unknown:
      break;
  }
  const double modulus_Pa = size.modulus ? in_pascals(*size.modulus) : 0.0;
  return modulus_Pa < stiffest_polyethylene_Pa ? Stuff::Polyethylene
         : modulus_Pa < stiffest_plastic_Pa    ? Stuff::Pvc
                                               : Stuff::Metal;
}

/// What is left of the modulus after a season of load at 20 C.
double season_modulus_Pa(const model::PipeSize& size) {
  const double modulus_Pa = in_pascals(*size.modulus);
  switch (stuff_of(size)) {
    case Stuff::Polyethylene:
      // Of pipe known to be polyethylene the class value; of other soft pipe the same share.
      return size.material == model::PipeMaterial::Polyethylene
                 ? hydraulics::season_modulus_Pa
                 : modulus_Pa * hydraulics::season_modulus_Pa / hydraulics::instant_modulus_Pa;
    case Stuff::Pvc:
      return modulus_Pa * pvc_season_share;
    case Stuff::Metal:
      break;
  }
  return modulus_Pa;
}

}  // namespace

PipeStrength strength_of(const model::Pipe& pipe) {
  const model::PipeSize& size = pipe.size;
  PipeStrength strength;
  if (size.wall) {
    strength.wall_m = in_metres(*size.wall);
  }
  if (size.modulus) {
    strength.modulus_Pa = in_pascals(*size.modulus);
  }
  if (size.rating) {
    strength.rating_Pa = in_pascals(*size.rating);
  }
  strength.derating = size.material == model::PipeMaterial::Steel
                          ? std::optional<double>(1.0)
                          : hydraulics::polyethylene_derating(warmth_of(pipe.lies, true));
  if (size.material == model::PipeMaterial::Polyethylene) {
    strength.surge_share = hydraulics::polyethylene_surge_share;
  }
  return strength;
}

std::optional<double> wave_speed_in(const model::Pipe& pipe, double density_kg_m3) {
  if (!pipe.size.wall || !pipe.size.modulus) {
    return std::nullopt;
  }
  return hydraulics::wave_speed_m_s(density_kg_m3,
                                    in_pascals(*pipe.size.modulus),
                                    in_metres(pipe.size.bore),
                                    in_metres(*pipe.size.wall));
}

std::optional<double> collapse_suction_Pa(const model::Pipe& pipe, bool is_still) {
  const model::PipeSize& size = pipe.size;
  if (size.material == model::PipeMaterial::SuctionHose || !size.wall || !size.modulus) {
    return std::nullopt;
  }
  const double wall_m = in_metres(*size.wall);
  const double outside_m = size.outside_diameter ? in_metres(*size.outside_diameter)
                                                 : in_metres(size.bore) + 2.0 * wall_m;
  const double warm = stuff_of(size) == Stuff::Metal
                          ? 1.0
                          : hydraulics::warm_modulus_share(warmth_of(pipe.lies, is_still));
  return hydraulics::ring_buckling_Pa(season_modulus_Pa(size) * warm, outside_m / wall_m) *
         hydraulics::ovality_share(hydraulics::usual_ovality);
}

}  // namespace leat::solver
