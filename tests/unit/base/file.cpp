#include <sys/stat.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <fstream>

#include "base/base.h"

namespace ordinatio::file_test {
namespace fs = std::filesystem;

namespace {

/// A folder of its own that goes when the test ends.
struct Folder {
  fs::path path = fs::temp_directory_path() / ("ordinatio-base-" + std::to_string(::getpid()));
  Folder() { fs::create_directories(path); }
  ~Folder() { fs::remove_all(path); }
};

}  // namespace

TEST_CASE("a file is written whole and leaves no temporary behind") {
  const Folder folder;
  REQUIRE_FALSE(write_file(folder.path / "a", "first"));
  REQUIRE_FALSE(write_file(folder.path / "a", "second"));
  CHECK(*read_file(folder.path / "a") == "second");
  CHECK(std::distance(fs::directory_iterator(folder.path), {}) == 1);
}

TEST_CASE("a file that cannot be read says which and why") {
  const Folder folder;
  const auto missing = read_file(folder.path / "none");
  REQUIRE_FALSE(missing.ok());
  CHECK(missing.fault().where == (folder.path / "none").string());
  CHECK(missing.fault().why == "No such file or directory");
  const auto a_folder = read_file(folder.path);
  REQUIRE_FALSE(a_folder.ok());
  CHECK(a_folder.fault().why == "Is a directory");
  CHECK(a_folder.fault().mend == "Name a file, not a folder");
}

TEST_CASE("a file over the limit is refused") {
  const Folder folder;
  REQUIRE_FALSE(write_file(folder.path / "big", std::string(5000, 'x')));
  CHECK_FALSE(read_file(folder.path / "big", 4999).ok());
  CHECK(read_file(folder.path / "big", 5000).ok());
}

TEST_CASE("a disk that is full leaves the old file as it was") {
  // /dev/full is a device of Linux that answers every write with ENOSPC; a link to it stands for the temporary.
  const Folder folder;
  REQUIRE_FALSE(write_file(folder.path / "kept", "old"));
  fs::create_symlink("/dev/full", folder.path / "kept.part");
  const auto fault = write_file(folder.path / "kept", "new");
  REQUIRE(fault);
  CHECK(fault->why == "No space left on device");
  CHECK(fault->cause == Fault::Cause::machine);
  CHECK(*read_file(folder.path / "kept") == "old");
}

TEST_CASE("a message says where, what, why and the mend") {
  CHECK(describe({"no such column", "orders.csv:1", "the header has Name", "Name it in shop.toml"}) ==
        "orders.csv:1: no such column: the header has Name. Name it in shop.toml.");
  CHECK(describe({"it is empty", "", "", ""}) == "it is empty.");
}

}  // namespace ordinatio::file_test
