#include <csignal>
#include <iostream>
#include <string>
#include <vector>

#include "render/run.h"

int main(int count, char** words) {
  // A reader that has seen enough (`leat ... | head`) is no failure; run() sees the write error.
  std::signal(SIGPIPE, SIG_IGN);
  const std::vector<std::string> arguments(words + (count > 0 ? 1 : 0), words + count);
  return leat::render::run(
      arguments, std::cout, std::cerr, leat::render::terminal_of_this_process());
}
