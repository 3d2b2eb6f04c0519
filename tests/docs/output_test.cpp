// render/OUTPUT.md: every command, flag, key, column, state and code is told there, and what it
// shows is what leat prints.
#include <algorithm>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "model/keys/farm_file.h"
#include "render/cli/parse.h"
#include "render/commands/registry.h"
#include "render/page/live_farm.h"
#include "render/page/page_state.h"
#include "solver/findings/states.h"
#include "tests/docs/shown_runs.h"
#include "tests/render/run_words.h"

namespace leat::tests {

namespace {

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;
using Names = std::set<std::string>;
using Words = std::vector<std::string>;

const std::string output_page = "render/OUTPUT.md";

/// Sections that hold for the JSON of every command: what objects begin with, flags, problems.
const std::string general = "JSON in general";

/// The section that tells a command's JSON, and a run of it on each demo farm.
struct TellingRun {
  std::string section;
  Words before;  // the farm
  Words after;
};

const std::vector<TellingRun> runs_on_a_farm = {
    {"`read --json`", {"read"}, {}},
    {"`solve --json`", {"solve"}, {}},
    {"`solve --json`", {"solve"}, {"--case", "static"}},
    {"`solve --spread --json`", {"solve"}, {"--spread", "20"}},
    {"`prime --json`", {"prime"}, {}},
    {"`season`", {"season"}, {"--from", "2026-08-01", "--to", "2026-08-03"}},
    {"`season`", {"season"}, {"--from", "2026-08-01", "--to", "2026-08-02", "--spread", "2"}},
    {"`improve --json`", {"improve"}, {"--sensitivities"}},
    {"`size --json`", {"size"}, {}},
    {"`fit --json`", {"fit"}, {}},
    {"`profile`", {"profile"}, {}},
    {"`map FILE -o OUT`", {"map"}, {"-o", "out.geojson", "--replace"}},
    {"`report`", {"report"}, {"-o", "out.html", "--replace", "--chapters", "water"}},
    {"`draw --json`", {"draw"}, {"-o", "out.dot", "--replace"}},
};

const std::vector<TellingRun> runs_without_a_farm = {
    {"`new`, `pipes`, `fittings`, `herd`", {"new"}, {}},
    {"`new`, `pipes`, `fittings`, `herd`", {"pipes"}, {}},
    {"`new`, `pipes`, `fittings`, `herd`", {"fittings"}, {}},
    {"`new`, `pipes`, `fittings`, `herd`", {"herd"}, {}},
};

/// No farm of the tour has a pump.
const char* const with_pump = R"(farm: sun pump
creeks: {brook: {surface: 10 m}}
tanks: {tank: {floor: 20 m, full: 4 m, diameter: 6 m, depth: 1 m}}
troughs: {trough: {float: 15 m, need: 2000 L/day}}
pumps: {lift: {from: brook, to: tank, curve: [[0 L/min, 30 m], [20 L/min, 5 m]], runs: 6 h/day}}
pipes: {down: {from: tank, to: trough, size: 1 in SIDR 15, length: 60 m}}
)";

std::vector<std::string> demo_farms() {
  std::vector<std::string> farms;
  for (const fs::directory_entry& entry : fs::directory_iterator("networks-demo")) {
    if (entry.path().extension() == ".yaml") {
      farms.push_back("networks-demo/" + entry.path().filename().string());
    }
  }
  std::sort(farms.begin(), farms.end());
  return farms;
}

void collect_keys(const Json& node, Names& keys) {
  if (node.is_object()) {
    for (const auto& [key, value] : node.items()) {
      keys.insert(key);
      collect_keys(value, keys);
    }
  } else if (node.is_array()) {
    for (const Json& one : node) {
      collect_keys(one, keys);
    }
  }
}

/// Whether a text holds a name as a word of its own.
bool holds_word(const std::string& text, const std::string& word) {
  const auto is_part = [](char letter) {
    return std::isalnum(static_cast<unsigned char>(letter)) != 0 || letter == '_';
  };
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    const std::size_t end = at + word.size();
    const bool starts = at == 0 || !is_part(text[at - 1]);
    if (starts && (end == text.size() || !is_part(text[end]))) {
      return true;
    }
  }
  return false;
}

/// A section without its examples, which hold every key anyway.
std::string told_in(const std::string& heading) {
  std::string told;
  bool inside = false;
  for (const std::string& line : lines_of(section(document(output_page), heading))) {
    const bool is_fence = line.starts_with("```");
    inside = inside != is_fence;
    told += inside || is_fence ? "" : line + "\n";
  }
  INFO(heading);
  REQUIRE(!told.empty());
  return told;
}

/// Where the keys of a section's JSON may be told beside the section itself.
std::string told_for(const std::string& heading) {
  const bool has_places = heading == "`map FILE -o OUT`";
  return told_in(heading) + told_in(general) + (has_places ? told_in("`solve --json`") : "");
}

/// The words a table's first column holds, in a section.
Names first_column(const std::string& heading) {
  Names names;
  for (const std::vector<std::string>& row : table_rows(told_in(heading))) {
    for (const std::string& name : names_in_cell(row.at(0))) {
      names.insert(name);
    }
  }
  return names;
}

Words joined(const TellingRun& run, const Words& files) {
  Words words = run.before;
  words.insert(words.end(), files.begin(), files.end());
  words.insert(words.end(), run.after.begin(), run.after.end());
  words.emplace_back("--json");
  return words;
}

/// The keys of all JSON, by the section that tells them.
std::map<std::string, Names> keys_seen() {
  std::map<std::string, Names> seen;
  const auto look_at = [&](const std::string& heading, const Words& words) {
    CAPTURE(words);
    const render::Outcome outcome = render::run_words(words);
    CHECK(outcome.status <= 2);
    const Json answer = Json::parse(outcome.out);
    collect_keys(answer, seen[heading]);
    if (fs::exists("out.geojson")) {
      std::ifstream stream("out.geojson");
      collect_keys(Json::parse(stream), seen[heading]);
      fs::remove("out.geojson");
    }
  };
  for (const std::string& farm : demo_farms()) {
    for (const TellingRun& run : runs_on_a_farm) {
      look_at(run.section, joined(run, {farm}));
    }
    look_at("`compare --json`",
            {"compare", farm, farm, "--from", "2026-08-01", "--to", "2026-08-02", "--json"});
  }
  look_at("`season`",
          {"season",
           "networks-demo/23-dry-year.yaml",
           "--from",
           "2026-08-01",
           "--to",
           "2026-08-02",
           "--until-dry",
           "sallow spring",
           "--json"});
  std::ofstream("pump.yaml") << with_pump;
  look_at("`solve --json`", {"solve", "pump.yaml", "--json"});
  look_at("`season`",
          {"season", "pump.yaml", "--from", "2026-08-01", "--to", "2026-08-02", "--json"});
  for (const TellingRun& run : runs_without_a_farm) {
    look_at(run.section, joined(run, {}));
  }
  return seen;
}

/// Whether the command cannot do without OUT.
bool needs_output(const render::Command& command) {
  const Words words = {std::string(command.head().word), "farm.yaml"};
  const render::ParsedCommandLine parsed = render::parse_command_line(words);
  const auto* const problem = std::get_if<render::UsageProblem>(&parsed);
  return problem != nullptr && problem->code == "no-output";
}

/// "profile FILE [RUN] [--csv] [-o OUT]": a command with what it takes, but for what all take.
std::string synopsis(render::Command& command) {
  std::string text(command.head().word);
  for (const render::Option& option : command.options()) {
    const std::string& name = option.names.front();
    const bool is_output = option.value == "OUT";
    if (name == "-h" || name == "--json" || name == "--units") {
      continue;
    }
    if (option.is_repeated()) {
      text += " FILE FILE ...";
    } else if (option.is_argument()) {
      text += option.is_optional ? " [" + name + "]" : " " + name;
    } else if (is_output && needs_output(command)) {
      text += " -o OUT";
    } else if (option.may_have_value()) {
      const bool is_behind_equals = option.place == render::ValuePlace::BehindEquals;
      text += " [" + name + (is_behind_equals ? "[=" : " [") + option.value + "]]";
    } else {
      text += " [" + name + (option.value.empty() ? "" : " " + option.value) + "]";
    }
  }
  return text;
}

/// What `leat COMMAND --help` calls its flags: "--month".
Names flags_of(const std::string& command) {
  const std::string help = render::run_words({command, "--help"}).out;
  Names flags;
  const std::regex flag("--[a-z][a-z-]*");
  for (const std::string& line : lines_of(help)) {
    if (line.starts_with("  -")) {
      std::smatch found;
      REQUIRE(std::regex_search(line, found, flag));
      flags.insert(found.str());
    }
  }
  return flags;
}

}  // namespace

TEST_CASE("every key of every command's JSON on every demo farm stands in OUTPUT.md") {
  const ExampleFolder folder("");
  const std::map<std::string, Names> seen = keys_seen();
  CHECK(seen.size() > 12);
  for (const auto& [heading, keys] : seen) {
    CAPTURE(heading);
    const std::string told = told_for(heading);
    for (const std::string& key : keys) {
      CAPTURE(key);
      CHECK(holds_word(told, key));
    }
  }
}

TEST_CASE("OUTPUT.md tells of no key that no command prints") {
  const ExampleFolder folder("");
  const std::map<std::string, Names> seen = keys_seen();
  Names all;
  for (const auto& [heading, keys] : seen) {
    all.insert(keys.begin(), keys.end());
  }
  for (const auto& [heading, keys] : seen) {
    CAPTURE(heading);
    for (const std::string& name : first_column(heading)) {
      CAPTURE(name);
      // "format ... converged" stands for keys told above; a code's table is no table of keys.
      const bool is_several = name.find(' ') != std::string::npos;
      CHECK((is_several || keys.contains(name)));
    }
  }
  for (const std::string& name : first_column(general)) {
    CAPTURE(name);
    CHECK(all.contains(name));
  }
}

TEST_CASE("every column of every command's CSV stands in OUTPUT.md") {
  const ExampleFolder folder("");
  const std::string farm = "networks-demo/19-weak-line.yaml";
  const std::string year = "networks-demo/23-dry-year.yaml";
  const std::string pond = "networks-demo/24-pond-against-the-sun.yaml";
  const std::vector<std::pair<std::string, Words>> runs = {
      {"`read --json`", {"read", farm, "--csv"}},
      {"`solve --json`", {"solve", farm, "--csv"}},
      {"`solve --json`", {"solve", farm, "--csv=pipes"}},
      {"`solve --json`", {"solve", farm, "--csv=flags"}},
      {"`solve --spread --json`", {"solve", farm, "--spread", "20", "--csv"}},
      {"`season`", {"season", year, "--to", "2026-01-02", "--csv"}},
      {"`season`", {"season", year, "--to", "2026-01-02", "--csv=tanks"}},
      {"`season`", {"season", pond, "--to", "2026-01-02", "--csv=ponds"}},
      {"`season`", {"season", pond, "--to", "2026-01-02", "--csv=levels"}},
      {"`season`", {"season", pond, "--to", "2026-01-02", "--csv=balance"}},
      {"`compare --json`", {"compare", farm, farm, "--to", "2026-01-02", "--csv"}},
      {"`improve --json`", {"improve", farm, "--csv"}},
      {"`size --json`", {"size", "networks-demo/20-which-pipe.yaml", "--csv"}},
      {"`fit --json`", {"fit", farm, "--csv"}},
      {"`profile`", {"profile", farm, "--csv"}},
      {"`new`, `pipes`, `fittings`, `herd`", {"pipes", "--csv"}},
      {"`new`, `pipes`, `fittings`, `herd`", {"fittings", "--csv"}},
      {"`new`, `pipes`, `fittings`, `herd`", {"herd", "--csv"}},
  };
  for (const auto& [heading, words] : runs) {
    CAPTURE(words);
    const render::Outcome outcome = render::run_words(words);
    REQUIRE(outcome.status <= 1);
    const std::string told = told_for(heading) + told_in("CSV");
    std::vector<std::string> columns = names_in_cell(lines_of(outcome.out).at(0));
    CHECK(columns.size() > 1);
    for (const std::string& column : columns) {
      CAPTURE(column);
      CHECK(holds_word(told, column));
    }
  }
}

TEST_CASE("the commands that OUTPUT.md lists, with what they take, are the program's own") {
  Names listed;
  for (const std::vector<std::string>& row : table_rows(told_in("Commands"))) {
    for (const std::string& name : code_spans(row.at(0))) {
      listed.insert(name);
    }
  }
  // Told in the rows below the commands.
  for (const char* const own : {"--help", "COMMAND --help", "--version", "--manual"}) {
    CHECK(listed.erase(own) == 1);
  }
  for (const char* const shell : {"--completion bash", "--completion zsh"}) {
    CHECK(listed.erase(shell) == 1);
  }
  Names wanted;
  for (const auto& command : render::all_commands()) {
    wanted.insert(synopsis(*command));
  }
  CHECK(wanted.size() == 17);
  CHECK(listed == wanted);
}

TEST_CASE("what every command takes is told below OUTPUT.md's list of them") {
  const std::string told = told_in("Commands");
  for (const auto& command : render::all_commands()) {
    for (const std::string& flag : flags_of(std::string(command->head().word))) {
      CAPTURE(flag);
      CHECK(holds_word(told, flag == "--output" ? "-o OUT" : flag));
    }
  }
}

TEST_CASE("commands end as OUTPUT.md tells: 1 where something is amiss, 0 where nothing is") {
  const ExampleFolder folder("");
  const std::string sound = "networks-demo/01-over-the-rise.yaml";
  const std::string short_of_water = "networks-demo/02-high-trough.yaml";
  const std::string dry_year = "networks-demo/23-dry-year.yaml";
  struct Row {
    Words words;
    int status;
  };
  const std::vector<Row> rows = {
      {{"new"}, 0},
      {{"read", short_of_water}, 0},
      {{"herd"}, 0},
      {{"solve", sound}, 0},
      {{"solve", short_of_water}, 1},
      {{"draw", short_of_water, "-o", "-"}, 1},
      {{"map", "networks-demo/22-farm-on-the-map.yaml", "-o", "-"}, 1},
      {{"profile", short_of_water}, 1},
      {{"improve", short_of_water}, 1},
      {{"fit", "networks-demo/19-weak-line.yaml"}, 0},
      {{"size", "networks-demo/20-which-pipe.yaml"}, 0},
      {{"solve", sound, "--spread", "100"}, 0},
      {{"solve", short_of_water, "--spread", "100"}, 1},
      {{"prime", sound}, 0},
      {{"prime", short_of_water}, 0},  // the line itself has nothing amiss
      {{"prime", "networks-demo/07-air-that-stays.yaml"}, 1},
      {{"season", dry_year, "--from", "2026-05-01", "--to", "2026-05-03"}, 0},
      {{"season", dry_year, "--from", "2026-08-01", "--to", "2026-08-31"}, 1},
      {{"compare", sound, sound, "--from", "2026-05-01", "--to", "2026-05-02"}, 0},
      {{"compare", sound, short_of_water, "--from", "2026-05-01", "--to", "2026-05-02"}, 1},
      {{"report", sound, "-o", "a.html", "--chapters", "water"}, 0},
      {{"report", short_of_water, "-o", "b.html", "--chapters", "water"}, 1},
      {{"solve", "nowhere.yaml"}, 2},
      {{"report", sound, "-o", "a.html", "--chapters", "water"}, 2},  // it is there already
  };
  for (const Row& row : rows) {
    CAPTURE(row.words);
    CHECK(render::run_words(row.words).status == row.status);
  }
}

TEST_CASE("every state of a place or pipe stands in OUTPUT.md") {
  const std::string told = told_in("`solve --json`");
  for (int i = 0; i <= static_cast<int>(solver::PlaceState::Ok); ++i) {
    const std::string state = solver::word_of(static_cast<solver::PlaceState>(i));
    CAPTURE(state);
    CHECK(holds_word(told, state));
  }
  for (int i = 0; i <= static_cast<int>(solver::PipeState::Ok); ++i) {
    const std::string state = solver::word_of(static_cast<solver::PipeState>(i));
    CAPTURE(state);
    CHECK(holds_word(told, state));
  }
}

TEST_CASE("every flag that a demo farm raises has its row in OUTPUT.md, with its severity") {
  const ExampleFolder folder("");
  std::map<std::string, std::string> severities;
  for (const std::vector<std::string>& row : table_rows(told_in("Flag codes"))) {
    severities[row.at(0)] = row.at(1);
  }
  CHECK(severities.size() > 20);
  std::size_t raised = 0;
  for (const std::string& farm : demo_farms()) {
    for (const Words& words : {Words{"solve", farm, "--json"},
                               Words{"prime", farm, "--json"},
                               Words{"season",
                                     farm,
                                     "--from",
                                     "2026-08-15",
                                     "--to",
                                     "2026-12-31",
                                     "--step",
                                     "6 h",
                                     "--json"}}) {
      const Json answer = Json::parse(render::run_words(words).out);
      for (const Json& flag : answer.value("flags", Json::array())) {
        const std::string code = flag.at("code");
        CAPTURE(words, code);
        REQUIRE(severities.contains(code));
        CHECK(holds_word(severities.at(code), flag.at("severity")));
        ++raised;
      }
    }
  }
  CHECK(raised > 50);
}

TEST_CASE("every key a page of leat try is told stands in OUTPUT.md") {
  const ExampleFolder folder("");
  const std::string told = told_in("`try`") + told_in(general);
  for (const std::string& farm : demo_farms()) {
    CAPTURE(farm);
    const render::LiveFarm live(farm, model::load_farm_file(farm));
    render::DrawnForm form;
    Names keys;
    collect_keys(render::page_state(*live.now(), render::PageView{}, "new.yaml", form), keys);
    for (const std::string& key : keys) {
      CAPTURE(key);
      CHECK(holds_word(told, key));
    }
  }
}

TEST_CASE("what OUTPUT.md shows of leat is what leat prints", "[golden]") {
  check_shown_runs(output_page);
}

}  // namespace leat::tests
