#include "render/cli/command_line.h"

#include <vector>

#include <catch2/catch.hpp>

namespace leat::render {

namespace {

ParsedCommandLine parse(const std::vector<std::string>& arguments) {
  return parse_command_line(arguments);
}

UsageProblem problem_of(const std::vector<std::string>& arguments) {
  const ParsedCommandLine parsed = parse(arguments);
  REQUIRE(std::holds_alternative<UsageProblem>(parsed));
  return std::get<UsageProblem>(parsed);
}

CommandLine line_of(const std::vector<std::string>& arguments) {
  const ParsedCommandLine parsed = parse(arguments);
  REQUIRE(std::holds_alternative<CommandLine>(parsed));
  return std::get<CommandLine>(parsed);
}

}  // namespace

TEST_CASE("a full solve command is understood word by word") {
  const CommandLine line = line_of({"solve",
                                    "--case",
                                    "wide",
                                    "farm.yaml",
                                    "--broken=north trough",
                                    "--month",
                                    "Aug",
                                    "--units",
                                    "metric",
                                    "--verbose"});
  CHECK(line.command == Command::Solve);
  CHECK(line.file == "farm.yaml");
  CHECK(line.load_case == solver::LoadCase::Wide);
  CHECK(line.broken == "north trough");
  CHECK(line.month == model::Month::Aug);
  CHECK(line.units == model::UnitSystem::Metric);
  CHECK(line.detail == Detail::Verbose);
  CHECK(line.form == OutputForm::Table);
}

TEST_CASE("plain --csv does not swallow the file that follows it") {
  const CommandLine line = line_of({"solve", "--csv", "farm.yaml"});
  CHECK(line.file == "farm.yaml");
  CHECK(line.form == OutputForm::CsvPlaces);
  CHECK(line_of({"solve", "farm.yaml", "--csv=pipes"}).form == OutputForm::CsvPipes);
  CHECK(line_of({"solve", "farm.yaml", "--csv=flags"}).form == OutputForm::CsvFlags);
  CHECK(line_of({"read", "farm.yaml", "--csv"}).form == OutputForm::CsvPipes);
  CHECK(line_of({"pipes", "--csv"}).form == OutputForm::CsvCatalogue);
  CHECK(line_of({"solve", "--", "--csv"}).file == "--csv");
}

TEST_CASE("a drawing may go to stdout") {
  const CommandLine line = line_of({"draw", "farm.yaml", "-o", "-"});
  CHECK(line.output == "-");
  CHECK(line_of({"draw", "farm.yaml", "-o", "a.pdf", "--replace"}).existing ==
        ExistingFile::Replace);
}

TEST_CASE("a priming command takes a pipe, a filling rate and a pump") {
  const CommandLine line =
      line_of({"prime", "farm.yaml", "creek line", "--fill", "6 L/min", "--pump=2 bar"});
  CHECK(line.command == Command::Prime);
  CHECK(line.file == "farm.yaml");
  CHECK(line.pipe == "creek line");
  CHECK(in_litres_per_second(line.fill.value()) == Approx(0.1));
  CHECK(in_kilopascals(line.pump.value()) == Approx(200.0));
  CHECK_FALSE(line_of({"prime", "farm.yaml"}).pipe.has_value());
  CHECK(problem_of({"prime"}).code == "no-file");
  CHECK(problem_of({"prime", "a.yaml", "--fill", "3"}).hint == "write 3 gal/min or 3 L/min");
  CHECK(problem_of({"prime", "a.yaml", "--fill", "0 L/min"}).code == "bad-value");
  CHECK(problem_of({"prime", "a.yaml", "--pump", "20 ft"}).code == "bad-value");
  CHECK(problem_of({"prime", "a.yaml", "--csv"}).code == "unknown-flag");
  CHECK(problem_of({"prime", "a.yaml", "b", "c"}).code == "extra-argument");
}

TEST_CASE("a misspelt command or flag is answered with the nearest word") {
  CHECK(problem_of({"slove", "farm.yaml"}).hint == "did you mean 'solve'?");
  const UsageProblem flag = problem_of({"solve", "farm.yaml", "--brocken=north"});
  CHECK(flag.code == "unknown-flag");
  CHECK(flag.text == "'leat solve' has no flag '--brocken'");
  CHECK(flag.hint == "did you mean '--broken'?");
  CHECK(problem_of({"read", "farm.yaml", "--case", "wide"}).code == "unknown-flag");
}

TEST_CASE("what cannot be followed is refused before any file is read") {
  CHECK(problem_of({}).code == "no-command");
  CHECK(problem_of({"--json", "solve"}).code == "no-command");
  CHECK(problem_of({"solve"}).code == "no-file");
  CHECK(problem_of({"solve", "a.yaml", "b.yaml"}).code == "extra-argument");
  CHECK(problem_of({"solve", "a.yaml", "--case", "dry"}).code == "bad-value");
  CHECK(problem_of({"solve", "a.yaml", "--month", "August"}).code == "bad-value");
  CHECK(problem_of({"solve", "a.yaml", "--units", "imperial"}).code == "bad-value");
  CHECK(problem_of({"solve", "a.yaml", "--csv=tees"}).code == "bad-value");
  CHECK(problem_of({"solve", "a.yaml", "--case"}).text == "--case wants a value");
  CHECK(problem_of({"solve", "a.yaml", "--case", "wide", "--case", "needs"}).code ==
        "repeated-flag");
  CHECK(problem_of({"solve", "a.yaml", "--json", "--csv"}).code == "flags-clash");
  CHECK(problem_of({"draw", "a.yaml"}).code == "no-output");
  CHECK(problem_of({"draw", "a.yaml", "-o", "-", "--json"}).code == "flags-clash");
  CHECK(problem_of({"profile", "a.yaml", "-o", "-", "--csv"}).code == "flags-clash");
  CHECK(problem_of({"profile", "a.yaml", "--csv=pipes"}).code == "bad-value");
  CHECK(problem_of({"profile", "a.yaml", "line", "more"}).code == "extra-argument");
  CHECK(problem_of({"pipes", "a.yaml"}).code == "extra-argument");
}

TEST_CASE("help names every command, and each command's help its flags and examples") {
  const std::string overview = std::get<Explanation>(parse({"--help"})).text;
  for (const char* const word :
       {"new", "read", "solve", "draw", "profile", "pipes", "fittings", "herd"}) {
    CAPTURE(word);
    CHECK(overview.find(std::string("  ") + word) != std::string::npos);
    const std::string help = std::get<Explanation>(parse({word, "--help"})).text;
    CHECK(help.find("--json") != std::string::npos);
    CHECK(help.find("Examples:") != std::string::npos);
    CHECK(help.find("Exit status:") != std::string::npos);
  }
  CHECK(std::get<Explanation>(parse({"--version"})).text.find("JSON format 1") !=
        std::string::npos);
}

TEST_CASE("the flag --json is seen anywhere but not behind the end of flags") {
  const std::vector<std::string> with = {"slove", "--json"};
  const std::vector<std::string> behind = {"solve", "--", "--json"};
  CHECK(asks_for_json(with));
  CHECK_FALSE(asks_for_json(behind));
}

}  // namespace leat::render
