#include <fmt/format.h>

#include "render/commands/report/chapters.h"
#include "render/document/svg_in_page.h"

namespace leat::render::report {

std::string counted(std::size_t count, std::string_view noun) {
  return fmt::format("{} {}{}", count, noun, count == 1 ? "" : "s");
}

std::string without_folder(const std::string& file) {
  const std::size_t slash = file.rfind('/');
  return slash == std::string::npos ? file : file.substr(slash + 1);
}

std::string problem_and_hint(const std::string& problem, const std::string& hint) {
  return hint.empty() ? problem : fmt::format("{} ({})", problem, hint);
}

Block picture_or_reason(const std::string& bytes,
                        const std::string& problem,
                        const std::string& prefix,
                        const std::string& name,
                        const std::string& words) {
  if (!problem.empty()) {
    return Paragraph{fmt::format("No picture: {}. The tables say the same.", problem)};
  }
  return Picture{name, svg_in_page(bytes, prefix, words), words};
}

}  // namespace leat::render::report
