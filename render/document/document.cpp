#include "render/document/document.h"

#include <cstddef>
#include <stdexcept>
#include <string_view>

#include <fmt/format.h>
#include <kainjow/mustache.hpp>

#include "render/document/page_template.h"
#include "render/words/running_text.h"
#include "solver/answer/steady_answer.h"

namespace leat::render::report {

namespace {

using Data = kainjow::mustache::data;

/// Fills the template, and remembers every tag that nothing stands for: mustache itself prints
/// nothing there and says nothing.
class StrictContext : public kainjow::mustache::context<std::string> {
 public:
  explicit StrictContext(const Data* data) : context(data) {}

  const Data* get(const std::string& name) const override {
    const Data* const found = context::get(name);
    if (found == nullptr && missing_.empty()) {
      missing_ = name;
    }
    return found;
  }

  [[nodiscard]] const std::string& missing() const { return missing_; }

 private:
  mutable std::string missing_;
};

constexpr const char* block_kinds[] = {"is_paragraph",
                                       "is_subheading",
                                       "is_facts",
                                       "is_numbered",
                                       "is_unnumbered",
                                       "is_findings",
                                       "is_figures",
                                       "is_picture",
                                       "is_verbatim",
                                       "is_signature"};

Data block_of(std::string_view kind) {
  Data block(Data::type::object);
  for (const char* const each : block_kinds) {
    block.set(each, each == kind);
  }
  return block;
}

/// A list whose elements carry their text under `name`.
Data list_of(const std::vector<std::string>& texts, const std::string& name) {
  Data list(Data::type::list);
  for (const std::string& text : texts) {
    Data item(Data::type::object);
    item.set(name, printable(text));
    list << item;
  }
  return list;
}

Data text_block(std::string_view kind, const std::string& text) {
  Data block = block_of(kind);
  block.set("block_text", printable(text));
  return block;
}

Data items_block(std::string_view kind, const std::vector<std::string>& items) {
  Data block = block_of(kind);
  block.set("items", list_of(items, "item_text"));
  return block;
}

Data facts_block(const Facts& facts) {
  Data list(Data::type::list);
  for (const auto& [name, text] : facts.rows) {
    Data fact(Data::type::object);
    fact.set("fact_name", printable(name));
    fact.set("fact_text", printable(text));
    list << fact;
  }
  Data block = block_of("is_facts");
  block.set("facts", list);
  return block;
}

Data findings_block(const Findings& findings) {
  Data list(Data::type::list);
  for (const ToldFinding& finding : findings.all) {
    Data item(Data::type::object);
    item.set("finding_word", std::string(solver::word_of(finding.severity)));
    item.set("finding_text", printable(finding.text));
    list << item;
  }
  Data block = block_of("is_findings");
  block.set("findings", list);
  return block;
}

/// A caption begins with a large letter; the screen's headings do not.
std::string begun_large(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') {
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
  }
  return text;
}

Data headings_of(const Figures& figures) {
  Data headings(Data::type::list);
  for (std::size_t i = 0; i < figures.table.columns.size(); ++i) {
    const Heading& column = figures.table.columns[i];
    Data heading(Data::type::object);
    heading.set("is_right", i > 0 && column.align == Align::Right);
    // No column goes without a heading: on a screen, the unnamed ones say what kind a thing is,
    // then in what unit.
    heading.set("heading",
                printable(i == 0                   ? figures.first
                          : column.heading.empty() ? std::string(i == 1 ? "kind" : "unit")
                                                   : column.heading));
    headings << heading;
  }
  return headings;
}

Data figures_block(const Figures& figures) {
  const std::vector<Heading>& columns = figures.table.columns;
  Data rows(Data::type::list);
  for (const std::vector<std::string>& row : figures.table.rows) {
    Data cells(Data::type::list);
    for (std::size_t i = 0; i < columns.size(); ++i) {
      Data cell(Data::type::object);
      cell.set("is_name", i == 0 && !row.empty() && !row.front().empty());
      cell.set("is_right", columns[i].align == Align::Right);
      cell.set("cell", i < row.size() ? printable(row[i]) : std::string());
      cells << cell;
    }
    Data each(Data::type::object);
    each.set("cells", cells);
    rows << each;
  }
  Data block = block_of("is_figures");
  block.set("caption",
            columns.empty() ? std::string() : begun_large(printable(columns.front().heading)));
  block.set("headings", headings_of(figures));
  block.set("rows", rows);
  return block;
}

Data picture_block(const Picture& picture) {
  Data block = block_of("is_picture");
  block.set("picture_name", printable(picture.name));
  block.set("picture_svg", picture.svg);
  return block;
}

/// Line by line, since `printable` makes a space of a line's end.
std::string printable_lines(std::string_view text) {
  std::string shown;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    std::string_view line = text.substr(0, end);
    if (!line.empty() && line.back() == '\r') {
      line.remove_suffix(1);
    }
    shown += printable(line) + '\n';
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
  }
  return shown;
}

Data verbatim_block(const Verbatim& verbatim) {
  Data block = block_of("is_verbatim");
  block.set("block_text", printable(verbatim.name));
  block.set("verbatim_text", printable_lines(verbatim.text));
  return block;
}

struct BlockData {
  Data operator()(const Paragraph& block) const { return text_block("is_paragraph", block.text); }
  Data operator()(const Subheading& block) const { return text_block("is_subheading", block.text); }
  Data operator()(const Facts& block) const { return facts_block(block); }
  Data operator()(const Listing& block) const {
    return items_block(block.kind == Listing::Kind::Numbered ? "is_numbered" : "is_unnumbered",
                       block.items);
  }
  Data operator()(const Findings& block) const { return findings_block(block); }
  Data operator()(const Figures& block) const { return figures_block(block); }
  Data operator()(const Picture& block) const { return picture_block(block); }
  Data operator()(const Verbatim& block) const { return verbatim_block(block); }
  Data operator()(const Signature& block) const { return items_block("is_signature", block.lines); }
};

/// Whether a block has anything to show: HTML allows no list without items.
bool is_empty(const Block& block) {
  if (const auto* const figures = std::get_if<Figures>(&block)) {
    return figures->table.rows.empty();
  }
  if (const auto* const listing = std::get_if<Listing>(&block)) {
    return listing->items.empty();
  }
  if (const auto* const findings = std::get_if<Findings>(&block)) {
    return findings->all.empty();
  }
  const auto* const paragraph = std::get_if<Paragraph>(&block);
  return paragraph != nullptr && paragraph->text.empty();
}

Data chapter_data(const Chapter& chapter) {
  Data blocks(Data::type::list);
  for (const Block& block : chapter.blocks) {
    if (!is_empty(block)) {
      blocks << std::visit(BlockData{}, block);
    }
  }
  Data data(Data::type::object);
  data.set("chapter_id", chapter.id);
  data.set("chapter_title", chapter.title);
  data.set("blocks", blocks);
  return data;
}

}  // namespace

std::string page_html(const Page& page) {
  return page_html(page, page_template());
}

std::string page_html(const Page& page, std::string_view template_text) {
  kainjow::mustache::mustache form{std::string(template_text)};
  if (!form.is_valid()) {
    throw std::logic_error(fmt::format("report template: {}", form.error_message()));
  }
  Data chapters(Data::type::list);
  for (const Chapter& chapter : page.chapters) {
    chapters << chapter_data(chapter);
  }
  Data data(Data::type::object);
  data.set("page_title", printable(page.title));
  data.set("page_date", page.date);
  data.set("colophon", printable(page.colophon));
  data.set("chapters", chapters);
  StrictContext context(&data);
  std::string html = form.render(context);
  if (!context.missing().empty()) {
    throw std::logic_error(
        fmt::format("report template: nothing stands for '{}'", context.missing()));
  }
  return html;
}

}  // namespace leat::render::report
