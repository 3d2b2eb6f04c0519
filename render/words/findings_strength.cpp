#include <string>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "render/words/finding_themes.h"

namespace leat::render {

namespace {

/// "72 % of its 690 kPa rating, less for warmth"
std::string share_of_rating(const FindingTold& told, double share, double rating_Pa, bool derated) {
  return fmt::format("{:.0f} % of its {} rating{}",
                     100.0 * share,
                     told.pressure(rating_Pa),
                     derated ? ", less for warmth" : "");
}

std::string tank_advice(const FindingTold& told, const std::vector<double>& levels_m) {
  if (levels_m.empty()) {
    return "";
  }
  std::vector<std::string> levels;
  for (const double level_m : levels_m) {
    levels.push_back(told.level(level_m));
  }
  return levels.size() == 1
             ? fmt::format("a tank that breaks the pressure, near {}, or ", levels.front())
             : fmt::format("{} tanks that break the pressure, near {}, or ",
                           levels.size(),
                           fmt::join(levels, ", "));
}

std::string closing_words(const solver::Closing& closing) {
  switch (closing.kind) {
    case solver::Closing::Kind::Float:
      return fmt::format("the float of {}", closing.of);
    case solver::Closing::Kind::BallValve:
      return fmt::format("the ball valve of {}", closing.of);
    case solver::Closing::Kind::GateValve:
      return fmt::format("the gate valve of {}", closing.of);
  }
  return closing.of;
}

}  // namespace

std::string sentence(const FindingTold& told, const solver::OverRating& detail) {
  return fmt::format(
      "with everything shut {} sees {} at {} ({}); {} is the most it may see "
      "({}): {}stronger pipe in the dip",
      told.where(),
      told.pressure(told.value()),
      told.length(detail.spot.at_m),
      told.level(detail.spot.elevation_m),
      told.pressure(told.limit()),
      share_of_rating(told, detail.share, detail.rating_Pa, detail.derated),
      tank_advice(told, detail.tank_levels_m));
}

std::string sentence(const FindingTold& told, const solver::Surge& detail) {
  return fmt::format(
      "when {} shuts in {:g} s, {} knocks to {} ({} standing and {} more); {} "
      "is the most it may see ({}): shut it more "
      "slowly, or lay wider or stronger pipe",
      closing_words(detail.closing),
      detail.closing_s,
      told.where(),
      told.pressure(told.value()),
      told.pressure(detail.standing_Pa),
      told.pressure(detail.knock_Pa),
      told.pressure(told.limit()),
      share_of_rating(told, detail.share, detail.rating_Pa, detail.derated));
}

std::string sentence(const FindingTold& told, const solver::RatingAssumed& detail) {
  return fmt::format(
      "{} is sold in several ratings; the lowest, {}, is taken "
      "for {}: read the print on the pipe",
      detail.size,
      told.pressure(told.value()),
      told.where());
}

std::string sentence(const FindingTold& told, const solver::FastWater& /*detail*/) {
  return fmt::format(
      "water runs at {} in {}: fast for plastic pipe where "
      "nobody has worked out the knock of a closing valve",
      told.velocity(told.value()),
      told.where());
}

std::string sentence(const FindingTold& told, const solver::StrengthUnknown& detail) {
  using Rating = solver::StrengthUnknown::Rating;
  std::vector<std::string> unknown;
  if (detail.rating != Rating::Judged) {
    unknown.push_back(fmt::format("sees {} with everything shut and {}",
                                  told.pressure(told.value()),
                                  detail.rating == Rating::LostToWarmth
                                      ? "lies in the sun, where its rating does not hold"
                                      : "carries no rating"));
  }
  if (detail.knock_unknown) {
    unknown.emplace_back("is shut by a float or valve whose knock cannot be worked out");
  }
  if (detail.suction_Pa) {
    unknown.push_back(
        fmt::format("stands {} under suction, and whether it sucks flat cannot be "
                    "worked out",
                    told.pressure(*detail.suction_Pa)));
  }
  const bool wall_wanted = detail.knock_unknown || detail.suction_Pa;
  return fmt::format("{} {}{}",
                     told.where(),
                     fmt::join(unknown, ", it "),
                     wall_wanted ? ": give its size a wall and a modulus" : "");
}

std::string sentence(const FindingTold& told, const solver::SuckedFlat& detail) {
  const bool danger = told.finding().severity == solver::Severity::Danger;
  return fmt::format(
      "{} stands {} under suction at {}; {} of suction, kept up for a "
      "season, flattens so thin a pipe: {} here. Stronger pipe, or a "
      "lower course, on the suction side",
      told.where(),
      told.pressure(detail.suction_Pa),
      told.length(detail.at_m),
      told.pressure(detail.flattens_Pa),
      danger ? "it sucks flat" : "less than twice what it sees");
}

std::string sentence(const FindingTold& told, const solver::FilledOverRating& detail) {
  return fmt::format(
      "filled to the summit with both ends shut {} stands under {} at {}; {} is "
      "the most it may see",
      told.where(),
      told.pressure(told.value()),
      told.length(detail.at_m),
      told.pressure(told.limit()));
}

std::string sentence(const FindingTold& told, const solver::PumpTooStrong& /*detail*/) {
  return fmt::format(
      "a fill pump that can give {} puts more on {} than it may bear: "
      "{} at the lower end is the most. Pour by hand, or use a weaker "
      "pump",
      told.pressure(told.value()),
      told.where(),
      told.pressure(told.limit()));
}

}  // namespace leat::render
