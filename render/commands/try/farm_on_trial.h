// The farm of a page and its file on the disk, which an editor may change meanwhile.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "render/io/output_file.h"
#include "render/io/shared.h"
#include "render/page/live_farm.h"

namespace leat::render {

/// May be used by several threads.
class FarmOnTrial {
 public:
  /// `loaded` was read from `path` and holds a farm.
  FarmOnTrial(std::string path, model::LoadedFarm loaded);

  [[nodiscard]] std::shared_ptr<const FarmMoment> now() const;
  /// As LiveFarm's.
  [[nodiscard]] std::optional<Refusal> change(const std::vector<model::TextEdit>& parts,
                                              EditRun run);
  void undo();

  /// Writes the text with its changes to a new file beside the old one. `name` has no folder in it,
  /// ends in .yaml or .yml, and names no file that is there.
  [[nodiscard]] std::optional<OutputProblem> save_as(const std::string& name) const;
  /// A name for such a file that nothing bears now.
  [[nodiscard]] std::string free_name() const;

  /// Reads the file again where it changed on the disk. Changes made here are put on top.
  void look_at_file();

  /// Waits until the version is another than `known` or the time is over; the version then.
  [[nodiscard]] int wait_for_change(int known, int longest_ms) const;
  /// Lets all who wait go, now and later.
  void release_waiting();

 private:
  struct State {
    LiveFarm farm;
    std::string seen_on_disk;  // when and how large the files were
    bool is_released = false;
  };

  const std::string path_;
  Shared<State> state_;
};

}  // namespace leat::render
