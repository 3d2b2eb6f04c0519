#include "render/commands/new/schema_file.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <system_error>

#include <fmt/format.h>

#include "model/keys/schema.h"
#include "render/io/installed_files.h"

namespace leat::render {

namespace {

/// The path as editors read it in one word: a file URI (RFC 8089) where it holds what ends a word
/// or means something else there.
std::string as_one_word(const std::string& path) {
  const auto is_plain = [](char letter) {
    const auto byte = static_cast<unsigned char>(letter);
    return byte > 0x20U && byte != 0x7FU && letter != '%' && letter != '#' && letter != '?';
  };
  if (std::all_of(path.begin(), path.end(), is_plain)) {
    return path;
  }
  std::string word = path.starts_with('/') ? "file://" : "";
  for (const char letter : path) {
    word += is_plain(letter)
                ? std::string(1, letter)
                : fmt::format("%{:02X}", static_cast<unsigned>(static_cast<unsigned char>(letter)));
  }
  return word;
}

}  // namespace

std::string schema_text() {
  return model::farm_schema();
}

std::optional<std::string> schema_on_this_machine() {
  if (const InstalledFiles installed = installed_files(); installed.schema) {
    return installed.schema;
  }
  std::error_code fault;
  const std::filesystem::path program = std::filesystem::read_symlink("/proc/self/exe", fault);
  if (fault) {
    return std::nullopt;
  }
  constexpr std::array<const char*, 2> places = {
      "../../model/keys",
      "../model/keys"};  // from the folder of a program that was built and not installed
  for (const char* const place : places) {
    const std::filesystem::path file =
        (program.parent_path() / place / schema_name).lexically_normal();
    if (std::filesystem::is_regular_file(file, fault)) {
      return file.string();
    }
  }
  return std::nullopt;
}

std::string schema_line(const std::string& where) {
  return "# yaml-language-server: $schema=" + as_one_word(where) + "\n";
}

}  // namespace leat::render
