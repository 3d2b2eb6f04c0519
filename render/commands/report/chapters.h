// The chapters of a report, a file each. Every one turns an answer into plain values (page.h).
#pragma once

#include <string>
#include <string_view>

#include "model/keys/farm_file.h"
#include "render/commands/season/season_report.h"
#include "render/document/document.h"
#include "solver/answer/season_answer.h"
#include "solver/answer/steady_answer.h"
#include "solver/uncertainty/spread.h"

namespace leat::render::report {

/// What every chapter is about. The answer has converged; all must outlive the call.
struct Subject {
  const model::LoadedFarm& loaded;
  const model::Farm& farm;
  const solver::SteadyAnswer& answer;
  model::UnitSystem units = model::UnitSystem::Metric;
  std::string date;                              // of the report
  const solver::SeasonAnswer* season = nullptr;  // converged; none where the report has no season
};

/// Farm, datum, who measured with what, site, month.
[[nodiscard]] Chapter farm_chapter(const Subject& subject);
/// The drawing of `leat draw`.
[[nodiscard]] Chapter schematic_chapter(const Subject& subject);
/// Who gets what, where it comes from, what pumps and rams do.
[[nodiscard]] Chapter water_chapter(const Subject& subject);
/// What is flagged, over all load cases, and what was assumed.
[[nodiscard]] Chapter findings_chapter(const Subject& subject);
/// Every pipe with a summit from the side; where none has one, the pipe most worth a look.
[[nodiscard]] Chapter profiles_chapter(const Subject& subject);
/// The farm run through its dates. The season may have failed.
[[nodiscard]] Chapter season_chapter(const Subject& subject,
                                     const solver::SeasonAnswer& season,
                                     const std::string& dates_chosen);
/// How every line that does not fill by itself is primed.
[[nodiscard]] Chapter priming_chapter(const Subject& subject);
/// Pipes with their true bores; what there is to buy.
[[nodiscard]] Chapter materials_chapter(const Subject& subject);
/// What was measured beside what is computed.
[[nodiscard]] Chapter measurements_chapter(const Subject& subject);
/// Low, likely and high.
[[nodiscard]] Chapter spread_chapter(const Subject& subject, const solver::Spread& spread);
/// What to mind, whom to ask, what leat does not know.
[[nodiscard]] Chapter cautions_chapter(const Subject& subject);
/// The farm file itself, and what it is based on.
[[nodiscard]] Chapter file_chapter(const Subject& subject);

// Pieces that several chapters use.

/// "a, b and c" of a count and its noun: "1 pond", "3 ponds".
[[nodiscard]] std::string counted(std::size_t count, std::string_view noun);
/// A name without the folders it stands in: a record does not tell where on a machine it was made.
[[nodiscard]] std::string without_folder(const std::string& file);
/// "no gnuplot (install it)": what is wrong and, where that is known, how it is mended.
[[nodiscard]] std::string problem_and_hint(const std::string& problem, const std::string& hint);
/// A picture, or the sentence that says why there is none.
[[nodiscard]] Block picture_or_reason(const std::string& bytes,
                                      const std::string& problem,
                                      const std::string& prefix,
                                      const std::string& name,
                                      const std::string& words);

}  // namespace leat::render::report
