#include <iostream>
#include <string>
#include <vector>

#include "render/cli/run.h"
#include "render/io/process.h"

int main(int count, char** words) {
  leat::render::prepare_process();
  const std::vector<std::string> arguments(words + (count > 0 ? 1 : 0), words + count);
  return leat::render::run(
      arguments, std::cout, std::cerr, leat::render::terminal_of_this_process());
}
