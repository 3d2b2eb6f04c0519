#include "render/words/running_text.h"

#include <catch2/catch.hpp>

namespace leat::render {

TEST_CASE("a long name is cut with an ellipsis and a control character is not let through") {
  CHECK(cut_to_width("the upper trough", 9) == "the uppe\u2026");
  CHECK(cut_to_width("the upper", 9) == "the upper");
  CHECK(cut_to_width("\u6c34\u6e90\u6c34", 4) == "\u6c34\u2026");
  CHECK(cut_to_width("a\x1b[31mb", 20) == "a?[31mb");
  CHECK(cut_to_width("a\xff", 20) == "a\xff");
}

TEST_CASE("a long sentence is broken at spaces and set in under its word") {
  CHECK(wrapped("danger   the summit parts and the line stops", 24, 9) ==
        "danger   the summit\n"
        "         parts and the\n"
        "         line stops\n");
  CHECK(wrapped("unbreakablelongword", 5, 2) == "unbreakablelongword\n");
  CHECK(wrapped("", 5, 2) == "\n");
}

TEST_CASE("what may be printed is UTF-8 without characters that steer") {
  CHECK(printable("\u00f6l \u6c34") == "\u00f6l \u6c34");
  CHECK(printable("a\tb\x1b\x7f") == "a b  ");
  CHECK(printable("\xC2\x9B!") == " !");
  CHECK(printable("\xC0\xAF") == "\uFFFD\uFFFD");
  CHECK(printable("\xEF\xBF\xBF") == " ");
}

}  // namespace leat::render
