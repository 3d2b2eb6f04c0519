// Which bytes make a character, so that a caret stands under what a person sees.
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "model/text/text_position.h"
#include "model/text/utf8.h"

namespace leat::model {
namespace {

struct ByteRow {
  std::string bytes;
  std::size_t length;
};

TEST_CASE("a character is one to four bytes as the standard lists them", "[reference]") {
  const std::string source = "Unicode Standard, table 3-7, well-formed UTF-8, from memory";
  const auto row = GENERATE(values<ByteRow>({
      {"\x7F", 1},
      {"\xC2\x80", 2},
      {"\xDF\xBF", 2},
      {"\xE0\xA0\x80", 3},
      {"\xED\x9F\xBF", 3},
      {"\xEF\xBF\xBF", 3},
      {"\xF0\x90\x80\x80", 4},
      {"\xF4\x8F\xBF\xBF", 4},
      // Not well formed: alone, overlong, surrogates, beyond the last plane, cut short.
      {"\x80", 0},
      {"\xC1\xBF", 0},
      {"\xC2\x41", 0},
      {"\xE0\x9F\xBF", 0},
      {"\xED\xA0\x80", 0},
      {"\xE2\x82\x41", 0},
      {"\xE2\x82", 0},
      {"\xF0\x8F\xBF\xBF", 0},
      {"\xF4\x90\x80\x80", 0},
      {"\xF0\x90\x80\x41", 0},
      {"\xF0\x90\x80", 0},
      {"\xF5\x80\x80\x80", 0},
      {"\xFF", 0},
  }));
  CAPTURE(source, row.bytes.size(), static_cast<int>(static_cast<unsigned char>(row.bytes[0])));
  CHECK(utf8_length(row.bytes, 0) == row.length);
}

TEST_CASE("the mark of a mistake counts an accent, a hanzi and a cow as one place each") {
  // é is 2 bytes, 水 3, the cow's face 4: the colon is the 4th character and byte 9, from 0.
  const std::string text = "\xC3\xA9\xE6\xB0\xB4\xF0\x9F\x90\xAE: x\nsecond";
  CHECK(count_characters("\xC3\xA9\xE6\xB0\xB4\xF0\x9F\x90\xAE") == 3);
  ColumnCounter counter(text);
  CHECK(counter.position(0, 9).column == 4);
  CHECK(counter.position(0, 2).column == 2);
  CHECK(counter.position(1, 3).column == 4);
  CHECK(counter.position(1, 3).line == 2);
  CHECK(counter.line_count() == 2);
}

}  // namespace
}  // namespace leat::model
