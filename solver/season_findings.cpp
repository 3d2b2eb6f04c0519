#include "solver/season_findings.h"
namespace leat::solver {
void find_season_findings(const model::Farm&,
                          const FarmStores&,
                          const SeasonOptions&,
                          const SeasonBooks&,
                          const std::vector<StoppedLine>&,
                          SeasonAnswer&) {}
}  // namespace leat::solver
