#include <fstream>
#include <iterator>

#include <fmt/format.h>

#include "render/commands/report/chapters.h"

namespace leat::render::report {

namespace {

std::string text_of(const std::string& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

}  // namespace

Chapter file_chapter(const Subject& subject) {
  Chapter chapter{"file", "The farm file", {}};
  chapter.blocks.emplace_back(Verbatim{without_folder(subject.farm.file), subject.loaded.source});
  for (std::size_t i = 1; i < subject.loaded.files.size(); ++i) {
    const std::string& base = subject.loaded.files[i];
    chapter.blocks.emplace_back(
        Verbatim{fmt::format("{}, which it is based on", without_folder(base)), text_of(base)});
  }
  if (!subject.loaded.csv_files.empty()) {
    chapter.blocks.emplace_back(
        Paragraph{"The CSV files named in it are not printed here: keep them beside it."});
  }
  return chapter;
}

}  // namespace leat::render::report
