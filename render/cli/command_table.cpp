#include "render/cli/command_table.h"

#include <algorithm>

#include <fmt/format.h>

#include "render/cli/option_words.h"
#include "render/commands/report/report.h"

namespace leat::render {

namespace {

constexpr std::array<CommandEntry, 17> commands = {{
    {Command::New,
     "new",
     "Write a commented starter farm, to FILE or to the screen.",
     "  leat new\n  leat new my-farm.yaml\n"},
    {Command::Read,
     "read",
     "Show what was understood of FILE: bores, losses, levels, needs, assumptions.",
     "  leat read my-farm.yaml\n  leat read my-farm.yaml --month Aug --csv\n"},
    {Command::Solve,
     "solve",
     "What every trough, pond and outlet gets, and what is wrong.",
     "  leat solve my-farm.yaml\n  leat solve my-farm.yaml --case static --json\n"},
    {Command::Draw,
     "draw",
     "Draw the farm with its answer; the ending of OUT says svg, pdf, png or dot.",
     "  leat draw my-farm.yaml -o my-farm.svg\n  leat draw my-farm.yaml -o -\n"},
    {Command::Profile,
     "profile",
     "A pipe or a run of pipes from the side: levels, grade lines, suction, summits.",
     "  leat profile my-farm.yaml \"creek line\"\n"
     "  leat profile my-farm.yaml \"creek..top trough\" -o line.svg\n"},
    {Command::Prime,
     "prime",
     "How to prime a siphon: steps, water to have ready, pump, air. Takes PIPE after FILE.",
     "  leat prime my-farm.yaml\n  leat prime my-farm.yaml \"creek line\" --fill \"5 gal/min\"\n"},
    {Command::Season,
     "season",
     "Run the farm through its dates: who goes short when, tanks, ponds, where water went.",
     "  leat season my-farm.yaml\n"
     "  leat season my-farm.yaml --from 2026-05-01 --to 2026-10-31 -o season.svg\n"
     "  leat season my-farm.yaml --until-dry \"upper spring\"\n"},
    {Command::Compare,
     "compare",
     "Variants of a farm side by side: flows, dry hours, energy, upkeep, what differs.",
     "  leat compare before.yaml after.yaml\n"
     "  leat compare siphon.yaml ram.yaml pump.yaml --from 2026-05-01 --to 2026-10-31\n"},
    {Command::Try,
     "try",
     "A page on this machine: turn valves, change pipe, see the water change; saves new files.",
     "  leat try my-farm.yaml\n  leat try my-farm.yaml --no-browser\n"},
    {Command::Improve,
     "improve",
     "What one change helps the trough that goes short most, and the best two together.",
     "  leat improve my-farm.yaml\n  leat improve my-farm.yaml --for \"top trough\" --month Aug\n"},
    {Command::Size,
     "size",
     "What pipe to lay in the runs marked 'size: choose'; what troughs and tanks must hold.",
     "  leat size my-farm.yaml\n  leat size my-farm.yaml --month Aug --write sized.yaml\n"},
    {Command::Fit,
     "fit",
     "Why you measured less: what explains the readings in FILE, and what to measure next.",
     "  leat fit my-farm.yaml\n  leat fit my-farm.yaml --write with-blocked-screen.yaml\n"},
    {Command::Map,
     "map",
     "Write places and pipes with their answer as GeoJSON, for map programs.",
     "  leat map my-farm.yaml -o my-farm.geojson\n  leat map my-farm.yaml --month Aug -o -\n"},
    {Command::Report,
     "report",
     "The record to file, print and hand on: everything about FILE on one page, HTML or PDF.",
     "  leat report my-farm.yaml -o my-farm.html\n"
     "  leat report my-farm.yaml -o my-farm.html --pdf --chapters water,findings,priming\n"},
    {Command::Pipes,
     "pipes",
     "List the pipe sizes known by name, each with its source.",
     "  leat pipes\n  leat pipes --csv\n"},
    {Command::Fittings,
     "fittings",
     "List the fittings known by name, each with its source.",
     "  leat fittings\n  leat fittings --json\n"},
    {Command::Herd,
     "herd",
     "List what stock drink, each with its source.",
     "  leat herd\n  leat herd --units US\n"},
}};

constexpr std::string_view exit_status_help =
    "Exit status: 0 solved and nothing amiss that leat checks, 1 something starves or is flagged,\n"
    "2 the file, the command or the solution failed, 70 a fault of leat itself.\n";

bool takes_load_case(Command command) {
  return command == Command::Solve || command == Command::Draw || command == Command::Profile ||
         command == Command::Map;
}

const char* csv_help(Command command) {
  switch (command) {
    case Command::Solve:
      return "print CSV: --csv=places (the usual), pipes or flags";
    case Command::Season:
      return "print CSV: --csv=troughs (the usual), tanks, ponds, levels or balance";
    default:
      return "print CSV";
  }
}

}  // namespace

std::span<const CommandEntry> all_commands() {
  return commands;
}

bool takes_file(Command command) {
  return command == Command::New || command == Command::Read || command == Command::Solve ||
         command == Command::Draw || command == Command::Profile || command == Command::Prime ||
         command == Command::Season || command == Command::Size || command == Command::Fit ||
         command == Command::Map || command == Command::Try || command == Command::Improve ||
         command == Command::Report;
}

namespace {

/// Declares an option with a value. `value` is what stands for it in help and manual, and says to
/// completion what kind it is; one in brackets may be left out.
void declare(CLI::App& app,
             const char* names,
             std::string& target,
             const char* value,
             const std::string& sentence) {
  app.add_option(names, target, sentence)->type_name(value);
}

void declare_season(CLI::App& app, RawOptions& raw) {
  declare(app, "--from", raw.from, "DATE", "first day, 2026-05-01; 1 January if not given");
  declare(app, "--to", raw.to, "DATE", "last day, 2026-10-31; 31 December if not given");
  declare(
      app, "--step", raw.step, "TIME", "1h (the usual), \"15 min\", \"1 day\": 1 min to 7 days");
}

void declare_output(CLI::App& app, RawOptions& raw, const char* sentence) {
  declare(app, "-o,--output", raw.output, "OUT", sentence);
}

bool takes_month(Command command) {
  return takes_load_case(command) || command == Command::Read || command == Command::Prime ||
         command == Command::Compare || command == Command::Size || command == Command::Fit ||
         command == Command::Improve || command == Command::Report;
}

bool takes_replace(Command command) {
  return command == Command::New || command == Command::Draw || command == Command::Profile ||
         command == Command::Season || command == Command::Size || command == Command::Fit ||
         command == Command::Map || command == Command::Report;
}

void declare_improve(CLI::App& app, RawOptions& raw) {
  declare(
      app, "--for", raw.for_place, "PLACE", "trough, outlet or pond; the worst off if not given");
  declare(app, "--case", raw.load_case, "CASE", "needs (the usual) or wide");
  app.add_flag("--sensitivities", raw.sensitivities, "show what small changes do, to first order");
  app.add_flag("--verbose", raw.verbose, "list every change solved, not only those that help");
}

void declare_report(CLI::App& app, RawOptions& raw) {
  declare_output(app, raw, "file to write: name.html; - prints HTML");
  app.add_flag("--pdf", raw.pdf, "print it to name.pdf as well, with the machine's Chromium");
  declare(app,
          "--chapters",
          raw.chapters,
          "LIST",
          fmt::format("which, with commas: {}; cautions always come along",
                      fmt::join(report::chapter_names, ", ")));
  declare(app, "--from", raw.from, "DATE", "the season's first day; 1 January if not given");
  declare(app, "--to", raw.to, "DATE", "the season's last day; 31 December if not given");
}

/// The options that one command has for itself.
void declare_own_options(CLI::App& app, Command command, RawOptions& raw) {
  switch (command) {
    case Command::Solve:
      app.add_flag("--verbose", raw.verbose, "print the pipes and the iterations as well");
      declare(app,
              "--spread",
              raw.spread,
              "[N]",
              "how sure the answer is, by N draws (1000 if not given) of the farm as it may be");
      declare(app, "--seed", raw.seed, "N", "a whole number: other draws (1 when not given)");
      app.add_flag("--audit", raw.audit, "check the answer against the file with laws of its own");
      break;
    case Command::Draw:
      declare_output(app, raw, "file to draw to: name.svg, .pdf, .png or .dot; - prints SVG");
      app.add_flag("--by-position", raw.by_position, "places stand as their `map` keys say");
      break;
    case Command::Profile:
      declare_output(app, raw, "file to draw to: name.svg, .pdf or .png; - prints SVG");
      break;
    case Command::Prime:
      declare(app,
              "--fill",
              raw.fill,
              "FLOW",
              "how fast water can be poured or pumped in: \"5 gal/min\"");
      declare(
          app, "--pump", raw.pump, "PRESSURE", "the most pressure the fill pump gives: \"40 psi\"");
      break;
    case Command::Season:
      declare_season(app, raw);
      declare(app,
              "--until-dry",
              raw.until_dry,
              "SPRING",
              "find the yield of SPRING at which each trough first goes short");
      declare(app,
              "--spread",
              raw.spread,
              "[N]",
              "how sure the season is, by N seasons (100 if not given) of the farm as it may be");
      declare(app, "--seed", raw.seed, "N", "a whole number: other draws (1 when not given)");
      declare_output(app, raw, "file to draw to: name.svg, .pdf or .png; - prints SVG");
      break;
    case Command::Compare:
      declare_season(app, raw);
      break;
    case Command::Try:
      app.add_flag("--no-browser", raw.no_browser, "only print the address, open no browser");
      break;
    case Command::Improve:
      declare_improve(app, raw);
      break;
    case Command::Size:
      app.add_flag("--one-size", raw.one_size, "lay every run in one size, none in two");
      declare(app, "--write", raw.output, "NEW", "file to write the farm to with the sizes in it");
      break;
    case Command::Fit:
      declare(app, "--case", raw.load_case, "CASE", "wide (the usual: floats held open) or needs");
      declare(app, "--write", raw.output, "NEW", "a copy of FILE with the likeliest cause in it");
      break;
    case Command::Map:
      declare_output(app, raw, "file to write: name.geojson or .json; - prints it");
      break;
    case Command::Report:
      declare_report(app, raw);
      break;
    case Command::New:
      app.add_flag(
          "--schema",
          raw.schema,
          "put farm.schema.json beside FILE as well, for editors on machines without leat");
      break;
    case Command::Read:
    case Command::Pipes:
    case Command::Fittings:
    case Command::Herd:
      break;
  }
}

}  // namespace

void declare_options(CLI::App& app, Command command, RawOptions& raw) {
  app.set_help_flag();
  app.allow_extras();
  app.add_flag("-h,--help", raw.help, "this text");
  app.add_flag("--json", raw.json, "print JSON: SI, the unit in each key");
  if (takes_file(command)) {
    declare(app, "FILE", raw.file, "", command == Command::New ? "file to write" : "the farm file");
  }
  if (command == Command::Compare) {
    app.add_option(
           "FILES", raw.files, "two farm files or more; the first is what the others differ from")
        ->type_name("");
  }
  if (command == Command::Profile) {
    declare(app,
            "RUN",
            raw.run,
            "",
            "PIPE or \"FROM..TO\"; if not given, the pipe with the worst summit, else the longest");
  }
  if (command == Command::Prime) {
    declare(
        app, "PIPE", raw.pipe, "", "a pipe of the line; the one that climbs highest if not given");
  }
  if (!csv_forms(command).empty()) {
    declare(
        app, "--csv", raw.csv, csv_forms(command).size() > 1 ? "[=TABLE]" : "", csv_help(command));
  }
  if (takes_load_case(command)) {
    declare(app, "--case", raw.load_case, "CASE", "needs (the usual), wide or static");
    declare(app, "--broken", raw.broken, "TROUGH", "the trough whose float hangs open");
  }
  declare_own_options(app, command, raw);
  if (takes_month(command)) {
    declare(app, "--month", raw.month, "MONTH", "Jan to Dec; the driest month when not given");
  }
  if (command != Command::New) {
    declare(app, "--units", raw.units, "UNITS", "US or metric, instead of the farm's own");
  }
  if (takes_replace(command)) {
    app.add_flag("--replace", raw.replace, "write over an existing file");
  }
}

std::string overview() {
  std::string text =
      "leat: gravity water for a small farm\n\nUsage: leat COMMAND [FILE] [FLAGS]\n\n";
  for (const CommandEntry& entry : commands) {
    text += fmt::format("  {:<9} {}\n", entry.word, entry.summary);
  }
  text += "\n  leat COMMAND --help   says what a command takes\n";
  text += "  leat --version        prints the version, and where the demo farms are\n";
  text +=
      "  leat --manual         prints the manual page; read it with: leat --manual | man -l -\n";
  text += "  leat --completion bash (or zsh)  prints what the shell needs to complete words\n\n";
  text += "Examples:\n";
  text += "  leat new my-farm.yaml\n  leat solve my-farm.yaml\n\n";
  return text.append(exit_status_help);
}

std::string help_of(const CommandEntry& entry, const CLI::App& app) {
  return app.help() + fmt::format("\nExamples:\n{}\n{}", entry.examples, exit_status_help);
}

}  // namespace leat::render
