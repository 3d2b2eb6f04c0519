#include "render/commands/compare/compare_command.h"

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
#include "render/words/season_findings.h"
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

  [[nodiscard]] CommandResult result(const CommandLine& line) const {
    CommandResult failed;
    failed.code = ExitCode::Failed;
    failed.err = text;
    if (line.form == OutputForm::Json) {
      failed.out = problems_json("compare", all);
    }
    return failed;
  }
};

bool is_amiss(const solver::Comparison& comparison) {
  return std::any_of(comparison.farms.begin(), comparison.farms.end(), [](const auto& found) {
    return std::any_of(found.flags.begin(), found.flags.end(), [](const solver::Flag& flag) {
      return flag.severity != solver::FlagSeverity::Note;
    });
  });
}

/// The first farm says which year it is, where nobody else does: all run through the same dates.
solver::CompareOptions compare_options(const CommandLine& line, const model::Farm& first) {
  solver::CompareOptions options;
  options.month = line.month;
  options.units = line.units;
  const model::Date today = model::parse_date(drawing_date()).value_or(model::Date{});
  const SeasonDates dates = season_dates(first, line.from, line.to, today);
  options.season.from = dates.from;
  options.season.to = dates.to;
  if (line.step_s) {
    options.season.step_s = *line.step_s;
  }
  return options;
}

}  // namespace

CommandResult compare_command(const CommandLine& line, const Terminal& terminal) {
  std::vector<model::LoadedFarm> loaded;
  Troubles troubles;
  for (const std::string& file : line.files) {
    loaded.push_back(model::load_farm_file(file));
    troubles.add(loaded.back().problems, loaded.back());
  }
  const bool all_read = std::all_of(
      loaded.begin(), loaded.end(), [](const auto& farm) { return farm.farm.has_value(); });
  if (!all_read) {
    return troubles.result(line);
  }
  const std::vector<std::string> labels = labels_of(line.files);
  CompareView view;
  view.units = line.units.value_or(loaded.front().farm->show);
  std::vector<const model::Farm*> farms;
  for (std::size_t i = 0; i < loaded.size(); ++i) {
    farms.push_back(&*loaded[i].farm);
    view.files.push_back({line.files[i], labels[i], farms.back()});
  }
  // One system of units for all sentences, though the farms may show others.
  solver::CompareOptions options = compare_options(line, *farms.front());
  options.units = view.units;
  solver::Comparison comparison = solver::compare_farms(farms, options);
  for (solver::ComparedFarm& compared : comparison.farms) {
    put_season_texts(compared.flags, view.units);
  }
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
    return troubles.result(line);
  }
  CommandResult result;
  result.code = is_amiss(comparison) ? ExitCode::Amiss : ExitCode::NothingAmiss;
  result.err = troubles.text;
  if (line.form == OutputForm::Json) {
    result.out = compare_json(view);
  } else if (line.form == OutputForm::CsvFarms) {
    result.out = compare_csv(view);
  } else {
    result.out = compare_table(view, terminal);
  }
  return result;
}

}  // namespace leat::render
