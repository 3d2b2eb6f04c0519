#include "render/cli/manual_page.h"

#include <string_view>

#include <fmt/format.h>

#include "render/commands/registry.h"
#include "render/document/text_table.h"
#include "render/io/clock.h"
#include "version.h"

namespace leat::render {

namespace {

constexpr int source_width = 66;  // with its marks a line stays below 80

/// The text as roff prints it as it stands: hyphens that can be copied, no letter a command.
std::string escaped(std::string_view text) {
  std::string out;
  for (const char letter : text) {
    switch (letter) {
      case '\\':
        out += "\\e";
        break;
      case '-':
        out += "\\-";
        break;
      case '\'':
        out += "\\(aq";
        break;
      case '`':
        out += "\\(ga";
        break;
      case '^':
        out += "\\(ha";
        break;
      case '~':
        out += "\\(ti";
        break;
      default:
        out += letter;
    }
  }
  return out;
}

/// Lines of running text. A line that begins with a dot would be a command.
std::string running_text(std::string_view text) {
  std::string out;
  const std::string lines = wrapped(text, source_width, 0);
  for (std::size_t start = 0; start < lines.size();) {
    const std::size_t end = lines.find('\n', start);
    const std::string_view line = std::string_view(lines).substr(start, end - start);
    out += (line.rfind('.', 0) == 0 ? "\\&" : "") + escaped(line) + '\n';
    start = end + 1;
  }
  return out;
}

std::string section(std::string_view name) {
  return fmt::format(".SH {}\n", name);
}

/// A term and what it means, as a list's item.
std::string item(const std::string& term, std::string_view meaning) {
  return ".TP\n" + term + '\n' + running_text(meaning);
}

std::string bold(std::string_view text) {
  return "\\fB" + escaped(text) + "\\fR";
}

std::string italic(std::string_view text) {
  return "\\fI" + escaped(text) + "\\fR";
}

std::string example_lines(std::string_view lines) {
  std::string text = ".nf\n";
  for (std::size_t start = 0; start < lines.size();) {
    const std::size_t end = lines.find('\n', start);
    text += escaped(lines.substr(start, end - start)) + '\n';
    start = end + 1;
  }
  return text + ".fi\n";
}

/// "-o, --output OUT" or "--csv[=TABLE]".
std::string term_of(const Option& option) {
  if (option.is_argument()) {
    return italic(option.names.front());
  }
  std::string term;
  for (const std::string& name : option.names) {
    term += (term.empty() ? "" : ", ") + bold(name);
  }
  if (option.may_have_value()) {
    const char* const start = option.place == ValuePlace::BehindEquals ? "[=" : " [";
    return term + start + italic(option.value) + "]";
  }
  return option.wants_value() ? term + ' ' + italic(option.value) : term;
}

bool is_for_every_command(const Option& option) {
  return option.names.back() == "--help" || option.names.back() == "--json";
}

std::string command_part(Command& command) {
  const CommandHead head = command.head();
  std::string heading = fmt::format("leat {}", head.word);
  std::string list;
  for (const Option& option : command.options()) {
    if (option.is_argument()) {
      heading += option.is_optional ? fmt::format(" [{}]", option.names.front())
                                    : fmt::format(" {}", option.names.front());
      heading += option.is_repeated() ? " ..." : "";
    }
    if (!is_for_every_command(option)) {
      list += item(term_of(option), option.sentence);
    }
  }
  return fmt::format(".SS \"{}\"\n", escaped(heading)) + running_text(head.summary) + list +
         ".PP\nExamples:\n.PP\n" + example_lines(head.examples);
}

std::string head() {
  return fmt::format(".TH LEAT 1 \"{}\" \"leat {}\" \"Gravity water for a small farm\"\n",
                     drawing_date(),
                     program_version) +
         section("NAME") + "leat \\- gravity water for a small farm\n" + section("SYNOPSIS") +
         ".B leat\n.I COMMAND\n.RI [ FILE ]\n.RI [ FLAGS ]\n.br\n.B leat\n.I COMMAND\n"
         ".B \\-\\-help\n.br\n.B leat \\-\\-help\n.br\n.B leat \\-\\-version\n";
}

std::string description() {
  return section("DESCRIPTION") +
         running_text(
             "leat works out what water does on a farm that is fed by gravity: springs, creeks, "
             "siphons, tanks and plastic pipe, ponds and stock troughs, no mains. You write what "
             "you measured with bucket, watch, tape and level into one text file, the farm file. "
             "leat tells how much each trough, outlet and pond gets, who goes short, when and why, "
             "whether a siphon holds and how to prime it, and where a pipe bursts or is sucked "
             "flat; it draws the farm with its answer.") +
         ".PP\n" +
         running_text(
             "Begin with 'leat new my-farm.yaml', put in your own levels and lengths, look at "
             "'leat read my-farm.yaml' to see what was understood, then ask 'leat solve "
             "my-farm.yaml'. Every number in the file carries its unit. A name or a value with a "
             "space stands in quotes on the command line.") +
         ".PP\n" +
         running_text(
             "Answers go to the standard output, everything else to the standard error. No file "
             "is written over unless --replace is given, the farm file no more than others.");
}

std::string every_command() {
  return section("OPTIONS OF EVERY COMMAND") +
         item(bold("-h") + ", " + bold("--help"), "say what the command takes") +
         item(bold("--json"),
              "print the answer, or what is wrong, as JSON: SI, the unit in each key") +
         section("OPTIONS WITHOUT A COMMAND") + item(bold("--help"), "list the commands") +
         item(bold("--version"),
              "print the version, and where the demo farms and the schema for editors are, if they "
              "are installed") +
         item(bold("--manual"), "print this page in the language of roff") +
         item(bold("--completion") + ' ' + italic("SHELL"),
              "print the completion script for bash or zsh");
}

std::string endings() {
  return section("EXIT STATUS") + item(bold("0"), "solved, and nothing amiss that leat checks") +
         item(bold("1"), "solved, and something starves or is flagged caution or danger") +
         item(bold("2"),
              "the file, the command line or the solution failed; what is wrong is said") +
         item(bold("70"), "a fault of leat itself") + section("ENVIRONMENT") +
         item(bold("NO_COLOR"), "no colours on the screen, if it is set and not empty") +
         item(bold("SOURCE_DATE_EPOCH"),
              "the day that drawings bear, in seconds since 1970 (UTC), instead of today") +
         section("FILES") +
         item(italic("FILE") + ".yaml",
              "the farm file; FORMAT.md among the documents explains every key") +
         item("share/leat/networks\\-demo/", "demo farms, a numbered tour; README.md lists them") +
         item("share/leat/farm.schema.json",
              "the JSON Schema of the farm file, for editors that check as you type; 'leat new' "
              "names it in the first line of the file it writes") +
         ".PP\n" +
         running_text(
             "The last two stand beside the program's own folder: under /usr for a "
             "Debian package. 'leat --version' says where.") +
         section("NOTES") +
         running_text(
             "Pictures of profiles and seasons are drawn by gnuplot (Debian package "
             "gnuplot-nox), the PDF of a report is printed by Chromium (package "
             "chromium). Without them leat says what is missing, and all else works.");
}

std::string cautions() {
  return section("CAUTIONS") +
         running_text(
             "An answer is as good as the levels in the file; 'nothing amiss' means nothing that "
             "leat checks. Never start a siphon by mouth, and know how to stop it before you "
             "start it. Suction holds hands and children: screen every intake. Never enter a "
             "spring box or a cistern (gas, drowning). Drain and vent a line before cutting it. A "
             "still line in the sun builds pressure. Leave stock another supply while a line is "
             "on trial. Ask the dam-safety office before you touch a bank or spillway. Call "
             "before digging. Not drinking water unless tested. Water rights come first. Local "
             "codes and licensed people decide. If the low case says no, the answer is no.") +
         section("SEE ALSO") + ".BR gnuplot (1),\n.BR chromium (1)\n.PP\n" +
         running_text(
             "README.md, FORMAT.md (the farm file), OUTPUT.md (columns, keys, states, "
             "flags) and METHOD.md (equations and their sources), in share/doc/leat.");
}

}  // namespace

std::string manual_page() {
  std::string page = head() + description() + section("COMMANDS");
  for (const auto& command : all_commands()) {
    page += command_part(*command);
  }
  return page + every_command() + endings() + cautions();
}

}  // namespace leat::render
