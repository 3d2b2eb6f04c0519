#include "render/io/output_file.h"

#include <catch2/catch.hpp>

#include "tests/render/temporary_folder.h"

namespace leat::render {

TEST_CASE("a new file holds every byte and nothing else is left in its folder") {
  const TemporaryFolder folder;
  const std::string bytes("a\0b\n\xff", 5);
  CHECK_FALSE(write_output_file(folder.file("farm.svg"), bytes, ExistingFile::Keep));
  CHECK(folder.content("farm.svg") == bytes);
  CHECK(folder.count() == 1);
}

TEST_CASE("an existing file is kept unless it is to be replaced") {
  const TemporaryFolder folder;
  folder.write("farm.svg", "old");
  const auto problem = write_output_file(folder.file("farm.svg"), "new", ExistingFile::Keep);
  REQUIRE(problem);
  CHECK(problem->code == "exists");
  CHECK(problem->hint == "--replace writes over it");
  CHECK(folder.content("farm.svg") == "old");
  CHECK_FALSE(write_output_file(folder.file("farm.svg"), "new", ExistingFile::Replace));
  CHECK(folder.content("farm.svg") == "new");
  CHECK(folder.count() == 1);
}

TEST_CASE("a folder, a device or a missing folder is refused in a sentence and nothing is left") {
  const TemporaryFolder folder;
  const auto on_folder = write_output_file(folder.file("."), "x", ExistingFile::Replace);
  REQUIRE(on_folder);
  CHECK(on_folder->code == "not-a-file");
  const auto on_device = write_output_file("/dev/null", "x", ExistingFile::Replace);
  REQUIRE(on_device);
  CHECK(on_device->code == "not-a-file");
  const auto nowhere = write_output_file(folder.file("no/such/f.svg"), "x", ExistingFile::Keep);
  REQUIRE(nowhere);
  CHECK(nowhere->code == "cannot-write");
  CHECK(nowhere->text.find("f.svg") != std::string::npos);
  CHECK(folder.count() == 0);
}

TEST_CASE("a replaced file keeps its permissions, and a link still points to it") {
  const TemporaryFolder folder;
  folder.write("real.svg", "old");
  namespace fs = std::filesystem;
  fs::permissions(folder.file("real.svg"), fs::perms::owner_read | fs::perms::owner_write);
  fs::create_symlink("real.svg", folder.file("link.svg"));
  CHECK_FALSE(write_output_file(folder.file("link.svg"), "new", ExistingFile::Replace));
  CHECK(folder.content("real.svg") == "new");
  CHECK(fs::is_symlink(folder.file("link.svg")));
  CHECK(fs::status(folder.file("real.svg")).permissions() ==
        (fs::perms::owner_read | fs::perms::owner_write));
}

}  // namespace leat::render
