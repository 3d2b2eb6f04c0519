#include "solver/first_short.h"
namespace leat::solver {
void find_first_short(const model::Farm&, const SeasonOptions&, SeasonAnswer&) {}
}  // namespace leat::solver
