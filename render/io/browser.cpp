#include "render/io/browser.h"

#include <cstdlib>

#include <unistd.h>

#include "render/io/child_process.h"

namespace leat::render {

void open_in_browser(const std::string& address) {
  const bool has_desktop =
      std::getenv("DISPLAY") != nullptr || std::getenv("WAYLAND_DISPLAY") != nullptr;
  if (!has_desktop || isatty(STDOUT_FILENO) == 0) {
    return;
  }
  ChildCommand opener;
  opener.programs = {"xdg-open"};
  opener.arguments = {address};
  start_and_leave(opener);
}

}  // namespace leat::render
