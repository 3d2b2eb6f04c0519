#include "solver/hydraulics/ring_collapse.h"

#include <algorithm>
#include <cmath>

namespace leat::hydraulics {

double ring_buckling_Pa(double modulus_Pa, double dimension_ratio) {
  return 2.0 * modulus_Pa / (1.0 - poisson_ratio * poisson_ratio) /
         std::pow(dimension_ratio - 1.0, 3.0);
}

double ring_buckling_older_Pa(double modulus_Pa, double dimension_ratio) {
  return 2.32 * modulus_Pa / std::pow(dimension_ratio, 3.0);
}

double ovality_share(double ovality) {
  return std::pow((1.0 - ovality) / ((1.0 + ovality) * (1.0 + ovality)), 3.0);
}

double warm_modulus_share(Temperature temperature) {
  return std::exp2(-std::max(0.0, in_celsius(temperature) - 20.0) / 20.0);
}

}  // namespace leat::hydraulics
