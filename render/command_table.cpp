#include "render/command_table.h"

#include <algorithm>

#include <fmt/format.h>

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
     "What pipe to lay, at least cost: the runs marked 'size: choose'.",
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

bool takes_csv(Command command) {
  return command != Command::New && command != Command::Draw && command != Command::Prime &&
         command != Command::Map && command != Command::Try && command != Command::Report;
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

void declare_options(CLI::App& app, Command command, RawOptions& raw) {
  app.set_help_flag();
  app.allow_extras();
  app.add_flag("-h,--help", raw.help, "this text");
  app.add_flag("--json", raw.json, "print JSON: SI, the unit in each key");
  if (takes_file(command)) {
    app.add_option("FILE", raw.file, command == Command::New ? "file to write" : "the farm file");
  }
  if (command == Command::Compare) {
    app.add_option(
        "FILES", raw.files, "two farm files or more; the first is what the others differ from");
    app.add_option("--from", raw.from, "first day, 2026-05-01; 1 January if not given");
    app.add_option("--to", raw.to, "last day, 2026-10-31; 31 December if not given");
    app.add_option("--step", raw.step, "1h (the usual), \"15 min\", \"1 day\": 1 min to 7 days");
  }
  if (command == Command::Draw) {
    app.add_option("-o,--output", raw.output, "OUT: name.svg, .pdf, .png or .dot; - is SVG here");
    app.add_flag("--by-position", raw.by_position, "places stand as their `map` keys say");
  }
  if (command == Command::Map) {
    app.add_option("-o,--output", raw.output, "OUT: name.geojson or .json; - prints it here");
  }
  if (command == Command::Profile) {
    app.add_option("RUN",
                   raw.run,
                   "PIPE or \"FROM..TO\"; if not given, the pipe with the worst summit, else the "
                   "longest");
    app.add_option("-o,--output", raw.output, "OUT: name.svg, .pdf or .png; - is SVG here");
  }
  if (takes_csv(command)) {
    app.add_option("--csv", raw.csv, csv_help(command));
  }
  if (takes_load_case(command)) {
    app.add_option("--case", raw.load_case, "needs (the usual), wide or static");
    app.add_option("--broken", raw.broken, "TROUGH whose float hangs open");
  }
  if (command == Command::Fit) {
    app.add_option("--case", raw.load_case, "wide (the usual: floats held open) or needs");
    app.add_option(
        "--write", raw.output, "NEW.yaml: a copy of FILE with the likeliest cause in it");
  }
  if (command == Command::Improve) {
    app.add_option("--for", raw.for_place, "TROUGH, outlet or pond; the worst off if not given");
    app.add_option("--case", raw.load_case, "needs (the usual) or wide");
    app.add_flag(
        "--sensitivities", raw.sensitivities, "show what small changes do, to first order");
    app.add_flag("--verbose", raw.verbose, "list every change solved, not only those that help");
  }
  if (command == Command::Prime) {
    app.add_option(
        "PIPE", raw.pipe, "a pipe of the line; the one that climbs highest if not given");
    app.add_option("--fill", raw.fill, "how fast water can be poured or pumped in: \"5 gal/min\"");
    app.add_option("--pump", raw.pump, "the most pressure the fill pump gives: \"40 psi\"");
  }
  if (command == Command::Season) {
    app.add_option("--from", raw.from, "first day, 2026-05-01; 1 January if not given");
    app.add_option("--to", raw.to, "last day, 2026-10-31; 31 December if not given");
    app.add_option("--step", raw.step, "1h (the usual), \"15 min\", \"1 day\": 1 min to 7 days");
    app.add_option(
        "--until-dry", raw.until_dry, "SPRING: the yield at which each trough first goes short");
    app.add_option("-o,--output", raw.output, "OUT: name.svg, .pdf or .png; - is SVG here");
  }
  if (command == Command::Report) {
    app.add_option("-o,--output", raw.output, "OUT: name.html; - is HTML here");
    app.add_flag("--pdf", raw.pdf, "print it to name.pdf as well, with the machine's Chromium");
    app.add_option("--chapters",
                   raw.chapters,
                   "which, with commas: farm, schematic, water, findings, profiles, season, "
                   "priming, materials, measurements, spread, file; cautions always come along");
    app.add_option("--from", raw.from, "the season's first day; 1 January if not given");
    app.add_option("--to", raw.to, "the season's last day; 31 December if not given");
  }
  if (command == Command::Size) {
    app.add_flag("--one-size", raw.one_size, "lay every run in one size, none in two");
    app.add_option("--write", raw.output, "NEW file to write the farm to with the sizes in it");
  }
  if (takes_load_case(command) || command == Command::Read || command == Command::Prime ||
      command == Command::Compare || command == Command::Size || command == Command::Fit ||
      command == Command::Improve || command == Command::Report) {
    app.add_option("--month", raw.month, "Jan to Dec; the driest month when not given");
  }
  if (command != Command::New) {
    app.add_option("--units", raw.units, "US or metric, instead of the farm's own");
  }
  if (command == Command::New) {
    app.add_flag("--schema",
                 raw.schema,
                 "put farm.schema.json beside FILE as well, for editors on machines without leat");
  }
  if (command == Command::Try) {
    app.add_flag("--no-browser", raw.no_browser, "only print the address, open no browser");
  }
  if (command == Command::Solve) {
    app.add_flag("--verbose", raw.verbose, "print the pipes and the iterations as well");
    app.add_option(
        "--spread",
        raw.spread,
        "N: how sure the answer is, by N draws (1000 if not given) of the farm as it may "
        "be");
    app.add_option("--seed", raw.seed, "a whole number: other draws (1 when not given)");
    app.add_flag("--audit", raw.audit, "check the answer against the file with laws of its own");
  }
  if (command == Command::New || command == Command::Draw || command == Command::Profile ||
      command == Command::Season || command == Command::Size || command == Command::Fit ||
      command == Command::Map || command == Command::Report) {
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
  text += "  leat --version        prints the version\n\nExamples:\n";
  text += "  leat new my-farm.yaml\n  leat solve my-farm.yaml\n\n";
  return text.append(exit_status_help);
}

std::string help_of(const CommandEntry& entry, const CLI::App& app) {
  return app.help() + fmt::format("\nExamples:\n{}\n{}", entry.examples, exit_status_help);
}

}  // namespace leat::render
