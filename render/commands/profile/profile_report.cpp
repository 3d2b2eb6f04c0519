#include "render/commands/profile/profile_report.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "model/quantity/spoken_amount.h"
#include "render/commands/profile/profile_columns.h"
#include "render/commands/solve/answer_json.h"
#include "render/document/text_table.h"
#include "render/words/findings_text.h"
#include "render/words/number_text.h"
#include "render/words/profile_words.h"

namespace leat::render {

namespace {

using solver::ProfileMark;
using solver::ProfilePoint;

/// Heads nearer than this look the same in every table [m].
constexpr double same_figure_m = 5e-4;

bool reads_the_same(const std::optional<double>& a, const std::optional<double>& b) {
  return a.has_value() == b.has_value() && (!a || std::abs(*a - *b) < same_figure_m);
}

bool has_figures_of(const ProfilePoint& point, const ProfilePoint& before) {
  return point.pipe == before.pipe &&
         std::abs(point.distance_m - before.distance_m) < same_figure_m &&
         reads_the_same(point.elevation_m, before.elevation_m) &&
         reads_the_same(point.running_head_m, before.running_head_m) &&
         reads_the_same(point.static_head_m, before.static_head_m);
}

/// Whether a row would only say again what the one before it says.
bool repeats(const ProfilePoint& point, const ProfilePoint& before) {
  return point.mark == ProfileMark::None && has_figures_of(point, before);
}

/// The words of a high point and of the bleed it wants, one row for both; empty for other points.
/// A run against the pipe's direction meets the bleed first.
std::string joint_words(const model::Farm& farm,
                        const ProfilePoint& point,
                        const ProfilePoint& before) {
  const bool is_pair = (point.mark == ProfileMark::Bleed) != (before.mark == ProfileMark::Bleed) &&
                       before.mark != ProfileMark::None;
  if (!is_pair || !has_figures_of(point, before)) {
    return "";
  }
  const bool bleed_first = before.mark == ProfileMark::Bleed;
  return fmt::format("{}, {}",
                     mark_words(farm, bleed_first ? point : before),
                     mark_words(farm, bleed_first ? before : point));
}

/// The pipe's name stands in the first of its rows alone.
const std::vector<Shown<ProfilePointRow>>& shown_columns() {
  static const std::vector<Shown<ProfilePointRow>> shown = {
      {"pipe", "pipe"},
      {"distance", "distance_m"},
      {"level", "elevation_m"},
      {"running", "running_head_m"},
      {"static", "static_head_m"},
      {"pressure", "pressure_kPa"},
      {"absolute", "absolute_head_m"},
      {"", "mark", [](const ProfilePointRow& row, model::UnitSystem) {
         return mark_words(row.farm, row.point);
       }}};
  return shown;
}

std::string legs_text(const model::Farm& farm,
                      const solver::Profile& profile,
                      model::UnitSystem units,
                      int width) {
  std::string text = wrapped(fmt::format("profile of {}", run_words(farm, profile)), width, 0);
  for (const solver::ProfileLeg& leg : profile.legs) {
    const model::Pipe& pipe = farm.pipes[leg.leg.pipe];
    const double flow = profile.answer.pipes[leg.leg.pipe].flow_m3_s;
    const std::string water =
        flow == 0.0 ? "no flow"
                    : solver::spoken_flow(std::abs(flow), units) +
                          ((flow < 0.0) != leg.leg.against ? ", running back along the run" : "");
    text += wrapped(fmt::format("{}: {} of {}, {}",
                                pipe.name,
                                solver::spoken_length(in_metres(pipe.length), units),
                                pipe.size.text,
                                water),
                    width,
                    2);
  }
  return text;
}

/// What the table's columns leave to guess, where water runs: a reader who takes the level from
/// the running head does not come out at the pressure.
std::string columns_text(const solver::Profile& profile, int width) {
  const bool runs = std::any_of(
      profile.legs.begin(), profile.legs.end(), [&profile](const solver::ProfileLeg& leg) {
        return profile.answer.pipes[leg.leg.pipe].flow_m3_s != 0.0;
      });
  return runs ? wrapped("running includes the water's velocity head, pressure and absolute do not",
                        width,
                        2)
              : "";
}

std::string remarks_text(const solver::Profile& profile, model::UnitSystem units, int width) {
  std::string text;
  for (const std::string& sentence : profile_sentences(profile, units)) {
    text += wrapped(sentence, width, 2);
  }
  return text.empty() ? "" : '\n' + text;
}

std::string elsewhere_text(const std::vector<solver::Finding>& whole,
                           const std::vector<solver::Finding>& on_run,
                           int width) {
  const auto amiss = [](const std::vector<solver::Finding>& findings) {
    return std::count_if(findings.begin(), findings.end(), [](const solver::Finding& finding) {
      return finding.severity != solver::Severity::Note;
    });
  };
  const auto count = amiss(whole) - amiss(on_run);
  if (count == 0) {
    return "";
  }
  return wrapped(fmt::format("Elsewhere on the farm {} amiss: see leat solve.",
                             count == 1 ? "1 thing is" : fmt::format("{} things are", count)),
                 width,
                 0);
}

}  // namespace

TextTable profile_points(const model::Farm& farm,
                         const solver::Profile& profile,
                         model::UnitSystem units) {
  const Columns<ProfilePointRow>& columns = profile_point_columns();
  TextTable table{screen_headings(columns, shown_columns()), {}};
  const ProfilePoint* before = nullptr;
  for (const ProfilePoint& point : profile.points) {
    if (before != nullptr && repeats(point, *before)) {
      continue;
    }
    const std::string joint = before == nullptr ? "" : joint_words(farm, point, *before);
    if (!joint.empty()) {
      table.rows.back().back() = joint;
      before = before->mark == ProfileMark::Bleed ? &point : before;
      continue;
    }
    const bool same_pipe = before != nullptr && before->pipe == point.pipe;
    table.rows.push_back(
        screen_cells(columns, shown_columns(), ProfilePointRow{farm, point}, units));
    if (same_pipe) {
      table.rows.back().front().clear();
    }
    before = &point;
  }
  return table;
}

std::vector<std::string> profile_sentences(const solver::Profile& profile,
                                           model::UnitSystem units) {
  std::vector<std::string> sentences;
  const auto distance = [units](double along_m) {
    return fmt::format("{} {}", length_number_text(metres(along_m), units), length_unit(units));
  };
  for (const solver::ProfileSummit& summit : profile.summits) {
    sentences.push_back(fmt::format("{} at {}, level {}: {}",
                                    summit_word(summit),
                                    distance(summit.distance_m),
                                    solver::spoken_level(summit.summit.elevation_m, units),
                                    summit_words(summit.summit, units)));
  }
  for (const solver::PartFullReach& reach : profile.reaches) {
    sentences.push_back(fmt::format("from {} to {}: {}",
                                    distance(reach.from_m),
                                    distance(reach.to_m),
                                    reach_words(reach, units)));
  }
  for (const solver::ProfileLeg& leg : profile.legs) {
    if (leg.rating_head_m) {
      sentences.push_back(fmt::format("from {} to {} the pipe may carry {} of water at rest",
                                      distance(leg.from_m),
                                      distance(leg.to_m),
                                      solver::spoken_length(*leg.rating_head_m, units)));
    }
  }
  return sentences;
}

std::string profile_table(const model::Farm& farm,
                          const solver::Profile& profile,
                          const TableOptions& options,
                          const Terminal& terminal) {
  const int width = text_width(terminal);
  const std::vector<solver::Finding> on_run = findings_on_run(farm, profile);
  return answer_heading(farm, profile.answer, options, terminal) +
         legs_text(farm, profile, options.units, width) +
         table_below(profile_points(farm, profile, options.units)) + columns_text(profile, width) +
         remarks_text(profile, options.units, width) +
         findings_text(
             on_run, {options.units, options.detail, profile.answer.load_case}, terminal) +
         elsewhere_text(profile.answer.flags, on_run, width);
}

std::string profile_json(const model::Farm& farm,
                         const solver::Profile& profile,
                         const std::string& written,
                         model::UnitSystem units) {
  Json object = head_of_answer("profile", farm, profile.answer);
  object["wrote"] = written.empty() ? Json(nullptr) : Json(written);
  object["points"] = json_rows(profile_point_columns(), profile_point_rows(farm, profile));
  object["part_full"] = json_rows(part_full_columns(), profile.reaches);
  object["flags"] = flag_list(profile.answer.flags, units);
  return json_text(object);
}

std::string profile_csv(const model::Farm& farm, const solver::Profile& profile) {
  return csv_text(profile_point_columns(), profile_point_rows(farm, profile));
}

}  // namespace leat::render
