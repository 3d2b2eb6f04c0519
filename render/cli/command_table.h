// The commands and their flags, in one place: parsing, help and messages are made from it.
#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <CLI/CLI.hpp>

#include "render/cli/command_line.h"

namespace leat::render {

/// One command: its word, what it does, and two examples for its help.
struct CommandEntry {
  Command command;
  std::string_view word;
  std::string_view summary;
  std::string_view examples;
};

/// What CLI11 fills; checked and turned into a CommandLine afterwards.
struct RawOptions {
  std::string file;
  std::vector<std::string> files;
  std::string output;
  std::string run;
  std::string csv;
  std::string load_case;
  std::string broken;
  std::string month;
  std::string units;
  std::string pipe;
  std::string fill;
  std::string pump;
  std::string from;
  std::string to;
  std::string step;
  std::string until_dry;
  std::string spread;
  std::string seed;
  std::string for_place;
  std::string chapters;
  bool pdf = false;
  bool json = false;
  bool verbose = false;
  bool by_position = false;
  bool audit = false;
  bool one_size = false;
  bool sensitivities = false;
  bool replace = false;
  bool no_browser = false;
  bool schema = false;
  bool help = false;
};

/// Every command of this version, in the order help lists them.
[[nodiscard]] std::span<const CommandEntry> all_commands();

/// Whether the command works on one farm file (`new` writes one).
[[nodiscard]] bool takes_file(Command command);

/// Declares the flags the command takes; `raw` is filled when `app` parses.
void declare_options(CLI::App& app, Command command, RawOptions& raw);

/// Help on the whole program, and on one command whose options `app` holds.
[[nodiscard]] std::string overview();
[[nodiscard]] std::string help_of(const CommandEntry& entry, const CLI::App& app);

}  // namespace leat::render
