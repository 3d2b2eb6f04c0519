#include "render/io/pdf_printer.h"

#include <cerrno>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <system_error>
#include <utility>
#include <vector>

#include <fmt/format.h>
#include <unistd.h>

#include "render/io/child_process.h"
#include "render/io/interruption.h"
#include "render/io/system_error.h"

namespace leat::render::report {

namespace {

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

std::vector<std::string> words_for(const std::filesystem::path& folder) {
  std::vector<std::string> words = {
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
  ChildCommand chromium;
  chromium.programs = {"chromium", "chromium-browser"};
  chromium.arguments = words_for(folder.path());
  chromium.longest_s = 60;
  const ChildResult ran = run_silent_child(chromium);
  if (ran.start_error == ENOENT) {
    return {"", "Chromium, which prints the PDF, is not installed", install_or_by_hand};
  }
  if (ran.start_error != 0) {
    return {"", fmt::format("cannot start Chromium: {}", reason_of(ran.start_error)), by_hand};
  }
  std::ifstream pdf(folder.path() / "report.pdf", std::ios::binary);
  std::string bytes{std::istreambuf_iterator<char>(pdf), std::istreambuf_iterator<char>()};
  if (!ran.ended_well || bytes.rfind("%PDF", 0) != 0) {
    return {"", "Chromium could not print the page", by_hand};
  }
  return {std::move(bytes), "", ""};
}

}  // namespace leat::render::report
