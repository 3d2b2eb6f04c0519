// Room: blocks, columns and how a medium shows them; knows no study.
//
// The report before it is laid out: chapters of plain values. Nothing here is markup but the
// pictures, so that no text of the farm's owner can become any.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "render/document/text_table.h"
#include "render/words/findings_text.h"

namespace leat::render::report {

struct Paragraph {
  std::string text;
};
/// A part of a chapter.
struct Subheading {
  std::string text;
};
/// Things and what they are: a description list.
struct Facts {
  std::vector<std::pair<std::string, std::string>> rows;
};
struct Listing {
  enum class Kind { Numbered, Unnumbered };
  Kind kind = Kind::Unnumbered;
  std::vector<std::string> items;
};
/// What is wrong, each behind the word of its severity.
struct Findings {
  std::vector<ToldFinding> all;
};
/// A table; the first heading of `table` is its caption, `first` stands over its first column. Not
/// shown without rows.
struct Figures {
  TextTable table;
  std::string first;
};
/// A picture as SVG (svg_in_page.h) and what it shows in words, for who does not see it.
struct Picture {
  std::string name;
  std::string svg;
  std::string words;
};
/// Text kept line by line: a file.
struct Verbatim {
  std::string name;
  std::string text;
};
/// Lines to be filled in by hand.
struct Signature {
  std::vector<std::string> lines;
};

using Block = std::
    variant<Paragraph, Subheading, Facts, Listing, Findings, Figures, Picture, Verbatim, Signature>;

struct Chapter {
  std::string id;     // stands in links: small letters
  std::string title;  // plain text, as all that follows
  std::vector<Block> blocks;
};

struct Page {
  std::string title;
  std::string date;
  std::string colophon;  // which program, from which file
  std::vector<Chapter> chapters;
};

/// The page as one HTML document that asks for nothing else: no script, no font, no other file. The
/// same page gives the same bytes. Throws std::logic_error where the template and the page do not
/// fit each other, which is a fault of the program.
[[nodiscard]] std::string page_html(const Page& page);

/// The same in another form: a mustache template with the tags of `page_template`.
[[nodiscard]] std::string page_html(const Page& page, std::string_view form);

}  // namespace leat::render::report
