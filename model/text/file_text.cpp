#include "model/text/file_text.h"

#include <filesystem>
#include <fstream>
#include <iterator>

#include <fmt/format.h>

#include "model/text/text_scan.h"

namespace leat::model {

std::variant<std::string, Unreadable> read_file_text(const std::string& path) {
  std::error_code fault;
  const std::filesystem::file_status status = std::filesystem::status(path, fault);
  if (status.type() == std::filesystem::file_type::not_found) {
    return Unreadable{"there is no such file"};
  }
  if (status.type() != std::filesystem::file_type::regular) {
    return Unreadable{"it is not a plain file"};
  }
  if (std::filesystem::file_size(path, fault) > largest_file) {
    return Unreadable{fmt::format("it has more than {} bytes", largest_file)};
  }
  std::ifstream stream(path, std::ios::binary);
  if (!stream) {
    return Unreadable{"it may not be opened"};
  }
  std::string text((std::istreambuf_iterator<char>(stream)), std::istreambuf_iterator<char>());
  if (stream.bad()) {
    return Unreadable{"reading it failed"};
  }
  return text;
}

}  // namespace leat::model
