// Room: text in, state out; no server, no file, no clock.
// A farm file that is tried out: its text and the changes made to it. Text in, text out: what
// stands on the disk is somebody else's (commands/try).
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "model/edit/edit.h"
#include "model/keys/farm_file.h"

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

class LiveFarm {
 public:
  /// `loaded` was read from `path` and holds a farm.
  LiveFarm(std::string path, model::LoadedFarm loaded);

  [[nodiscard]] const std::string& path() const { return path_; }
  [[nodiscard]] std::shared_ptr<const FarmMoment> now() const { return moment_; }

  /// Puts values into the text. What the loader refuses is not kept.
  [[nodiscard]] std::optional<Refusal> change(const std::vector<model::TextEdit>& parts,
                                              EditRun run);
  /// Takes the last change back; nothing happens where there is none.
  void undo();
  /// The file as it was read again. Changes made here are put on top of it.
  void take_file(model::LoadedFarm loaded);

 private:
  struct UndoStep {
    std::string text_before;
    std::vector<std::vector<std::string>> touched_before;
    std::vector<model::TextEdit> parts;
  };

  void hand_out(FarmMoment moment);

  std::string path_;
  std::shared_ptr<const FarmMoment> moment_;
  std::vector<UndoStep> undo_;
};

}  // namespace leat::render
