// How other programs are started: with no signal blocked, and in whose process group.
#pragma once

#include <spawn.h>

namespace leat::render {

/// One of its own: Ctrl-C is then leat's to answer.
enum class ProcessGroup { Own, Leats };

/// Attributes and file actions of one start, given back at its end.
class SpawnSettings {
 public:
  explicit SpawnSettings(ProcessGroup group);
  ~SpawnSettings();
  SpawnSettings(const SpawnSettings&) = delete;
  SpawnSettings& operator=(const SpawnSettings&) = delete;

  [[nodiscard]] posix_spawn_file_actions_t* actions() { return &actions_; }
  [[nodiscard]] const posix_spawnattr_t* attributes() const { return &attributes_; }

 private:
  posix_spawn_file_actions_t actions_{};
  posix_spawnattr_t attributes_{};
};

}  // namespace leat::render
