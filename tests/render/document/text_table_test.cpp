#include "render/document/text_table.h"

#include <catch2/catch.hpp>

namespace leat::render {

TEST_CASE("columns line up though the names are of wide or combining letters") {
  CHECK(display_width("pond") == 4);
  CHECK(display_width("h\u00f6lle") == 5);
  CHECK(display_width("ho\u0308lle") == 5);
  CHECK(display_width("\u6c34\u6e90") == 4);
  const std::string text =
      table_text({{"place", Align::Left}, {"gets", Align::Right}},
                 {{"\u6c34\u6e90", "1"}, {"\u00f6st", "10"}, {"north", "2.5"}});
  CHECK(text ==
        "place  gets\n"
        "\u6c34\u6e90      1\n"
        "\u00f6st      10\n"
        "north   2.5\n");
}

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

TEST_CASE("no line of a table ends in a space") {
  CHECK(table_text({{"a", Align::Left}, {"b", Align::Left}}, {{"long name", ""}, {"x"}}) ==
        "a          b\nlong name\nx\n");
}

}  // namespace leat::render
