#include "render/io/terminal_style.h"

#include <algorithm>
#include <cstdlib>
#include <iostream>

#include <sys/ioctl.h>
#include <unistd.h>

namespace leat::render {

namespace {

/// Select graphic rendition of ECMA-48: 1 bold, 2 faint, 31 red, 33 yellow.
std::string_view escape_of(Style style) {
  switch (style) {
    case Style::Plain:
      return "";
    case Style::Heading:
      return "\x1b[1m";
    case Style::Danger:
      return "\x1b[1;31m";
    case Style::Caution:
      return "\x1b[33m";
    case Style::Dim:
      return "\x1b[2m";
  }
  return "";
}

bool is_set(const char* variable) {
  const char* const value = std::getenv(variable);
  return value != nullptr && *value != '\0';
}

bool is_dumb() {
  const char* const kind = std::getenv("TERM");
  return kind == nullptr || std::string_view(kind) == "dumb";
}

}  // namespace

Terminal terminal_of_this_process() {
  Terminal terminal;
  terminal.announce = &std::cout;
  if (isatty(STDERR_FILENO) != 0 && !is_dumb()) {
    terminal.progress = &std::cerr;
  }
  if (isatty(STDOUT_FILENO) == 0) {
    return terminal;
  }
  if (!is_set("NO_COLOR") && !is_dumb()) {
    terminal.colour = Colour::On;
  }
  winsize size{};
  if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) {
    terminal.width = size.ws_col;
  }
  return terminal;
}

int text_width(const Terminal& terminal) {
  return std::clamp(terminal.width, 40, widest_text);
}

std::string styled(std::string_view text, Style style, Colour colour) {
  if (colour == Colour::Off || style == Style::Plain) {
    return std::string(text);
  }
  return std::string(escape_of(style)).append(text).append("\x1b[0m");
}

}  // namespace leat::render
