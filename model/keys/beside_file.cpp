#include "model/keys/beside_file.h"

#include <filesystem>
#include <system_error>

#include <fmt/format.h>

#include "model/text/file_text.h"

namespace leat::model {

bool names_csv(const YamlNode& node) {
  return node.kind == YamlNode::Kind::Text && node.text.ends_with(".csv");
}

std::string name_beside(std::string_view name, const std::string& file) {
  const std::size_t slash = file.rfind('/');
  if (name.starts_with('/') || slash == std::string::npos) {
    return std::string(name);
  }
  return file.substr(0, slash + 1).append(name);
}

bool is_same_file(const std::string& one, const std::string& other) {
  const auto real = [](const std::string& file) {
    std::error_code fault;
    const std::filesystem::path path = std::filesystem::weakly_canonical(file, fault);
    return fault ? std::filesystem::path(file).lexically_normal() : path;
  };
  return real(one) == real(other);
}

std::optional<BesideFile> read_beside(const YamlNode& node,
                                      std::string_view what,
                                      LoadContext& context) {
  const std::string name = name_beside(node.text, context.problems.file_of(node.position));
  auto found = read_file_text(name);
  if (const auto* const unreadable = std::get_if<Unreadable>(&found)) {
    context.problems.add(
        "unreadable",
        node.position,
        fmt::format("{}: '{}' cannot be read: {}", what, node.text, unreadable->why),
        "the name is taken from the folder of the file it stands in");
    return std::nullopt;
  }
  return BesideFile{name, std::get<std::string>(std::move(found))};
}

}  // namespace leat::model
