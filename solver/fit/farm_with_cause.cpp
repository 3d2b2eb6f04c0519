#include "solver/fit/farm_with_cause.h"

#include <cmath>
#include <utility>

#include "model/edit/put_cause.h"

namespace leat::solver {

namespace {

/// The cause as a farm file holds it; none where it has no key for it.
std::optional<model::CauseInFile> in_file(const FittedCause& cause) {
  const std::size_t index = cause.site.index;
  switch (cause.site.kind) {
    case CauseKind::BlockedScreen:
      return model::ExtraLoss{index, cause.size, model::Placement::Where::Start};
    case CauseKind::KinkedPipe:
      return model::ExtraLoss{index, cause.size, model::Placement::Where::Spread};
    case CauseKind::ValveNotOpen:
      return model::ValveStands{index, cause.size};
    case CauseKind::LevelWrong:
      return model::PlaceRaised{index, metres(cause.size)};
    case CauseKind::PipeEndWrong:
      return model::PipeEndRaised{index, metres(cause.size)};
    case CauseKind::WaterColder:
      return model::WaterCooled{cause.size};
    case CauseKind::SpringWeaker:
      return model::YieldLessened{index, cause.size};
    case CauseKind::SiltedPipe:
    case CauseKind::TrappedAir:
    case CauseKind::LeakAtTee:
      break;
  }
  return std::nullopt;
}

/// Whether the copy, read again, gives what the cause gave.
bool reads_alike(const model::Farm& copy, const FitAnswer& answer, const FittedCause& cause) {
  const ReadingModel model(copy, answer.spots, answer.answer.load_case);
  if (!model.is_solved()) {
    return false;
  }
  for (std::size_t i = 0; i < answer.spots.size(); ++i) {
    const double off = std::abs(model.as_filed()[i] - cause.computed[i]);
    if (off > 1e-3 * std::abs(cause.computed[i]) + 0.02 * answer.given[i].error) {
      return false;
    }
  }
  return true;
}

CopyWithCause refused(CopyRefusal why, std::string problem = {}) {
  return {"", std::nullopt, why, std::move(problem)};
}

}  // namespace

CopyWithCause farm_with_cause(const model::LoadedFarm& loaded, const FitAnswer& answer) {
  const FitResult& result = answer.result;
  if (result.verdict != FitVerdict::Explained || result.entries.empty()) {
    return refused(CopyRefusal::NothingExplains);
  }
  for (const FittedCause& cause : result.entries.front().causes) {
    const std::optional<model::CauseInFile> written = in_file(cause);
    std::optional<std::string> text =
        written ? model::text_with_cause(loaded, *written) : std::nullopt;
    if (!text) {
      continue;
    }
    const model::LoadedFarm again = model::load_farm(*text, loaded.farm->file);
    if (!again.farm) {
      return refused(CopyRefusal::NotSound, again.problems.front().text);
    }
    if (!reads_alike(*again.farm, answer, cause)) {
      return refused(CopyRefusal::ReadsOtherwise);
    }
    return {std::move(*text), cause.site, std::nullopt, ""};
  }
  return refused(CopyRefusal::CannotBeWritten);
}

}  // namespace leat::solver
