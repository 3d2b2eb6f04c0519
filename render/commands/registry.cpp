#include "render/commands/registry.h"

#include "render/commands/catalogues/command.h"
#include "render/commands/compare/command.h"
#include "render/commands/draw/command.h"
#include "render/commands/fit/command.h"
#include "render/commands/improve/command.h"
#include "render/commands/map/command.h"
#include "render/commands/new/command.h"
#include "render/commands/prime/command.h"
#include "render/commands/profile/command.h"
#include "render/commands/read/command.h"
#include "render/commands/report/command.h"
#include "render/commands/season/command.h"
#include "render/commands/size/command.h"
#include "render/commands/solve/command.h"
#include "render/commands/try/command.h"

namespace leat::render {

namespace {

template <class... Commands>
std::vector<std::unique_ptr<Command>> one_of_each() {
  std::vector<std::unique_ptr<Command>> commands;
  (commands.push_back(std::make_unique<Commands>()), ...);
  return commands;
}

}  // namespace

std::vector<std::unique_ptr<Command>> all_commands() {
  return one_of_each<NewCommand,
                     ReadCommand,
                     SolveCommand,
                     DrawCommand,
                     ProfileCommand,
                     PrimeCommand,
                     SeasonCommand,
                     CompareCommand,
                     TryCommand,
                     ImproveCommand,
                     SizeCommand,
                     FitCommand,
                     MapCommand,
                     ReportCommand,
                     PipesCommand,
                     FittingsCommand,
                     HerdCommand>();
}

}  // namespace leat::render
