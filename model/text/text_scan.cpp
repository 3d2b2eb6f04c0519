#include "model/text/text_scan.h"

#include <fmt/format.h>

#include "model/text/utf8.h"

namespace leat::model {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

bool is_blank(char c) {
  return c == ' ' || c == '\t';
}

/// Walks the text keeping track of quotes, brackets and comments, as far as needed to tell a
/// bracket or `#` that means something from one inside a text.
class StructureScan {
 public:
  StructureScan(std::string_view text, ProblemList& problems, TextScan& result)
      : columns_(text), problems_(problems), result_(result) {}

  void run() {
    for (int line = 1; line <= columns_.line_count() && result_.fit_to_parse; ++line) {
      line_ = line;
      text_ = columns_.line_text(line);
      if (in_block_text()) {
        continue;
      }
      check_indent();
      scan_line();
    }
    result_.open_brackets = brackets_;
    if (quote_ != '\0') {
      result_.open_quote = quote_position_;
    }
  }

 private:
  SourcePosition here(std::size_t byte) {
    return columns_.position(line_ - 1, static_cast<int>(byte));
  }

  /// Whether the line is part of a text written after '|' or '>': every mark in it is a letter.
  bool in_block_text() {
    const std::size_t content = text_.find_first_not_of(' ');
    if (block_text_of_ < 0 || content == std::string_view::npos) {
      return block_text_of_ >= 0;
    }
    if (static_cast<int>(content) <= block_text_of_) {
      block_text_of_ = -1;
    }
    return block_text_of_ >= 0;
  }

  void check_indent() {
    const std::size_t content = text_.find_first_not_of(" \t");
    if (quote_ != '\0' || content == std::string_view::npos || text_[content] == '#') {
      return;
    }
    const std::size_t tab = text_.find('\t');
    if (tab < content) {
      problems_.add("tab-indent",
                    here(tab),
                    "the line is indented with a tab",
                    "indent with spaces: a tab has no agreed width");
    }
  }

  void scan_line() {
    token_start_ = true;
    in_plain_ = false;
    for (std::size_t at = 0; at < text_.size(); ++at) {
      const char c = text_[at];
      if (quote_ != '\0') {
        at = pass_quoted(at);
      } else if (c == '#' && (at == 0 || is_blank(text_[at - 1]))) {
        check_cut(at);
        return;
      } else if (!is_blank(c)) {
        take(at, c);
        if (!result_.fit_to_parse) {
          return;
        }
      }
    }
  }

  /// Returns the last byte that belongs to what was passed.
  std::size_t pass_quoted(std::size_t at) {
    if (quote_ == '"' && text_[at] == '\\') {
      return at + 1;
    }
    if (text_[at] != quote_) {
      return at;
    }
    if (quote_ == '\'' && at + 1 < text_.size() && text_[at + 1] == '\'') {
      return at + 1;
    }
    quote_ = '\0';
    return at;
  }

  void take(std::size_t at, char c) {
    const bool in_flow = !brackets_.empty();
    const bool blank_follows = at + 1 == text_.size() || is_blank(text_[at + 1]);
    const bool starts = token_start_;
    token_start_ = false;
    in_plain_ = false;
    if ((c == '\'' || c == '"') && starts) {
      quote_ = c;
      quote_position_ = here(at);
    } else if ((c == '[' || c == '{') && (in_flow || starts)) {
      open_bracket(at);
    } else if ((c == ']' || c == '}') && in_flow) {
      brackets_.pop_back();
    } else if ((c == '|' || c == '>') && starts && !in_flow) {
      block_text_of_ = static_cast<int>(text_.find_first_not_of(' '));
    } else if ((c == ',' && in_flow) || (c == ':' && blank_follows) ||
               ((c == '-' || c == '?') && starts && blank_follows)) {
      token_start_ = true;
    } else {
      in_plain_ = true;
    }
  }

  void open_bracket(std::size_t at) {
    brackets_.push_back(here(at));
    token_start_ = true;
    if (static_cast<int>(brackets_.size()) > deepest_nesting) {
      problems_.add("too-deep",
                    here(at),
                    fmt::format("brackets are nested more than {} deep", deepest_nesting),
                    "a farm needs five or six levels: is a bracket not closed?");
      result_.fit_to_parse = false;
    }
  }

  /// `north #2` reads as `north`: refused where the mark is glued to what follows, as in a name.
  void check_cut(std::size_t at) {
    const bool glued = at + 1 < text_.size() && !is_blank(text_[at + 1]) && text_[at + 1] != '#';
    if (!in_plain_ || !glued) {
      return;
    }
    problems_.add("cut-by-hash",
                  here(at),
                  "' #' starts a comment, so this and what follows is not read",
                  "leave the # out of names; in a comment put a space after it");
  }

  ColumnCounter columns_;
  ProblemList& problems_;
  TextScan& result_;
  std::string_view text_;
  int line_ = 0;
  int block_text_of_ = -1;  // indent of the line that opened a block text; -1 outside one
  char quote_ = '\0';
  SourcePosition quote_position_;
  std::vector<SourcePosition> brackets_;
  bool token_start_ = true;
  bool in_plain_ = false;
};

}  // namespace

bool check_bytes(std::string_view text, const std::string& file, ProblemList& problems) {
  int line = 1;
  int column = 1;
  for (std::size_t at = 0; at < text.size();) {
    const auto byte = static_cast<unsigned char>(text[at]);
    const SourcePosition here{line, column};
    if (byte == '\r' && (at + 1 == text.size() || text[at + 1] != '\n')) {
      problems.add_in(file,
                      "old-line-endings",
                      here,
                      "the line ends in a carriage return alone",
                      "save the file with Unix (LF) or Windows (CRLF) line endings");
      return false;
    }
    const bool control = byte < 0x20 && byte != '\n' && byte != '\r' && byte != '\t';
    if (control || byte == 0x7F) {
      problems.add_in(file,
                      "control-character",
                      here,
                      fmt::format("the byte 0x{:02X} is a control character", byte),
                      byte == 0 ? "save the file as UTF-8 text, not as UTF-16 or a binary file"
                                : "delete it, and write the line again by hand");
      return false;
    }
    const std::size_t length = utf8_length(text, at);
    if (length == 0) {
      problems.add_in(file,
                      "not-utf8",
                      here,
                      fmt::format("the byte 0x{:02X} at offset {} is not UTF-8", byte, at),
                      "save the file as UTF-8 text");
      return false;
    }
    at += length;
    ++column;
    if (byte == '\n') {
      ++line;
      column = 1;
    }
  }
  return true;
}

TextScan scan_text(std::string_view text, ProblemList& problems) {
  TextScan result;
  if (text.size() > largest_file) {
    problems.add("too-large",
                 SourcePosition{1, 1},
                 fmt::format("the file has {} bytes; the most is {}", text.size(), largest_file),
                 "split the farm, or leave survey points out of paths");
    result.fit_to_parse = false;
    return result;
  }
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF")) {
    problems.add(
        "not-utf8", SourcePosition{1, 1}, "the file is UTF-16 text", "save the file as UTF-8 text");
    result.fit_to_parse = false;
    return result;
  }
  if (text.starts_with(byte_order_mark)) {
    text.remove_prefix(byte_order_mark.size());
  }
  result.fit_to_parse = check_bytes(text, problems.file(), problems);
  if (result.fit_to_parse) {
    const std::size_t before = problems.count();
    StructureScan(text, problems, result).run();
    result.fit_to_parse = result.fit_to_parse && problems.count() == before;
  }
  return result;
}

}  // namespace leat::model
