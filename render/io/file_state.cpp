#include "render/io/file_state.h"

#include <filesystem>
#include <system_error>

#include <fmt/format.h>
#include <sys/stat.h>

namespace leat::render {

std::string look_of(const std::vector<std::string>& files) {
  std::string look;
  for (const std::string& file : files) {
    struct stat seen {};
    if (stat(file.c_str(), &seen) == 0) {
      look += fmt::format("{} {} {} {};",
                          seen.st_ino,
                          seen.st_size,
                          static_cast<long long>(seen.st_mtim.tv_sec),
                          seen.st_mtim.tv_nsec);
    } else {
      look += "none;";
    }
  }
  return look;
}

std::string beside(const std::string& file, const std::string& name) {
  return (std::filesystem::path(file).parent_path() / name).string();
}

std::string stem_of(const std::string& file) {
  return std::filesystem::path(file).stem().string();
}

bool is_taken(const std::string& path) {
  std::error_code unheard;
  // A link that leads elsewhere is an existing file too, even where nothing stands at its end.
  return std::filesystem::symlink_status(path, unheard).type() !=
         std::filesystem::file_type::not_found;
}

}  // namespace leat::render
