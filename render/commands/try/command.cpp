#include "render/commands/try/command.h"

#include <atomic>
#include <chrono>
#include <cstdlib>
#include <ostream>
#include <thread>

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <unistd.h>

#include "render/commands/command_parts.h"
#include "render/commands/shared_options.h"
#include "render/commands/try/page_server.h"
#include "render/document/json_text.h"
#include "render/io/interruption.h"
#include "render/io/spawn_settings.h"
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

/// Opens the address in the browser of the desktop there is; what it says goes nowhere.
void open_browser(const std::string& address) {
  const bool has_desktop =
      std::getenv("DISPLAY") != nullptr || std::getenv("WAYLAND_DISPLAY") != nullptr;
  if (!has_desktop || isatty(STDOUT_FILENO) == 0) {
    return;
  }
  SpawnSettings settings(ProcessGroup::Leats);
  for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
    posix_spawn_file_actions_addopen(settings.actions(), stream, "/dev/null", O_RDWR, 0);
  }
  std::string word = "xdg-open";
  std::string where = address;
  char* const arguments[] = {word.data(), where.data(), nullptr};
  pid_t process = 0;
  // Where there is no such program, the printed address does.
  static_cast<void>(posix_spawnp(
      &process, "xdg-open", settings.actions(), settings.attributes(), arguments, environ));
}

std::string announcement(const TryCommand& asked,
                         const model::Farm& farm,
                         const PageServer& server) {
  if (asked.json) {
    Json object;
    object["format"] = 1;
    object["command"] = asked.head().word;
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

CommandHead TryCommand::head() const {
  return {
      "try",
      "A page on this machine: turn valves, change pipe, see the water change; saves new files.",
      "  leat try my-farm.yaml\n  leat try my-farm.yaml --no-browser\n"};
}

std::vector<Option> TryCommand::farm_options() {
  return {switch_option({"--no-browser"}, "only print the address, open no browser", no_browser),
          units_option(units)};
}

CommandResult TryCommand::answer(const model::LoadedFarm& loaded, const Terminal& terminal) const {
  if (terminal.announce == nullptr) {
    return failure(
        *this, {problem_of("nowhere-to-tell", "nobody would learn the address", "")}, {});
  }
  LiveFarm farm(file, loaded);
  PageServer server(farm, units);
  if (!server.bind()) {
    return failure(*this, {problem_of("no-port", "the system gives no port for the page", "")}, {});
  }
  std::atomic<bool> is_told_to_end = false;
  const InterruptionTaker taker([&is_told_to_end] { is_told_to_end = true; });
  *terminal.announce << announcement(*this, *loaded.farm, server) << std::flush;
  if (!*terminal.announce) {
    return failure(*this,
                   {problem_of("nowhere-to-tell",
                               "the page's address could not be written to stdout",
                               "run leat try where its output can be read")},
                   {});
  }
  if (!no_browser) {
    open_browser(server.address());
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
