#include "render/cli/parse.h"

#include <vector>

#include <catch2/catch.hpp>

#include "render/commands/catalogues/command.h"
#include "render/commands/draw/command.h"
#include "render/commands/prime/command.h"
#include "render/commands/read/command.h"
#include "render/commands/solve/command.h"
#include "tests/render/asked.h"

namespace leat::render {

TEST_CASE("a full solve command is understood word by word") {
  const auto command = asked<SolveCommand>({"solve",
                                            "--case",
                                            "wide",
                                            "farm.yaml",
                                            "--broken=north trough",
                                            "--month",
                                            "Aug",
                                            "--units",
                                            "metric",
                                            "--verbose"});
  CHECK(command->file == "farm.yaml");
  CHECK(command->moment.load_case == solver::LoadCase::Wide);
  CHECK(command->moment.broken == "north trough");
  CHECK(command->moment.month == model::Month::Aug);
  CHECK(command->units == model::UnitSystem::Metric);
  CHECK(command->verbose);
  CHECK(command->form() == AnswerForm::Screen);
}

TEST_CASE("plain --csv does not swallow the file that follows it") {
  const auto plain = asked<SolveCommand>({"solve", "--csv", "farm.yaml"});
  CHECK(plain->file == "farm.yaml");
  CHECK(plain->form() == AnswerForm::Csv);
  CHECK(plain->table == SolveTable::Places);
  CHECK(asked<SolveCommand>({"solve", "farm.yaml", "--csv=pipes"})->table == SolveTable::Pipes);
  CHECK(asked<SolveCommand>({"solve", "farm.yaml", "--csv=flags"})->table == SolveTable::Flags);
  CHECK(asked<ReadCommand>({"read", "farm.yaml", "--csv"})->form() == AnswerForm::Csv);
  CHECK(asked<PipesCommand>({"pipes", "--csv"})->form() == AnswerForm::Csv);
  CHECK(asked<SolveCommand>({"solve", "--", "--csv"})->file == "--csv");
}

TEST_CASE("plain --spread takes the word after it only if that is a number") {
  const auto plain = asked<SolveCommand>({"solve", "--spread", "farm.yaml"});
  CHECK(plain->file == "farm.yaml");
  CHECK(plain->spread.draws == 1000);
  CHECK(plain->spread.seed_or_usual() == 1);
  const auto counted =
      asked<SolveCommand>({"solve", "--spread", "20", "farm.yaml", "--seed", "9007199254740991"});
  CHECK(counted->spread.draws == 20);
  CHECK(counted->spread.seed == 9007199254740991U);
  CHECK(usage_problem({"solve", "a.yaml", "--spread=0"}).hint ==
        "write a whole number from 1 to 100000");
  CHECK(usage_problem({"solve", "a.yaml", "--seed", "3"}).code == "flags-clash");
}

TEST_CASE("a drawing may go to stdout") {
  CHECK(asked<DrawCommand>({"draw", "farm.yaml", "-o", "-"})->output.is_stdout());
  CHECK(asked<DrawCommand>({"draw", "farm.yaml", "-o", "a.pdf", "--replace"})->output.existing ==
        ExistingFile::Replace);
}

TEST_CASE("a priming command takes a pipe, a filling rate and a pump") {
  const auto command = asked<PrimeCommand>(
      {"prime", "farm.yaml", "creek line", "--fill", "6 L/min", "--pump=2 bar"});
  CHECK(command->file == "farm.yaml");
  CHECK(command->pipe == "creek line");
  CHECK(in_litres_per_second(command->fill.value()) == Approx(0.1));
  CHECK(in_kilopascals(command->pump.value()) == Approx(200.0));
  CHECK_FALSE(asked<PrimeCommand>({"prime", "farm.yaml"})->pipe.has_value());
  CHECK(usage_problem({"prime"}).code == "no-file");
  CHECK(usage_problem({"prime", "a.yaml", "--fill", "3"}).hint == "write 3 gal/min or 3 L/min");
  CHECK(usage_problem({"prime", "a.yaml", "--fill", "0 L/min"}).code == "bad-value");
  CHECK(usage_problem({"prime", "a.yaml", "--pump", "20 ft"}).code == "bad-value");
  CHECK(usage_problem({"prime", "a.yaml", "--csv"}).code == "unknown-flag");
  CHECK(usage_problem({"prime", "a.yaml", "b", "c"}).code == "extra-argument");
}

TEST_CASE("a misspelt command or flag is answered with the nearest word") {
  CHECK(usage_problem({"slove", "farm.yaml"}).hint == "did you mean 'solve'?");
  const UsageProblem flag = usage_problem({"solve", "farm.yaml", "--brocken=north"});
  CHECK(flag.code == "unknown-flag");
  CHECK(flag.text == "'leat solve' has no flag '--brocken'");
  CHECK(flag.hint == "did you mean '--broken'?");
  CHECK(usage_problem({"read", "farm.yaml", "--case", "wide"}).code == "unknown-flag");
}

TEST_CASE("what cannot be followed is refused before any file is read") {
  CHECK(usage_problem({}).code == "no-command");
  CHECK(usage_problem({"--json", "solve"}).code == "no-command");
  CHECK(usage_problem({"solve"}).code == "no-file");
  CHECK(usage_problem({"solve", "a.yaml", "b.yaml"}).code == "extra-argument");
  CHECK(usage_problem({"solve", "a.yaml", "--case", "dry"}).code == "bad-value");
  CHECK(usage_problem({"solve", "a.yaml", "--month", "August"}).code == "bad-value");
  CHECK(usage_problem({"solve", "a.yaml", "--units", "imperial"}).code == "bad-value");
  CHECK(usage_problem({"solve", "a.yaml", "--csv=tees"}).code == "bad-value");
  CHECK(usage_problem({"solve", "a.yaml", "--case"}).text == "--case wants a value");
  CHECK(usage_problem({"solve", "a.yaml", "--case", "wide", "--case", "needs"}).code ==
        "repeated-flag");
  CHECK(usage_problem({"solve", "a.yaml", "--json", "--csv"}).code == "flags-clash");
  CHECK(usage_problem({"draw", "a.yaml"}).code == "no-output");
  CHECK(usage_problem({"draw", "a.yaml", "-o", "-", "--json"}).code == "flags-clash");
  CHECK(usage_problem({"profile", "a.yaml", "-o", "-", "--csv"}).code == "flags-clash");
  CHECK(usage_problem({"profile", "a.yaml", "--csv=pipes"}).code == "bad-value");
  CHECK(usage_problem({"profile", "a.yaml", "line", "more"}).code == "extra-argument");
  CHECK(usage_problem({"pipes", "a.yaml"}).code == "extra-argument");
}

namespace {

std::string explanation(const std::vector<std::string>& arguments) {
  return std::get<Explanation>(parse_command_line(arguments)).text;
}

}  // namespace

TEST_CASE("help names every command, and each command's help its flags and examples") {
  const std::string overview = explanation({"--help"});
  for (const char* const word :
       {"new", "read", "solve", "draw", "profile", "pipes", "fittings", "herd"}) {
    CAPTURE(word);
    CHECK(overview.find(std::string("  ") + word) != std::string::npos);
    const std::string help = explanation({word, "--help"});
    CHECK(help.find("--json") != std::string::npos);
    CHECK(help.find("Examples:") != std::string::npos);
    CHECK(help.find("Exit status:") != std::string::npos);
  }
  CHECK(explanation({"--version"}).find("JSON format 1") != std::string::npos);
}

TEST_CASE("the flag --json is seen anywhere but not behind the end of flags") {
  const std::vector<std::string> with = {"slove", "--json"};
  const std::vector<std::string> behind = {"solve", "--", "--json"};
  CHECK(asks_for_json(with));
  CHECK_FALSE(asks_for_json(behind));
}

}  // namespace leat::render
