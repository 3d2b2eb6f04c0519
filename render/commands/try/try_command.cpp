#include "render/commands/try/try_command.h"

#include <atomic>
#include <chrono>
#include <ostream>
#include <thread>

#include <fmt/format.h>

#include "render/commands/command_parts.h"
#include "render/commands/try/page_server.h"
#include "render/document/json_text.h"
#include "render/io/browser.h"
#include "render/io/interruption.h"
#include "render/page/live_farm.h"
#include "render/words/diagnostic_text.h"

namespace leat::render {
namespace {

/// Looks at the file on the disk now and then, and ends the server when told to.
class Watch {
 public:
  Watch(LiveFarm& farm, PageServer& server, const std::atomic<bool>& is_told_to_end)
      : thread_([this, &farm, &server, &is_told_to_end] {
          while (!is_told_to_end && !is_over_) {
            std::this_thread::sleep_for(std::chrono::milliseconds(150));
            farm.look_at_file();
          }
          farm.release_waiting();
          while (!is_over_) {  // the end may come before the server has begun
            server.stop();
            std::this_thread::sleep_for(std::chrono::milliseconds(20));
          }
        }) {}
  ~Watch() {
    is_over_ = true;
    thread_.join();
  }
  Watch(const Watch&) = delete;
  Watch& operator=(const Watch&) = delete;
  Watch(Watch&&) = delete;
  Watch& operator=(Watch&&) = delete;

 private:
  std::atomic<bool> is_over_ = false;
  std::thread thread_;
};

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
  LiveFarm farm(line.file, loaded);
  PageServer server(farm, line.units);
  if (!server.bind()) {
    return failure(line, {problem_of("no-port", "the system gives no port for the page", "")}, {});
  }
  std::atomic<bool> is_told_to_end = false;
  const InterruptionTaker taker([&is_told_to_end] { is_told_to_end = true; });
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
    const Watch watch(farm, server, is_told_to_end);
    server.serve();
  }
  CommandResult result;
  result.err = problems_text(loaded.problems, loaded) + "the page has ended\n";
  return result;
}

}  // namespace leat::render
