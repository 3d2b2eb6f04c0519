#include "render/commands/compare/command.h"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "model/keys/farm_file.h"
#include "render/commands/command_parts.h"
#include "render/commands/compare/compare_report.h"
#include "render/commands/season/season_dates.h"
#include "render/commands/solve/json_report.h"
#include "render/io/clock.h"
#include "render/words/diagnostic_text.h"
#include "render/words/findings_text.h"
#include "render/words/season_problems.h"
#include "solver/compare/compare.h"

namespace leat::render {

namespace {

/// Problems of several files: their sentences, and all of them for a script.
struct Troubles {
  std::string text;
  std::vector<model::Diagnostic> all;

  void add(const std::vector<model::Diagnostic>& problems, const model::LoadedFarm& loaded) {
    std::vector<model::Diagnostic> own;
    for (const model::Diagnostic& problem : problems) {
      model::Diagnostic here = model::placed(loaded, problem);
      // Variants share a base: what is wrong with it is told once.
      const bool told = std::any_of(all.begin(), all.end(), [&here](const auto& other) {
        return other.file == here.file && other.position == here.position &&
               other.code == here.code && other.text == here.text;
      });
      if (!told) {
        own.push_back(here);
        all.push_back(std::move(here));
      }
    }
    text += problems_text(own, loaded);
  }

  [[nodiscard]] CommandResult result(const CompareCommand& asked) const {
    CommandResult failed;
    failed.code = ExitCode::Failed;
    failed.err = text;
    if (asked.json) {
      failed.out = problems_json(std::string(asked.head().word), all);
    }
    return failed;
  }
};

bool is_amiss(const solver::Comparison& comparison) {
  return std::any_of(comparison.farms.begin(), comparison.farms.end(), [](const auto& found) {
    return render::is_amiss(found.flags);
  });
}

/// The first farm says which year it is, where nobody else does: all run through the same dates.
solver::CompareOptions compare_options(const CompareCommand& asked, const model::Farm& first) {
  solver::CompareOptions options;
  options.month = asked.month;
  options.units = asked.units;
  const model::Date today = model::parse_date(drawing_date()).value_or(model::Date{});
  const SeasonDates dates = season_dates(first, asked.span.from, asked.span.to, today);
  options.season.from = dates.from;
  options.season.to = dates.to;
  if (asked.span.step_s) {
    options.season.step_s = *asked.span.step_s;
  }
  return options;
}

}  // namespace

CommandHead CompareCommand::head() const {
  return {"compare",
          "Variants of a farm side by side: flows, dry hours, energy, upkeep, what differs.",
          "  leat compare before.yaml after.yaml\n"
          "  leat compare siphon.yaml ram.yaml pump.yaml --from 2026-05-01 --to 2026-10-31\n"};
}

std::vector<Option> CompareCommand::own_options() {
  std::vector<Option> options = span_options(span);
  options.insert(options.begin(),
                 {farm_files_argument(
                      "two farm files or more; the first is what the others differ from", files),
                  csv_option("farms", csv)});
  options.push_back(month_option(month));
  options.push_back(units_option(units));
  return options;
}

std::optional<UsageProblem> CompareCommand::check() const {
  if (auto problem = Command::check()) {
    return problem;
  }
  if (files.size() < 2) {
    return UsageProblem{std::nullopt,
                        "no-file",
                        "two farm files or more are wanted",
                        "write leat compare before.yaml after.yaml"};
  }
  return std::nullopt;
}

CommandResult CompareCommand::run(const Terminal& terminal) const {
  std::vector<model::LoadedFarm> loaded;
  Troubles troubles;
  for (const std::string& file : files) {
    loaded.push_back(model::load_farm_file(file));
    troubles.add(loaded.back().problems, loaded.back());
  }
  const bool all_read = std::all_of(
      loaded.begin(), loaded.end(), [](const auto& farm) { return farm.farm.has_value(); });
  if (!all_read) {
    return troubles.result(*this);
  }
  const std::vector<std::string> labels = labels_of(files);
  CompareView view;
  view.units = units.value_or(loaded.front().farm->show);
  std::vector<const model::Farm*> farms;
  for (std::size_t i = 0; i < loaded.size(); ++i) {
    farms.push_back(&*loaded[i].farm);
    view.files.push_back({files[i], labels[i], farms.back()});
  }
  // One system of units for all sentences, though the farms may show others.
  solver::CompareOptions options = compare_options(*this, *farms.front());
  options.units = view.units;
  const solver::Comparison comparison = solver::compare_farms(farms, options);
  view.comparison = &comparison;
  bool all_solved = true;
  for (std::size_t i = 0; i < loaded.size(); ++i) {
    const solver::ComparedFarm& compared = comparison.farms[i];
    std::vector<model::Diagnostic> problems = compared.problems;
    if (!compared.season_problems.empty()) {
      problems = season_diagnostics(compared.season_problems, farms[i]->file);
    }
    troubles.add(problems, loaded[i]);
    all_solved = all_solved && problems.empty();
  }
  if (!all_solved) {
    return troubles.result(*this);
  }
  CommandResult result;
  result.code = is_amiss(comparison) ? ExitCode::Amiss : ExitCode::NothingAmiss;
  result.err = troubles.text;
  if (json) {
    result.out = compare_json(view);
  } else if (csv) {
    result.out = compare_csv(view);
  } else {
    result.out = compare_table(view, terminal);
  }
  return result;
}

}  // namespace leat::render
