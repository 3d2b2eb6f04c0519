#include "render/commands/report/report.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "render/commands/report/chapters.h"
#include "render/commands/season/season_dates.h"
#include "render/commands/solve/spread_report.h"
#include "render/io/clock.h"
#include "render/io/progress.h"
#include "render/words/findings_text.h"
#include "render/words/season_problems.h"
#include "solver/season/season.h"
#include "solver/steady/steady.h"
#include "solver/uncertainty/spread.h"
#include "version.h"

namespace leat::render::report {

namespace {

class ReportMaker {
 public:
  ReportMaker(const model::LoadedFarm& loaded, const ReportOptions& options)
      : loaded_(loaded),
        farm_(*loaded.farm),
        options_(options),
        units_(options.units.value_or(farm_.show)) {}

  Report make() {
    solver::SteadyOptions steady;
    steady.month = options_.month;
    report_.answer = solver::solve_steady(farm_, steady);
    if (!report_.answer.converged) {
      return std::move(report_);
    }
    report_.flags = report_.answer.flags;
    report_.amiss = is_amiss(report_.flags);
    Subject subject{loaded_, farm_, report_.answer, units_, drawing_date()};
    if (is_wanted("season")) {
      run_the_season(subject);
      subject.season = season_.converged ? &season_ : nullptr;
    }
    Page page;
    page.title = farm_.name;
    page.date = subject.date;
    page.colophon = fmt::format("Made by leat {} from {}; the figures hold for that file alone.",
                                program_version,
                                without_folder(farm_.file));
    for (const std::string_view name : chapter_names) {
      if (is_wanted(name)) {
        report_.chapters.emplace_back(name);
        page.chapters.push_back(chapter(name, subject, steady));
      }
    }
    report_.html = page_html(page);
    return std::move(report_);
  }

 private:
  [[nodiscard]] bool is_wanted(std::string_view name) const {
    const std::vector<std::string>& asked = options_.chapters;
    return asked.empty() || name == "cautions" ||
           std::find(asked.begin(), asked.end(), name) != asked.end();
  }

  Chapter chapter(std::string_view name,
                  const Subject& subject,
                  const solver::SteadyOptions& steady) {
    if (name == "season") {
      return season_chapter(subject, season_, dates_chosen_);
    }
    if (name == "spread") {
      return spread(subject, steady);
    }
    using Writer = Chapter (*)(const Subject&);
    constexpr std::array<std::pair<std::string_view, Writer>, 10> writers = {
        {{"farm", farm_chapter},
         {"schematic", schematic_chapter},
         {"water", water_chapter},
         {"findings", findings_chapter},
         {"profiles", profiles_chapter},
         {"priming", priming_chapter},
         {"materials", materials_chapter},
         {"measurements", measurements_chapter},
         {"cautions", cautions_chapter},
         {"file", file_chapter}}};
    return std::find_if(writers.begin(),
                        writers.end(),
                        [name](const auto& writer) { return writer.first == name; })
        ->second(subject);
  }

  void run_the_season(const Subject& subject) {
    const model::Date today = model::parse_date(subject.date).value_or(model::Date{});
    const SeasonDates dates = season_dates(farm_, options_.from, options_.to, today);
    solver::SeasonOptions season;
    season.from = dates.from;
    season.to = dates.to;
    dates_chosen_ = dates.chosen;
    solver::SeasonAnswer& answer = season_;
    {
      ProgressLine progress(options_.progress, "season");
      answer = solver::run_season(farm_, season, [&progress](double share) {
        progress.tell(share);
        return true;
      });
    }
    if (answer.converged) {
      report_.flags.insert(report_.flags.end(), answer.flags.begin(), answer.flags.end());
      report_.amiss = report_.amiss || is_amiss(answer.flags);
    } else {
      for (model::Diagnostic& problem : season_diagnostics(answer.problems, farm_.file)) {
        report_.problems.push_back(std::move(problem));
      }
    }
  }

  Chapter spread(const Subject& subject, const solver::SteadyOptions& steady) {
    solver::SpreadOptions options;
    options.steady = steady;
    const solver::Spread found = solver::spread_of(farm_, options);
    report_.amiss = report_.amiss || exit_code_of(found) != ExitCode::NothingAmiss;
    return spread_chapter(subject, found);
  }

  const model::LoadedFarm& loaded_;
  const model::Farm& farm_;
  const ReportOptions& options_;
  model::UnitSystem units_;
  Report report_;
  solver::SeasonAnswer season_;
  std::string dates_chosen_;
};

}  // namespace

Report make_report(const model::LoadedFarm& loaded, const ReportOptions& options) {
  return ReportMaker(loaded, options).make();
}

}  // namespace leat::render::report
