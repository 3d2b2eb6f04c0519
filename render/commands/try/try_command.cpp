#include "render/commands/try/try_command.h"

#include <ostream>

#include <fmt/format.h>

#include "render/commands/command_parts.h"
#include "render/commands/try/page_server.h"
#include "render/document/json_text.h"
#include "render/io/browser.h"
#include "render/io/interruption.h"
#include "render/io/repeater.h"
#include "render/words/diagnostic_text.h"

namespace leat::render {
namespace {

/// Looks at the file on the disk now and then, and ends the server when told to.
Repeater watch(FarmOnTrial& farm, PageServer& server, const InterruptionTaker& taker) {
  return Repeater([&farm, &server, &taker] {
    if (!taker.is_told()) {
      farm.look_at_file();
      return 150;
    }
    farm.release_waiting();
    server.stop();  // again and again: the end may come before the server has begun
    return 20;
  });
}

std::string announcement(const CommandLine& line,
                         const model::Farm& farm,
                         const PageServer& server) {
  if (line.form == OutputForm::Json) {
    Json object;
    object["format"] = 1;
    object["command"] = "try";
    object["farm"] = farm.name;
    object["address"] = server.address();
    object["port"] = server.port();
    return json_text(object);
  }
  return fmt::format(
      "{} can be tried out at\n\n  {}\n\n"
      "The page is for this machine alone. The file stays as it is: what you change is saved only "
      "as a new\nfile, when you ask for it. Ctrl-C ends the page.\n",
      farm.name,
      server.address());
}

}  // namespace

CommandResult try_command(const CommandLine& line,
                          const model::LoadedFarm& loaded,
                          const Terminal& terminal) {
  if (terminal.announce == nullptr) {
    return failure(line, {problem_of("nowhere-to-tell", "nobody would learn the address", "")}, {});
  }
  FarmOnTrial farm(line.file, loaded);
  PageServer server(farm, line.units);
  if (!server.bind()) {
    return failure(line, {problem_of("no-port", "the system gives no port for the page", "")}, {});
  }
  const InterruptionTaker taker;
  *terminal.announce << announcement(line, *loaded.farm, server) << std::flush;
  if (!*terminal.announce) {
    return failure(line,
                   {problem_of("nowhere-to-tell",
                               "the page's address could not be written to stdout",
                               "run leat try where its output can be read")},
                   {});
  }
  if (line.browser == Browser::Open) {
    open_in_browser(server.address());
  }
  {
    const Repeater watching = watch(farm, server, taker);
    server.serve();
  }
  CommandResult result;
  result.err = problems_text(loaded.problems, loaded) + "the page has ended\n";
  return result;
}

}  // namespace leat::render
