#include "model/text/problem_list.h"

#include <algorithm>
#include <string_view>
#include <tuple>

#include "model/text/source_files.h"
#include "model/text/utf8.h"

namespace leat::model {
namespace {

constexpr std::size_t longest_text = 400;

/// A sentence quotes what the file holds: control characters, which reach it through escapes, must
/// not reach a terminal, and a text of megabytes no reader.
std::string made_plain(std::string text) {
  if (text.size() > longest_text) {
    text = std::string(whole_characters(text, longest_text)) + "...";
  }
  for (std::size_t at = 0; at < text.size(); ++at) {
    const auto byte = static_cast<unsigned char>(text[at]);
    const bool later_control =
        byte == 0xC2 && at + 1 < text.size() && static_cast<unsigned char>(text[at + 1]) < 0xA0;
    if (byte < 0x20 || byte == 0x7F) {
      text[at] = '?';
    } else if (later_control) {
      text.replace(at, 2, "?");
    }
  }
  return text;
}

}  // namespace

void ProblemList::add(std::string code,
                      SourcePosition position,
                      std::string text,
                      std::string hint) {
  add_in(file_of(position), std::move(code), position, std::move(text), std::move(hint));
}

std::size_t ProblemList::add_file(std::string file) {
  files_.push_back(std::move(file));
  return files_.size() - 1;
}

const std::string& ProblemList::file_of(SourcePosition position) const {
  const std::size_t index = file_index(position);
  return index < files_.size() ? files_[index] : files_.front();
}

void ProblemList::add_in(std::string file,
                         std::string code,
                         SourcePosition position,
                         std::string text,
                         std::string hint) {
  Diagnostic problem;
  problem.code = std::move(code);
  problem.file = file_index(position) > 0 ? file_of(position) : std::move(file);
  problem.position = within_file(position);
  problem.text = made_plain(std::move(text));
  problem.hint = made_plain(std::move(hint));
  problems_.push_back(std::move(problem));
}

std::vector<Diagnostic> ProblemList::sorted() const {
  std::vector<Diagnostic> all = problems_;
  const auto rank = [this](const Diagnostic& problem) {
    return std::tuple(problem.file != file(),
                      std::string_view(problem.file),
                      problem.position.line,
                      problem.position.column);
  };
  std::stable_sort(all.begin(), all.end(), [&rank](const Diagnostic& a, const Diagnostic& b) {
    return rank(a) < rank(b);
  });
  const auto same = [](const Diagnostic& a, const Diagnostic& b) {
    return a.file == b.file && a.position == b.position && a.code == b.code && a.text == b.text;
  };
  all.erase(std::unique(all.begin(), all.end(), same), all.end());
  return all;
}

}  // namespace leat::model
