// What was asked for on the command line, or what is wrong with it.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "model/farm/farm.h"
#include "render/io/output_file.h"
#include "solver/answer/steady_answer.h"

namespace leat::render {

enum class Command {
  New,
  Read,
  Solve,
  Draw,
  Profile,
  Prime,
  Season,
  Compare,
  Try,
  Improve,
  Size,
  Fit,
  Map,
  Report,
  Pipes,
  Fittings,
  Herd
};

/// How the answer is printed.
enum class OutputForm {
  Table,
  Json,
  CsvPlaces,
  CsvPipes,
  CsvFlags,
  CsvPoints,
  CsvTroughs,
  CsvTanks,
  CsvPonds,
  CsvLevels,
  CsvBalance,
  CsvFarms,
  CsvChanges,
  CsvCatalogue
};

enum class Detail { Short, Verbose };

/// Whether `try` opens the browser of the desktop.
enum class Browser { Open, Leave };

/// A well-formed command. Only what the command takes is set.
struct CommandLine {
  Command command = Command::Solve;
  std::string file;                // farm file; for `new`, empty means stdout
  std::vector<std::string> files;  // of `compare`
  std::string output;              // picture, map, new farm of `size` and `fit`; "-" is stdout
  std::string run;                 // of `profile`: a pipe or "FROM..TO"; empty: the telling pipe
  OutputForm form = OutputForm::Table;
  solver::LoadCase load_case = solver::LoadCase::Needs;
  std::optional<std::string> broken;  // trough whose float hangs open
  std::optional<model::Month> month;
  std::optional<std::string> pipe;         // of `prime`: a pipe of the line
  std::optional<Flow> fill;                // of `prime`: how fast water can be poured in
  std::optional<Pressure> pump;            // of `prime`: the fill pump's shut-off pressure
  std::optional<model::Date> from;         // of `season`, `compare`: first day
  std::optional<model::Date> to;           // of `season`: last day
  std::optional<double> step_s;            // of `season`
  std::optional<std::string> until_dry;    // of `season`: spring whose yield is lowered
  std::optional<model::UnitSystem> units;  // the farm's own `show` when absent
  Detail detail = Detail::Short;
  bool audit = false;                    // check the answer against the farm file
  std::optional<int> spread;             // of `solve`, `season`: draws of the farm as it might be
  std::uint64_t seed = 1;                // of those draws
  bool one_size = false;                 // of `size`: no run in two sizes
  bool by_position = false;              // of `draw`: places stand as their `map` says
  std::optional<std::string> for_place;  // of `improve`: whom to help
  bool sensitivities = false;            // of `improve`: what small changes do as well
  std::vector<std::string> chapters;     // of `report`; empty: all
  bool pdf = false;                      // of `report`
  ExistingFile existing = ExistingFile::Keep;
  Browser browser = Browser::Open;
  bool schema = false;  // of `new`: the schema beside the file
};

/// Help or the version was asked for: print `text` and end well.
struct Explanation {
  std::string text;
};

/// The command line cannot be followed.
struct UsageProblem {
  std::optional<std::string> command;  // as given
  std::string code;                    // "unknown-command", "unknown-flag", "bad-value" ...
  std::string text;                    // one sentence without a full stop
  std::string hint;                    // nearest word or how to write it; may be empty
};

using ParsedCommandLine = std::variant<CommandLine, Explanation, UsageProblem>;

/// Reads the arguments (without the program's own name).
[[nodiscard]] ParsedCommandLine parse_command_line(std::span<const std::string> arguments);

/// Whether `--json` stands anywhere among the arguments, so that even a usage error answers in it.
[[nodiscard]] bool asks_for_json(std::span<const std::string> arguments);

}  // namespace leat::render
