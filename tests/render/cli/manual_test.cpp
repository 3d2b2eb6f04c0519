#include <algorithm>
#include <cctype>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <catch2/catch.hpp>

#include "render/cli/completion.h"
#include "render/cli/manual_page.h"
#include "render/cli/parse.h"
#include "render/commands/registry.h"
#include "tests/render/run_words.h"

namespace leat::render {

namespace {

bool holds(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

/// The page as somebody reads it: no marks of roff.
std::string read_page() {
  std::string page = manual_page();
  for (const auto& [mark, letter] : std::vector<std::pair<std::string, std::string>>{{"\\-", "-"},
                                                                                     {"\\(aq", "'"},
                                                                                     {"\\(ga", "`"},
                                                                                     {"\\fB", ""},
                                                                                     {"\\fI", ""},
                                                                                     {"\\fR", ""},
                                                                                     {"\\&", ""}}) {
    for (std::size_t at = page.find(mark); at != std::string::npos; at = page.find(mark, at)) {
      page.replace(at, mark.size(), letter);
    }
  }
  std::replace(page.begin(), page.end(), '\n', ' ');
  return page;
}

/// The part of the page about one command.
std::string part_of(const std::string& page, const CommandHead& head) {
  const std::size_t start = page.find(".SS \"leat " + std::string(head.word));
  REQUIRE(start != std::string::npos);
  return page.substr(start, page.find(".S", start + 3) - start);
}

/// The words of a text that begin with a hyphen, as the help writes options.
std::vector<std::string> options_told(const std::string& help) {
  std::vector<std::string> options;
  const std::size_t start = help.find("Options:");
  const std::size_t end = help.find("Examples:");
  REQUIRE(start != std::string::npos);
  for (std::size_t line = help.find("\n  -", start); line < end;
       line = help.find("\n  -", line + 1)) {
    std::size_t at = line + 3;
    const std::size_t last = help.find(' ', at);
    while (at < last) {
      const std::size_t comma = std::min(help.find(',', at), last);
      options.push_back(help.substr(at, comma - at));
      at = comma + 1;
    }
  }
  return options;
}

std::string help_text(std::string_view word) {
  return run_words({std::string(word), "--help"}).out;
}

/// What must stand beside an option for the command to be well-formed.
std::vector<std::string> command_with(Command& command) {
  std::vector<std::string> words = {std::string(command.head().word)};
  for (const Option& option : command.options()) {
    if (option.is_argument() && !option.is_optional) {
      words.insert(words.end(), option.is_repeated() ? 2 : 1, "my-farm.yaml");
    }
    if (option.names.back() == "--output") {
      words.insert(words.end(), {"-o", "out." + option.endings.front()});
    }
  }
  return words;
}

}  // namespace

TEST_CASE(
    "the manual page names every command, argument and option of the help, each in its part") {
  const std::string page = read_page();
  const std::string overview = run_words({"--help"}).out;
  std::size_t commands = 0;
  for (const auto& command : all_commands()) {
    const CommandHead head = command->head();
    CAPTURE(head.word);
    CHECK(holds(overview, "\n  " + std::string(head.word) + " "));
    const std::string part = part_of(page, head);
    CHECK(holds(part, head.summary));
    const std::vector<std::string> options = options_told(help_text(head.word));
    CHECK(options.size() >= 3);
    for (const std::string& option : options) {
      CAPTURE(option);
      const bool is_everywhere = option == "-h" || option == "--help" || option == "--json";
      CHECK(holds(is_everywhere ? page : part, option));
    }
    for (const Option& option : command->options()) {
      CAPTURE(option.names.back());
      const bool is_everywhere = option.names.back() == "--help" || option.names.back() == "--json";
      CHECK((is_everywhere || holds(part, option.names.back())));
    }
    ++commands;
  }
  CHECK(commands == 17);
}

TEST_CASE("the manual page tells the exit status, the cautions and what may be missing") {
  const std::string page = read_page();
  for (const char* const part : {".SH NAME leat - gravity water",
                                 ".SH EXIT STATUS",
                                 ".SH CAUTIONS",
                                 "Never start a siphon by mouth",
                                 "Local codes and licensed people decide.",
                                 "gnuplot-nox",
                                 "chromium"}) {
    CAPTURE(part);
    CHECK(holds(page, part));
  }
}

TEST_CASE("no text of the manual page is taken for a command of roff") {
  const std::string page = manual_page();
  const std::vector<std::string> requests = {
      ".TH ", ".SH ", ".SS ", ".TP", ".PP", ".nf", ".fi", ".B ", ".I ", ".RI ", ".BR ", ".br"};
  for (std::size_t start = 0; start < page.size(); start = page.find('\n', start) + 1) {
    const std::string line = page.substr(start, page.find('\n', start) - start);
    CAPTURE(line);
    CHECK(line.rfind('\'', 0) != 0);
    CHECK((line.rfind('.', 0) != 0 ||
           std::any_of(requests.begin(), requests.end(), [&](const std::string& request) {
             return line.rfind(request, 0) == 0;
           })));
    // A backslash only before what the page itself marks.
    for (std::size_t at = line.find('\\'); at != std::string::npos; at = line.find('\\', at + 1)) {
      CHECK(std::string("-(f&e").find(line.at(at + 1)) != std::string::npos);
    }
  }
}

TEST_CASE("every word that completion offers for a value is understood") {
  std::size_t tried = 0;
  for (const auto& command : all_commands()) {
    const CommandHead head = command->head();
    for (const Option& option : command->options()) {
      for (const std::string& word : option.words) {
        std::vector<std::string> line = command_with(*command);
        line.push_back(option.names.back() + "=" + word);
        CAPTURE(head.word, option.names.back(), word);
        CHECK(std::holds_alternative<std::unique_ptr<Command>>(parse_command_line(line)));
        ++tried;
      }
    }
  }
  CHECK(tried > 150);
}

TEST_CASE("an option with a value says in capitals what stands for it") {
  for (const auto& command : all_commands()) {
    const CommandHead head = command->head();
    for (const Option& option : command->options()) {
      CAPTURE(head.word, option.names.back(), option.value);
      CHECK(option.value != "TEXT");
      CHECK(std::none_of(option.value.begin(), option.value.end(), [](char letter) {
        return letter >= 'a' && letter <= 'z';
      }));
      CHECK(std::isalnum(static_cast<unsigned char>(option.sentence.front())) != 0);
    }
  }
}

TEST_CASE("the files that completion offers are those the command writes") {
  const auto endings = [](std::string_view word, const std::string& name) {
    for (const auto& command : all_commands()) {
      for (const Option& option : command->options()) {
        if (command->head().word == word && option.names.back() == name) {
          return option.endings;
        }
      }
    }
    return std::vector<std::string>{"no such option"};
  };
  using Endings = std::vector<std::string>;
  CHECK(endings("draw", "--output") == Endings{"svg", "pdf", "png", "dot"});
  CHECK(endings("profile", "--output") == Endings{"svg", "pdf", "png"});
  CHECK(endings("season", "--output") == Endings{"svg", "pdf", "png"});
  CHECK(endings("map", "--output") == Endings{"geojson", "json"});
  CHECK(endings("report", "--output") == Endings{"html"});
  CHECK(endings("solve", "FILE") == Endings{"yaml", "yml"});
  CHECK(endings("compare", "FILES") == Endings{"yaml", "yml"});
  CHECK(endings("size", "--write") == Endings{"yaml", "yml"});
}

TEST_CASE("manual and completion are printed when asked for, and other shells refused") {
  CHECK(run_words({"--manual"}).out == manual_page());
  CHECK(run_words({"--completion", "bash"}).out == bash_completion());
  CHECK(run_words({"--completion", "zsh"}).out == zsh_completion());
  const Outcome none = run_words({"--completion"});
  CHECK(none.status == 2);
  CHECK(none.err ==
        "leat: --completion wants the name of one shell; write --completion bash or --completion "
        "zsh (try leat --help)\n");
  CHECK(holds(run_words({"--completion", "tcsh"}).err, "--completion cannot be 'tcsh'"));
}

}  // namespace leat::render
