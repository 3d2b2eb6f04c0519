#include "render/io/pdf_printer.h"

#include <array>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <system_error>
#include <thread>
#include <vector>

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include "render/io/interruption.h"
#include "render/io/spawn_settings.h"
#include "render/io/system_error.h"

extern char** environ;

namespace leat::render::report {

namespace {

constexpr std::chrono::seconds longest_wait(60);
constexpr std::chrono::milliseconds look_again(50);
constexpr std::array<const char*, 2> programs = {"chromium", "chromium-browser"};
constexpr const char* by_hand =
    "open the HTML in any browser and print it from there, on A4 or Letter, to paper or PDF";
constexpr const char* install_or_by_hand =
    "on Debian: apt-get install chromium; or open the HTML in any browser and print it from there";

/// A folder that is removed with all that is in it.
class TemporaryFolder {
 public:
  TemporaryFolder() {
    std::error_code error;
    std::string pattern =
        (std::filesystem::temp_directory_path(error) / "leat-report-XXXXXX").string();
    const InterruptionHold hold;
    if (!error && mkdtemp(pattern.data()) != nullptr) {
      path_ = pattern;
      half_done_.begin(hold, [path = path_] { remove(path); });
    }
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  TemporaryFolder(TemporaryFolder&&) = delete;
  TemporaryFolder& operator=(TemporaryFolder&&) = delete;
  ~TemporaryFolder() {
    if (!path_.empty()) {
      const InterruptionHold hold;
      remove(path_);
      half_done_.end(hold);
    }
  }

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  static void remove(const std::filesystem::path& path) {
    std::error_code ignored;  // what cannot be removed stays in the machine's folder for such
    std::filesystem::remove_all(path, ignored);
  }

  std::filesystem::path path_;
  HalfDone half_done_;
};

/// The page with its paper named: a browser's own print dialogue chooses, a run without one cannot.
std::string on_paper(std::string html, model::UnitSystem units) {
  const char* const paper = units == model::UnitSystem::Us ? "letter" : "A4";
  const std::string end = "</style>";
  const std::size_t at = html.find(end);
  if (at != std::string::npos) {
    html.insert(
        at,
        fmt::format("@page {{ size: {} portrait; }}\n@page lying {{ size: {} landscape; }}\n",
                    paper,
                    paper));
  }
  return html;
}

/// Starts the first of `programs` that is there, in a process group of its own: it starts others.
int start(std::vector<std::string>& words, pid_t& child, HalfDone& half_done) {
  SpawnSettings settings(ProcessGroup::Own);
  posix_spawn_file_actions_addopen(settings.actions(), STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_addopen(settings.actions(), STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_addopen(settings.actions(), STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  const InterruptionHold hold;
  int error = ENOENT;
  for (const char* const program : programs) {
    words.front() = program;
    std::vector<char*> pointers;
    for (std::string& word : words) {
      pointers.push_back(word.data());
    }
    pointers.push_back(nullptr);
    error = posix_spawnp(
        &child, program, settings.actions(), settings.attributes(), pointers.data(), environ);
    if (error != ENOENT) {
      break;
    }
  }
  if (error == 0) {
    half_done.begin(hold, [child] {
      kill(-child, SIGKILL);
      int status = 0;
      static_cast<void>(waitpid(child, &status, 0));
    });
  }
  return error;
}

/// Waits for the child's end. Its exit status, or nothing where it took too long and was ended.
bool ended_well(pid_t child) {
  const auto end = std::chrono::steady_clock::now() + longest_wait;
  int status = 0;
  for (;;) {
    const pid_t ended = waitpid(child, &status, WNOHANG);
    if (ended == child) {
      return WIFEXITED(status) && WEXITSTATUS(status) == 0;
    }
    if ((ended < 0 && errno != EINTR) || std::chrono::steady_clock::now() > end) {
      break;
    }
    std::this_thread::sleep_for(look_again);
  }
  kill(-child, SIGKILL);  // its own group: what it has started as well
  while (waitpid(child, &status, 0) < 0 && errno == EINTR) {
  }
  return false;
}

std::vector<std::string> words_for(const std::filesystem::path& folder) {
  std::vector<std::string> words = {
      "",  // the program
      "--headless",
      "--disable-gpu",
      "--disable-dev-shm-usage",
      "--no-first-run",
      "--no-default-browser-check",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      // Whatever a page or Chromium itself would ask the network for finds no address.
      "--host-resolver-rules=MAP * ~NOTFOUND",
      "--no-pdf-header-footer",
      "--user-data-dir=" + (folder / "home").string(),
      "--print-to-pdf=" + (folder / "report.pdf").string()};
  if (geteuid() == 0) {
    words.emplace_back("--no-sandbox");  // root has no sandbox to go into
  }
  words.push_back("file://" + (folder / "report.html").string());
  return words;
}

}  // namespace

PdfResult print_to_pdf(const std::string& html, model::UnitSystem units) {
  const TemporaryFolder folder;
  if (folder.path().empty()) {
    return {"", "there is no room for the page on its way to the PDF", by_hand};
  }
  {
    std::ofstream page(folder.path() / "report.html", std::ios::binary);
    page << on_paper(html, units);
    if (!page.flush()) {
      return {"", "there is no room for the page on its way to the PDF", by_hand};
    }
  }
  std::vector<std::string> words = words_for(folder.path());
  pid_t child = -1;
  HalfDone half_done;
  if (const int error = start(words, child, half_done); error == ENOENT) {
    return {"", "Chromium, which prints the PDF, is not installed", install_or_by_hand};
  } else if (error != 0) {
    return {"", fmt::format("cannot start Chromium: {}", reason_of(error)), by_hand};
  }
  const bool well = ended_well(child);
  half_done.end(InterruptionHold());
  std::ifstream pdf(folder.path() / "report.pdf", std::ios::binary);
  std::string bytes{std::istreambuf_iterator<char>(pdf), std::istreambuf_iterator<char>()};
  if (!well || bytes.rfind("%PDF", 0) != 0) {
    return {"", "Chromium could not print the page", by_hand};
  }
  return {std::move(bytes), "", ""};
}

}  // namespace leat::render::report
