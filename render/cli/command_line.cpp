#include "render/cli/command_line.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>
#include <string_view>
#include <utility>
#include <vector>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "model/quantity/quantity_text.h"
#include "model/text/nearest_word.h"
#include "render/cli/command_table.h"
#include "render/cli/completion.h"
#include "render/cli/manual_page.h"
#include "render/cli/option_words.h"
#include "render/commands/new/schema_file.h"
#include "render/commands/report/report.h"
#include "render/io/installed_files.h"
#include "solver/uncertainty/season_spread.h"
#include "solver/uncertainty/spread.h"
#include "version.h"

namespace leat::render {

namespace {

std::string nearest_hint(std::string_view word, const std::vector<std::string>& candidates) {
  const std::optional<std::string> nearest = model::nearest_word(word, candidates);
  return nearest ? fmt::format("did you mean '{}'?", *nearest) : std::string();
}

UsageProblem unknown_command(const std::string& word) {
  std::vector<std::string> words;
  for (const CommandEntry& entry : all_commands()) {
    words.emplace_back(entry.word);
  }
  return {word,
          "unknown-command",
          fmt::format("there is no command '{}'", word),
          nearest_hint(word, words)};
}

/// An argument nothing has taken.
std::optional<UsageProblem> extra_argument(const CommandEntry& entry, const CLI::App& app) {
  std::vector<std::string> extras = app.remaining();
  // CLI11 counts the mark that ends the flags among what is left over.
  extras.erase(std::remove(extras.begin(), extras.end(), "--"), extras.end());
  if (extras.empty()) {
    return std::nullopt;
  }
  const std::string& extra = extras.front();
  const std::string command(entry.word);
  if (extra.size() > 1 && extra.front() == '-') {
    std::vector<std::string> flags;
    for (const CLI::Option* option : app.get_options()) {
      for (const std::string& name : option->get_lnames()) {
        flags.push_back("--" + name);
      }
    }
    const std::string flag = extra.substr(0, extra.find('='));
    return UsageProblem{command,
                        "unknown-flag",
                        fmt::format("'leat {}' has no flag '{}'", command, flag),
                        nearest_hint(flag, flags)};
  }
  return UsageProblem{command,
                      "extra-argument",
                      fmt::format("'{}' is one word too many for 'leat {}'", extra, command),
                      "put quotes around a name with spaces"};
}

/// A flag given twice, or without its value.
std::optional<UsageProblem> repeated_flag(const CommandEntry& entry, const CLI::App& app) {
  for (const CLI::Option* option : app.get_options()) {
    const bool takes_several = option->get_expected_max() > 1;
    if (!takes_several && option->get_expected_min() > 0 && option->count() > 1) {
      return UsageProblem{std::string(entry.word),
                          "repeated-flag",
                          fmt::format("{} is given more than once", option->get_name()),
                          ""};
    }
  }
  return std::nullopt;
}

/// Finds `text` among the choices; otherwise the problem names them all.
template <class Value>
std::variant<Value, UsageProblem> choose(std::string_view flag,
                                         const std::string& text,
                                         std::span<const Choice<Value>> choices,
                                         std::string_view hint) {
  for (const Choice<Value>& choice : choices) {
    if (choice.first == text) {
      return choice.second;
    }
  }
  return UsageProblem{
      std::nullopt, "bad-value", fmt::format("{} cannot be '{}'", flag, text), std::string(hint)};
}

/// Draws where `--spread` stands alone: a season takes longer than a moment.
int usual_draws_of(Command command) {
  return command == Command::Season ? solver::usual_season_draws : solver::usual_draws;
}

/// "write --csv=places, --csv=pipes or --csv=flags": all the forms the command has.
std::string csv_hint(std::span<const Choice<OutputForm>> forms) {
  if (forms.size() == 1) {
    return forms.front().second == OutputForm::CsvCatalogue
               ? "write --csv alone"
               : fmt::format("write --csv or --csv={}", forms.front().first);
  }
  std::string text = "write ";
  for (std::size_t i = 0; i < forms.size(); ++i) {
    const char* const joint = i == 0 ? "" : i + 1 < forms.size() ? ", " : " or ";
    text += fmt::format("{}--csv={}", joint, forms[i].first);
  }
  return text;
}

std::variant<OutputForm, UsageProblem> csv_form(Command command, const std::string& text) {
  const std::span<const Choice<OutputForm>> forms = csv_forms(command);
  return choose("--csv", text, forms, csv_hint(forms));
}

/// Reads the values CLI11 has collected into `line`; the first problem otherwise.
std::optional<UsageProblem> read_values(const RawOptions& raw, CommandLine& line) {
  if (!raw.load_case.empty()) {
    const auto chosen = choose<solver::LoadCase>(
        "--case", raw.load_case, load_cases, "write needs, wide or static");
    if (const auto* const problem = std::get_if<UsageProblem>(&chosen)) {
      return *problem;
    }
    line.load_case = std::get<solver::LoadCase>(chosen);
  }
  if (!raw.units.empty()) {
    const auto chosen =
        choose<model::UnitSystem>("--units", raw.units, unit_systems, "write US or metric");
    if (const auto* const problem = std::get_if<UsageProblem>(&chosen)) {
      return *problem;
    }
    line.units = std::get<model::UnitSystem>(chosen);
  }
  if (!raw.csv.empty()) {
    const auto chosen = csv_form(line.command, raw.csv);
    if (const auto* const problem = std::get_if<UsageProblem>(&chosen)) {
      return *problem;
    }
    line.form = std::get<OutputForm>(chosen);
  }
  if (!raw.month.empty()) {
    line.month = model::month_named(raw.month);
    if (!line.month) {
      return UsageProblem{std::nullopt,
                          "bad-value",
                          fmt::format("--month cannot be '{}'", raw.month),
                          "write Jan, Feb, Mar, Apr, May, Jun, Jul, Aug, Sep, Oct, Nov or Dec"};
    }
  }
  return std::nullopt;
}

/// Reads an amount a flag carries; the problem says how it is written.
template <class Value>
std::optional<UsageProblem> read_amount_flag(std::string_view flag,
                                             const std::string& text,
                                             const model::Parsed<Value>& parsed,
                                             std::optional<Value>& target) {
  if (text.empty()) {
    return std::nullopt;
  }
  if (const auto* const problem = std::get_if<model::QuantityProblem>(&parsed)) {
    return UsageProblem{
        std::nullopt, "bad-value", fmt::format("{}: {}", flag, problem->text), problem->hint};
  }
  target = std::get<Value>(parsed);
  if (!(target->in_si() > 0.0)) {
    return UsageProblem{std::nullopt,
                        "bad-value",
                        fmt::format("{} cannot be '{}'", flag, text),
                        "write more than 0"};
  }
  return std::nullopt;
}

/// Reads a day a flag carries.
std::optional<UsageProblem> read_date_flag(std::string_view flag,
                                           const std::string& text,
                                           std::optional<model::Date>& target) {
  if (text.empty()) {
    return std::nullopt;
  }
  target = model::parse_date(text);
  if (!target) {
    return UsageProblem{std::nullopt,
                        "bad-value",
                        fmt::format("{} cannot be '{}'", flag, text),
                        "write a day of the calendar as year-month-day, such as 2026-08-14"};
  }
  return std::nullopt;
}

/// Reads the dates and the step of a season.
std::optional<UsageProblem> read_season(const RawOptions& raw, CommandLine& line) {
  if (!raw.until_dry.empty()) {
    line.until_dry = raw.until_dry;
  }
  if (auto problem = read_date_flag("--from", raw.from, line.from)) {
    return problem;
  }
  if (auto problem = read_date_flag("--to", raw.to, line.to)) {
    return problem;
  }
  if (line.from && line.to && *line.to < *line.from) {
    return UsageProblem{std::nullopt,
                        "bad-value",
                        fmt::format("--to {} comes before --from {}", raw.to, raw.from),
                        "a season over the turn of a year runs as from 2026-11-01 to 2027-03-31"};
  }
  std::optional<Duration> step;
  if (auto problem = read_amount_flag("--step", raw.step, model::parse_duration(raw.step), step)) {
    return problem;
  }
  if (step) {
    constexpr double shortest_s = 60.0;
    constexpr double longest_s = 7.0 * 86400.0;
    line.step_s = in_seconds(*step);
    if (*line.step_s < shortest_s || *line.step_s > longest_s) {
      return UsageProblem{std::nullopt,
                          "bad-value",
                          fmt::format("--step cannot be '{}'", raw.step),
                          "write from 1 min to 7 day; 1 h does for most farms"};
    }
  }
  return std::nullopt;
}

/// Reads a whole number a flag carries, within limits.
template <class Number>
std::optional<UsageProblem> read_whole_number(
    std::string_view flag, const std::string& text, Number least, Number most, Number& target) {
  const char* const end = text.data() + text.size();
  const std::from_chars_result read = std::from_chars(text.data(), end, target);
  if (read.ec == std::errc() && read.ptr == end && target >= least && target <= most) {
    return std::nullopt;
  }
  return UsageProblem{std::nullopt,
                      "bad-value",
                      fmt::format("{} cannot be '{}'", flag, text),
                      fmt::format("write a whole number from {} to {}", least, most)};
}

std::optional<UsageProblem> read_spread(const RawOptions& raw, CommandLine& line) {
  std::optional<UsageProblem> problem;
  if (!raw.spread.empty()) {
    line.spread = usual_draws_of(line.command);
    problem = read_whole_number("--spread", raw.spread, 1, solver::most_draws, *line.spread);
  }
  // The largest whole number that JSON carries everywhere.
  constexpr std::uint64_t largest_seed = (std::uint64_t{1} << 53U) - 1;
  if (!problem && !raw.seed.empty()) {
    problem = read_whole_number("--seed", raw.seed, std::uint64_t{0}, largest_seed, line.seed);
  }
  return problem;
}

/// What `--spread` cannot be asked beside.
std::optional<UsageProblem> check_spread(const RawOptions& raw, const CommandLine& line) {
  const auto clash = [](std::string text, std::string hint) {
    return UsageProblem{std::nullopt, "flags-clash", std::move(text), std::move(hint)};
  };
  if (!line.spread) {
    if (!raw.seed.empty()) {
      return clash("--seed says nothing without --spread", "write --spread --seed N");
    }
    return std::nullopt;
  }
  if (line.load_case == solver::LoadCase::Static) {
    return clash("--spread and --case static cannot both be had", "nothing runs in that case");
  }
  if (line.until_dry) {
    return clash("--spread and --until-dry cannot both be had",
                 "ask for one, then for the other: --until-dry runs the farm as written");
  }
  if (line.command == Command::Season && !line.output.empty()) {
    return clash("--spread has no picture", "leave out -o, or --spread");
  }
  if (line.form == OutputForm::CsvLevels || line.form == OutputForm::CsvBalance) {
    return clash("--spread has a CSV of troughs, tanks and ponds only",
                 "write --csv, --csv=tanks or --csv=ponds");
  }
  if (line.form == OutputForm::CsvPipes || line.form == OutputForm::CsvFlags) {
    return clash("--spread has a CSV of places only", "write --csv or --csv=places");
  }
  return std::nullopt;
}

/// Reads the chapters of a report: names with commas between them.
std::optional<UsageProblem> read_chapters(const RawOptions& raw, CommandLine& line) {
  line.pdf = raw.pdf;
  if (raw.chapters.empty()) {
    return std::nullopt;
  }
  const std::vector<std::string> known(report::chapter_names.begin(), report::chapter_names.end());
  std::string_view rest = raw.chapters;
  for (;;) {
    const std::size_t comma = rest.find(',');
    const std::string_view given = rest.substr(0, comma);
    const std::size_t first = std::min(given.find_first_not_of(' '), given.size());
    const std::size_t last = given.find_last_not_of(' ');
    const std::string name(last == std::string_view::npos ? std::string_view()
                                                          : given.substr(first, last + 1 - first));
    if (std::find(known.begin(), known.end(), name) == known.end()) {
      const std::string hint = nearest_hint(name, known);
      return UsageProblem{
          std::nullopt,
          "bad-value",
          fmt::format("a report has no chapter '{}'", name),
          hint.empty() ? fmt::format("its chapters: {}", fmt::join(known, ", ")) : hint};
    }
    line.chapters.push_back(name);
    if (comma == std::string_view::npos) {
      return std::nullopt;
    }
    rest.remove_prefix(comma + 1);
  }
}

/// What must or must not stand together.
std::optional<UsageProblem> check_together(const RawOptions& raw, const CommandLine& line) {
  if (raw.json && !raw.csv.empty()) {
    return UsageProblem{std::nullopt, "flags-clash", "--json and --csv cannot both be had", ""};
  }
  if (takes_file(line.command) && line.command != Command::New && line.file.empty()) {
    return UsageProblem{
        std::nullopt, "no-file", "the farm file is missing", "leat new writes a starter file"};
  }
  if (line.command == Command::Compare && line.files.size() < 2) {
    return UsageProblem{std::nullopt,
                        "no-file",
                        "two farm files or more are wanted",
                        "write leat compare before.yaml after.yaml"};
  }
  if (line.command == Command::Draw && line.output.empty()) {
    return UsageProblem{std::nullopt,
                        "no-output",
                        "where to draw is missing",
                        "write -o farm.svg, .pdf, .png or .dot, or -o - for SVG on stdout"};
  }
  if (line.command == Command::Report && line.output.empty()) {
    return UsageProblem{std::nullopt,
                        "no-output",
                        "where to write the report is missing",
                        "write -o farm.html, or -o - for HTML on stdout"};
  }
  if (line.schema && line.file.empty()) {
    return UsageProblem{std::nullopt,
                        "flags-clash",
                        "--schema needs a file to stand beside",
                        "write leat new my-farm.yaml --schema"};
  }
  if (line.schema && line.file.substr(line.file.rfind('/') + 1) == schema_name) {
    return UsageProblem{
        std::nullopt,
        "flags-clash",
        fmt::format("--schema writes a '{}' of its own beside the farm", schema_name),
        "give the farm another name"};
  }
  if (line.pdf && line.output == "-") {
    return UsageProblem{std::nullopt,
                        "flags-clash",
                        "--pdf needs a file to stand beside",
                        "write -o farm.html --pdf"};
  }
  if (line.command == Command::Fit && line.load_case == solver::LoadCase::Static) {
    return UsageProblem{std::nullopt,
                        "bad-value",
                        "--case cannot be 'static' here: nothing runs",
                        "write wide or needs"};
  }
  if (line.command == Command::Fit && line.output == "-") {
    return UsageProblem{
        std::nullopt, "bad-value", "--write cannot be '-'", "write the name of a new file"};
  }
  if (line.command == Command::Map && line.output.empty()) {
    return UsageProblem{std::nullopt,
                        "no-output",
                        "where to write the map is missing",
                        "write -o farm.geojson, or -o - to print it"};
  }
  if (line.output == "-" && line.form != OutputForm::Table) {
    const char* const flag = raw.json ? "--json" : "--csv";
    return UsageProblem{
        std::nullopt, "flags-clash", fmt::format("{} and -o - would both go to stdout", flag), ""};
  }
  return std::nullopt;
}

ParsedCommandLine finish(const CommandEntry& entry, const RawOptions& raw) {
  CommandLine line;
  line.command = entry.command;
  line.file = raw.file;
  line.files = raw.files;
  line.output = raw.output;
  line.run = raw.run;
  if (line.command == Command::Fit) {
    line.load_case = solver::LoadCase::Wide;  // a trough is measured with its float held down
  }
  line.form = raw.json ? OutputForm::Json : OutputForm::Table;
  line.detail = raw.verbose ? Detail::Verbose : Detail::Short;
  line.by_position = raw.by_position;
  line.audit = raw.audit;
  line.schema = raw.schema;
  line.browser = raw.no_browser ? Browser::Leave : Browser::Open;
  line.one_size = raw.one_size;
  line.sensitivities = raw.sensitivities;
  if (!raw.for_place.empty()) {
    line.for_place = raw.for_place;
  }
  line.existing = raw.replace ? ExistingFile::Replace : ExistingFile::Keep;
  if (!raw.broken.empty()) {
    line.broken = raw.broken;
  }
  if (!raw.pipe.empty()) {
    line.pipe = raw.pipe;
  }
  std::optional<UsageProblem> problem = read_values(raw, line);
  if (!problem) {
    problem = read_amount_flag("--fill", raw.fill, model::parse_flow(raw.fill), line.fill);
  }
  if (!problem) {
    problem = read_amount_flag("--pump", raw.pump, model::parse_pressure(raw.pump), line.pump);
  }
  if (!problem) {
    problem = read_season(raw, line);
  }
  if (!problem) {
    problem = read_spread(raw, line);
  }
  if (!problem) {
    problem = read_chapters(raw, line);
  }
  if (!problem) {
    problem = check_together(raw, line);
  }
  if (!problem) {
    problem = check_spread(raw, line);
  }
  if (problem) {
    problem->command = std::string(entry.word);
    return *problem;
  }
  return line;
}

bool looks_like_number(const std::string& text) {
  return !text.empty() && text.find_first_not_of("0123456789.,+-e") == std::string::npos;
}

/// The arguments after the command, last first as CLI11 takes them, plain `--csv` and `--spread`
/// given their values (else they would swallow the word after them).
std::vector<std::string> for_parser(Command command, std::span<const std::string> arguments) {
  std::vector<std::string> reversed;
  bool flags_end = false;
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    const std::string& argument = arguments[i];
    flags_end = flags_end || argument == "--";
    if (!flags_end && argument == "--csv") {
      const std::span<const Choice<OutputForm>> forms = csv_forms(command);
      reversed.push_back(forms.empty() ? argument : fmt::format("--csv={}", forms.front().first));
    } else if (!flags_end && argument == "--spread" &&
               (command == Command::Solve || command == Command::Season)) {
      const bool is_counted = i + 1 < arguments.size() && looks_like_number(arguments[i + 1]);
      reversed.push_back(is_counted ? fmt::format("--spread={}", arguments[++i])
                                    : fmt::format("--spread={}", usual_draws_of(command)));
    } else {
      reversed.push_back(argument);
    }
  }
  std::reverse(reversed.begin(), reversed.end());
  return reversed;
}

ParsedCommandLine parse_command(const CommandEntry& entry, std::span<const std::string> arguments) {
  RawOptions raw;
  CLI::App app(std::string(entry.summary), fmt::format("leat {}", entry.word));
  declare_options(app, entry.command, raw);
  for (CLI::Option* const option : app.get_options()) {
    if (option->get_expected_max() <= 1) {
      option->multi_option_policy(CLI::MultiOptionPolicy::TakeLast);
    }
  }
  try {
    app.parse(for_parser(entry.command, arguments));
  } catch (const CLI::ArgumentMismatch& mismatch) {
    const std::string message = mismatch.what();
    return UsageProblem{std::string(entry.word),
                        "missing-value",
                        fmt::format("{} wants a value", message.substr(0, message.find(':'))),
                        ""};
  } catch (const CLI::ParseError&) {
    return UsageProblem{
        std::string(entry.word), "bad-flag", "a flag is not written as leat reads it", ""};
  }
  if (raw.help) {
    return Explanation{help_of(entry, app)};
  }
  if (std::optional<UsageProblem> problem = extra_argument(entry, app)) {
    return *std::move(problem);
  }
  if (std::optional<UsageProblem> problem = repeated_flag(entry, app)) {
    return *std::move(problem);
  }
  return finish(entry, raw);
}

std::string version_text() {
  std::string text = fmt::format("leat {}, JSON format 1\n", program_version);
  const InstalledFiles files = installed_files();
  if (files.demo_farms) {
    text += fmt::format("demo farms: {}\n", *files.demo_farms);
  }
  if (files.schema) {
    text += fmt::format("schema for editors: {}\n", *files.schema);
  }
  return text;
}

ParsedCommandLine completion_of(std::span<const std::string> shells) {
  const std::string shell = shells.size() == 1 ? shells.front() : "";
  if (shell == "bash") {
    return Explanation{bash_completion()};
  }
  if (shell == "zsh") {
    return Explanation{zsh_completion()};
  }
  return UsageProblem{std::nullopt,
                      "bad-value",
                      shell.empty() ? "--completion wants the name of one shell"
                                    : fmt::format("--completion cannot be '{}'", shell),
                      "write --completion bash or --completion zsh"};
}

}  // namespace

ParsedCommandLine parse_command_line(std::span<const std::string> arguments) {
  if (arguments.empty()) {
    return UsageProblem{std::nullopt, "no-command", "no command is given", ""};
  }
  const std::string& word = arguments.front();
  if (word == "--help" || word == "-h" || word == "help") {
    return Explanation{overview()};
  }
  if (word == "--version") {
    return Explanation{version_text()};
  }
  if (word == "--manual") {
    return Explanation{manual_page()};
  }
  if (word == "--completion") {
    return completion_of(arguments.subspan(1));
  }
  for (const CommandEntry& entry : all_commands()) {
    if (entry.word == word) {
      return parse_command(entry, arguments.subspan(1));
    }
  }
  if (word.size() > 1 && word.front() == '-') {
    return UsageProblem{std::nullopt,
                        "no-command",
                        fmt::format("'{}' stands where the command should", word),
                        "the command comes first, as in leat solve FILE --json"};
  }
  return unknown_command(word);
}

bool asks_for_json(std::span<const std::string> arguments) {
  for (const std::string& argument : arguments) {
    if (argument == "--") {
      return false;
    }
    if (argument == "--json") {
      return true;
    }
  }
  return false;
}

}  // namespace leat::render
