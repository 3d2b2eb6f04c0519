#include "solver/pipe_warmth.h"

#include "solver/hydraulics/pipe_rating.h"

namespace leat::solver {

std::optional<double> rating_share_of(const model::Pipe& pipe) {
  if (pipe.size.material == model::PipeMaterial::Steel) {
    return 1.0;
  }
  switch (pipe.lies) {
    case model::Lies::Unsaid:
    case model::Lies::Buried:
      return hydraulics::polyethylene_derating(celsius(20.0));
    case model::Lies::Grass:
      return hydraulics::polyethylene_derating(celsius(30.0));
    case model::Lies::Sun:
      return hydraulics::polyethylene_derating(celsius(50.0));
  }
  return 1.0;
}

}  // namespace leat::solver
