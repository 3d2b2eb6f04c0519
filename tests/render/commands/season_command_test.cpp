// The season's command line, its dates, its progress, its files.
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "render/cli/run.h"
#include "render/commands/season/command.h"
#include "render/commands/season/season_dates.h"
#include "render/io/gnuplot.h"
#include "render/io/progress.h"
#include "tests/render/asked.h"
#include "tests/render/sample_season.h"
#include "tests/render/temporary_folder.h"

namespace leat::render {

namespace {

model::LoadedFarm loaded_farm() {
  model::LoadedFarm loaded;
  loaded.farm = season_farm();
  return loaded;
}

CommandResult result_of(const std::vector<std::string>& arguments,
                        const solver::SeasonAnswer& answer) {
  return season_result(*asked<SeasonCommand>(arguments), loaded_farm(), answer, "", Terminal{});
}

}  // namespace

TEST_CASE("a season's dates and step are understood") {
  const auto command = asked<SeasonCommand>({"season",
                                             "farm.yaml",
                                             "--from",
                                             "2026-05-01",
                                             "--to=2026-10-31",
                                             "--step",
                                             "15 min",
                                             "--until-dry",
                                             "upper",
                                             "--units",
                                             "US"});
  CHECK(command->file == "farm.yaml");
  CHECK(command->span.from == model::Date{2026, 5, 1});
  CHECK(command->span.to == model::Date{2026, 10, 31});
  CHECK(command->span.step_s == Approx(900.0));
  CHECK(command->until_dry == "upper");
  CHECK(asked<SeasonCommand>({"season", "a", "--step", "1h"})->span.step_s == Approx(3600.0));
  CHECK(asked<SeasonCommand>({"season", "a", "--step", "1 day"})->span.step_s == Approx(86400.0));
  CHECK_FALSE(asked<SeasonCommand>({"season", "a"})->span.step_s.has_value());
  CHECK(asked<SeasonCommand>({"season", "--csv", "a"})->table == SeasonTable::Troughs);
  CHECK(asked<SeasonCommand>({"season", "a", "--csv=tanks"})->table == SeasonTable::Tanks);
  CHECK(asked<SeasonCommand>({"season", "a", "--csv=ponds"})->table == SeasonTable::Ponds);
  CHECK(asked<SeasonCommand>({"season", "a", "--csv=levels"})->table == SeasonTable::Levels);
  CHECK(asked<SeasonCommand>({"season", "a", "--csv=balance"})->table == SeasonTable::Balance);
}

TEST_CASE("a bad date or step is answered with how to write it") {
  for (const char* const date :
       {"May 1", "2026-5-1", "01.05.2026", "2026-02-30", "2026/05/01", "yesterday"}) {
    INFO(date);
    const UsageProblem problem = usage_problem({"season", "a", "--from", date});
    CHECK(problem.code == "bad-value");
    CHECK(problem.hint.find("2026-08-14") != std::string::npos);
  }
  CHECK(usage_problem({"season", "a", "--from", "2026-05-01", "--to", "2026-04-30"}).code ==
        "bad-value");
  CHECK(usage_problem({"season", "a", "--step", "1"}).code == "bad-value");
  CHECK(usage_problem({"season", "a", "--step", "30 s"}).hint.find("1 min") != std::string::npos);
  CHECK(usage_problem({"season", "a", "--step", "8 day"}).code == "bad-value");
  CHECK(usage_problem({"season", "a", "--csv=places"}).hint.find("--csv=troughs") !=
        std::string::npos);
  CHECK(usage_problem({"season"}).code == "no-file");
  CHECK(usage_problem({"season", "a", "--json", "-o", "-"}).code == "flags-clash");
}

TEST_CASE("a season without its last day ends with the year") {
  const model::Date today{2031, 3, 9};
  const model::Farm farm = season_farm();
  const SeasonDates open = season_dates(farm, model::Date{2026, 5, 1}, std::nullopt, today);
  CHECK(open.from == model::Date{2026, 5, 1});
  CHECK(open.to == model::Date{2026, 12, 31});
  const SeasonDates back = season_dates(farm, std::nullopt, model::Date{2026, 5, 1}, today);
  CHECK(back.from == model::Date{2026, 1, 1});
  CHECK(back.to == model::Date{2026, 5, 1});
}

TEST_CASE("a season without dates takes the year the farm file speaks of, else this year") {
  const model::Date today{2031, 3, 9};
  model::Farm farm = season_farm();
  CHECK(season_dates(farm, std::nullopt, std::nullopt, today).from == model::Date{2031, 1, 1});
  model::Measurement measured;
  measured.on = model::Date{2024, 8, 14};
  farm.measured = {measured};
  CHECK(season_dates(farm, std::nullopt, std::nullopt, today).to == model::Date{2024, 12, 31});
  std::get<model::Spring>(farm.places[0].data).yield_record = {
      {{2022, 1, 1}, litres_per_second(1.0)}, {{2023, 1, 1}, litres_per_second(1.0)}};
  CHECK(season_dates(farm, std::nullopt, std::nullopt, today).from == model::Date{2023, 1, 1});
  farm.weather = model::Weather{};
  model::WeatherDay day;
  day.on = {2025, 6, 1};
  farm.weather->days = {day};
  CHECK(season_dates(farm, std::nullopt, std::nullopt, today).from == model::Date{2025, 1, 1});
  farm.breaks = {{2, {2026, 8, 10}, {}}};
  const SeasonDates dates = season_dates(farm, std::nullopt, std::nullopt, today);
  CHECK(dates.from == model::Date{2026, 1, 1});
  CHECK(dates.chosen == "the year in which a float breaks");
}

TEST_CASE("an unknown spring to run dry is named with the nearest one") {
  const auto command = asked<SeasonCommand>({"season", "a", "--until-dry", "uper", "--json"});
  const CommandResult result = command->answer(loaded_farm(), Terminal{});
  CHECK(result.code == ExitCode::Failed);
  CHECK(result.err.find("did you mean 'upper'?") != std::string::npos);
  const auto json = nlohmann::json::parse(result.out);
  CHECK(json["command"] == "season");
  CHECK(json["problems"][0]["code"] == "unknown-place");
  command->until_dry = "north";  // a trough
  CHECK(command->answer(loaded_farm(), Terminal{}).code == ExitCode::Failed);
}

TEST_CASE("a picture of an unknown kind is refused before the season runs") {
  const auto command = asked<SeasonCommand>({"season", "a", "-o", "season.docx"});
  const CommandResult result = command->answer(loaded_farm(), Terminal{});
  CHECK(result.code == ExitCode::Failed);
  CHECK(result.err.find(".svg, .pdf or .png") != std::string::npos);
}

TEST_CASE("the exit status of a season tells whether something is amiss") {
  CHECK(result_of({"season", "a"}, season_answer()).code == ExitCode::Amiss);
  solver::SeasonAnswer well = season_answer();
  well.flags[0].severity = solver::Severity::Note;
  CHECK(result_of({"season", "a"}, well).code == ExitCode::NothingAmiss);
  well.converged = false;
  const CommandResult failed = result_of({"season", "a", "--json"}, well);
  CHECK(failed.code == ExitCode::Failed);
  CHECK(failed.err.find("no balance was found") != std::string::npos);
  CHECK(nlohmann::json::parse(failed.out)["converged"] == false);
  CHECK(nlohmann::json::parse(failed.out)["problems"][0]["code"] == "not-solved");
}

TEST_CASE("a season's picture comes beside its table and not over another file") {
  if (!run_gnuplot("set terminal svg\nplot [0:1] x\n").problem.empty()) {
    WARN("gnuplot is not there");
    return;
  }
  const TemporaryFolder folder;
  const std::string file = folder.file("season.svg");
  const CommandResult first = result_of({"season", "a", "-o", file}, season_answer());
  CHECK(first.code == ExitCode::Amiss);
  CHECK(first.err == "wrote " + file + "\n");
  CHECK(first.out.find("Short of water: north") != std::string::npos);
  CHECK(std::filesystem::file_size(file) > 1000);
  const CommandResult again = result_of({"season", "a", "-o", file}, season_answer());
  CHECK(again.code == ExitCode::Failed);
  CHECK(result_of({"season", "a", "-o", file, "--replace"}, season_answer()).code ==
        ExitCode::Amiss);
  const CommandResult on_screen = result_of({"season", "a", "-o", "-"}, season_answer());
  CHECK(on_screen.out.substr(0, 5) == "<?xml");
}

TEST_CASE("progress is told in place after a second and wiped at the end") {
  double now_s = 100.0;
  std::ostringstream terminal;
  {
    ProgressLine line(&terminal, "season", [&now_s] { return now_s; });
    line.tell(0.1);
    now_s = 100.9;
    line.tell(0.2);
    CHECK(terminal.str().empty());
    now_s = 101.5;
    line.tell(0.31);
    CHECK(terminal.str() == "\r\x1b[Kleat: season, 31 % done");
    line.tell(0.312);  // the same figure is not written again
    CHECK(terminal.str() == "\r\x1b[Kleat: season, 31 % done");
    line.tell(7.0);
    CHECK(terminal.str().find("100 %") != std::string::npos);
    CHECK(terminal.str().find('\n') == std::string::npos);
  }
  const std::string wipe = "\r\x1b[K";
  CHECK(terminal.str().substr(terminal.str().size() - wipe.size()) == wipe);
}

TEST_CASE("progress is quiet where there is no terminal and on a short run") {
  double now_s = 0.0;
  std::ostringstream terminal;
  {
    ProgressLine none(nullptr, "season", [&now_s] { return now_s; });
    ProgressLine quick(&terminal, "season", [&now_s] { return now_s; });
    quick.tell(0.5);
    now_s = 50.0;
    none.tell(0.5);
  }
  CHECK(terminal.str().empty());
  CHECK(Terminal{}.progress == nullptr);
}

}  // namespace leat::render
