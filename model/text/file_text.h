// Room: bytes with positions; it knows no farm.
//
// A file's bytes, or why they cannot be had.
#pragma once

#include <string>
#include <variant>

namespace leat::model {

/// Why a file could not be read: "there is no such file".
struct Unreadable {
  std::string why;
};

/// Reads a whole file. Anything but a regular file (a folder, a device that never ends) and files
/// above the size limit of farm files are refused.
[[nodiscard]] std::variant<std::string, Unreadable> read_file_text(const std::string& path);

}  // namespace leat::model
