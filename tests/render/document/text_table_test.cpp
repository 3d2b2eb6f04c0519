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

TEST_CASE("no line of a table ends in a space") {
  CHECK(table_text({{"a", Align::Left}, {"b", Align::Left}}, {{"long name", ""}, {"x"}}) ==
        "a          b\nlong name\nx\n");
}

}  // namespace leat::render
