// What a document shows of leat, `$ leat ...` with the lines it prints, run as a reader would.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "tests/docs/document.h"
#include "tests/render/temporary_folder.h"

namespace leat::tests {

/// A command that a document shows, and the lines shown under it.
struct ShownRun {
  std::vector<std::string> words;  // without the leading "leat"; quotes taken off
  bool shows_status = false;       // written `leat ...; echo $?`: the last line is the exit status
  std::vector<std::string> lines;
  int line = 0;  // of the document, from 1
};

/// Every `$ leat ...` inside fenced blocks, in order.
[[nodiscard]] std::vector<ShownRun> shown_runs(const std::string& text);

/// The first shown line that the output does not have where it should; empty when all are there.
/// `...` stands for lines left out, and a blank line may stand at the end of what is shown. A line
/// that ends in ` ...` is the beginning of a longer one. A number printed with all its digits, as
/// JSON does, may be shown with fewer, to one millionth.
[[nodiscard]] std::string first_line_missing(const std::vector<std::string>& shown,
                                             const std::string& output);

/// The working folder of one document's commands while it lives: its named blocks are files there,
/// `networks-demo` is the repository's, and the day is fixed.
class ExampleFolder {
 public:
  /// Blocks that begin with a remark `# NAME.yaml` or `# NAME.csv` are written under that name.
  explicit ExampleFolder(const std::string& text);
  ExampleFolder(const ExampleFolder&) = delete;
  ExampleFolder& operator=(const ExampleFolder&) = delete;
  ~ExampleFolder();

  [[nodiscard]] const render::TemporaryFolder& files() const { return folder_; }

 private:
  render::TemporaryFolder folder_;
  std::filesystem::path before_;
};

/// What a shell would show of the run: what leat prints, then its messages, then the exit status if
/// it is asked for.
struct RunOutcome {
  int status = 0;
  std::string shown;
  std::string messages;
};
[[nodiscard]] RunOutcome outcome_of(const ShownRun& run);

/// The file name a block gives itself in its first line; empty where it gives none.
[[nodiscard]] std::string name_of(const FencedBlock& block);

/// Runs all a document shows and checks every line of it; checks too that no block of the document
/// that looks like output stands without the command that prints it.
void check_shown_runs(const std::string& name);

}  // namespace leat::tests
