#include "render/io/spawn_settings.h"

#include <csignal>

namespace leat::render {

SpawnSettings::SpawnSettings(ProcessGroup group) {
  posix_spawn_file_actions_init(&actions_);
  posix_spawnattr_init(&attributes_);
  const bool is_own = group == ProcessGroup::Own;
  const int flags = POSIX_SPAWN_SETSIGMASK | (is_own ? POSIX_SPAWN_SETPGROUP : 0);
  posix_spawnattr_setflags(&attributes_, static_cast<short>(flags));
  posix_spawnattr_setpgroup(&attributes_, 0);
  sigset_t none{};
  sigemptyset(&none);
  posix_spawnattr_setsigmask(&attributes_, &none);
}

SpawnSettings::~SpawnSettings() {
  posix_spawnattr_destroy(&attributes_);
  posix_spawn_file_actions_destroy(&actions_);
}

}  // namespace leat::render
