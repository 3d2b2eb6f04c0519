#include "render/io/installed_files.h"

#include <filesystem>
#include <system_error>

#include "version.h"

namespace leat::render {

InstalledFiles installed_files() {
  InstalledFiles files;
  std::error_code error;
  const std::filesystem::path program = std::filesystem::read_symlink("/proc/self/exe", error);
  if (error) {
    return files;
  }
  const std::filesystem::path shared =
      (program.parent_path() / shared_folder_from_program).lexically_normal();
  if (std::filesystem::is_directory(shared / "networks-demo", error)) {
    files.demo_farms = (shared / "networks-demo").string();
  }
  if (std::filesystem::is_regular_file(shared / "farm.schema.json", error)) {
    files.schema = (shared / "farm.schema.json").string();
  }
  return files;
}

}  // namespace leat::render
