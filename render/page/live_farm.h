// A farm file that is tried out: its text, the changes made to it, and the file on the disk, which
// an editor may change meanwhile.
#pragma once

#include <chrono>
#include <condition_variable>
#include <cstddef>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "model/edit/text_splice.h"
#include "model/keys/farm_file.h"
#include "render/io/output_file.h"

namespace leat::render {

/// The farm at one moment; never changes once it is handed out.
struct FarmMoment {
  int version = 0;                                // rises with every change
  model::LoadedFarm saved;                        // the file, when it was last sound
  model::LoadedFarm tried;                        // the same with the changes made here
  std::vector<std::vector<std::string>> touched;  // paths changed here, each once
  std::size_t undo_steps = 0;
  std::string broken;  // what is wrong with the file on the disk now; empty where it is sound
  std::string notice;  // what happened to the file, for a person; may be empty
};

/// Why a change was not made: the loader's own words with the line.
struct Refusal {
  std::vector<model::Diagnostic> problems;
  std::string text;
};

/// Whether an edit goes on with the one before it, as a slider does while it is drawn: then one
/// undo takes back both.
enum class EditRun { New, Continued };

/// May be used by several threads.
class LiveFarm {
 public:
  /// `loaded` was read from `path` and holds a farm.
  LiveFarm(std::string path, model::LoadedFarm loaded);

  [[nodiscard]] std::shared_ptr<const FarmMoment> now() const;

  /// Puts values into the text. What the loader refuses is not kept.
  [[nodiscard]] std::optional<Refusal> change(const std::vector<model::TextEdit>& parts,
                                              EditRun run);
  /// Takes the last change back; nothing happens where there is none.
  void undo();

  /// Writes the text with its changes to a new file beside the old one. `name` has no folder in it,
  /// ends in .yaml or .yml, and names no file that is there.
  [[nodiscard]] std::optional<OutputProblem> save_as(const std::string& name) const;

  /// Reads the file again where it changed on the disk. Changes made here are put on top.
  void look_at_file();

  /// Waits until the version is another than `known` or the time is over; the version then.
  [[nodiscard]] int wait_for_change(int known, std::chrono::milliseconds longest) const;
  /// Lets all who wait go, now and later.
  void release_waiting();

 private:
  struct UndoStep {
    std::string text_before;
    std::vector<std::vector<std::string>> touched_before;
    std::vector<model::TextEdit> parts;
  };

  void hand_out(FarmMoment moment);
  void take_file(model::LoadedFarm loaded);

  const std::string path_;
  mutable std::mutex mutex_;
  mutable std::condition_variable changed_;
  std::shared_ptr<const FarmMoment> moment_;
  std::vector<UndoStep> undo_;
  std::string seen_on_disk_;  // when and how large the files were
  bool is_released_ = false;
};

}  // namespace leat::render
