#include "lossy_disk.h"

#include <catch2/catch.hpp>
#include <fstream>
#include <set>

#include "scratch.h"

using namespace ordinatio::crash;
namespace fs = std::filesystem;

namespace {

constexpr std::uint64_t seeds = 400;  // enough for the rarest of what is asked for: chances of 1 in 40 and more

/// All that a folder with one file can be after a cut, over many seeds. `tell` says to the disk what was done with it.
template <class Told>
std::set<FolderImage> left_after(const std::string& before, const Told& tell) {
  std::set<FolderImage> left;
  for (std::uint64_t seed = 0; seed < seeds; ++seed) {
    const Scratch scratch;
    const fs::path path = scratch.folder() / "ledger";
    std::ofstream(path, std::ios::binary) << before;
    LossyDisk disk;
    tell(disk, path);
    disk.cut({seed, 4});
    left.insert(image_of(scratch.folder()));
  }
  return left;
}

}  // namespace

TEST_CASE("what was synced lasts") {
  const auto left = left_after("oldoldol", [](LossyDisk& disk, const fs::path& path) {
    const auto file = disk.open(path, false);
    disk.write(file, 4, "news");
    disk.sync(file);
  });
  CHECK(left == std::set<FolderImage>{{{"ledger", "oldonews"}}});
}

TEST_CASE("of a write that was not synced, each sector comes to the disk or does not") {
  const auto left = left_after(
      "aaaabbbb", [](LossyDisk& disk, const fs::path& path) { disk.write(disk.open(path, false), 0, "AAAABBBB"); });
  for (const char* bytes : {"aaaabbbb", "AAAAbbbb", "aaaaBBBB", "AAAABBBB"}) CHECK(left.contains({{"ledger", bytes}}));
}

TEST_CASE("a sector that power failed in is written from its head or from its tail") {
  const auto left =
      left_after("aaaa", [](LossyDisk& disk, const fs::path& path) { disk.write(disk.open(path, false), 0, "AAAA"); });
  for (const char* bytes : {"Aaaa", "AAaa", "AAAa", "aAAA", "aaAA", "aaaA"}) CHECK(left.contains({{"ledger", bytes}}));
  for (const char* bytes : {"aAAa", "AaaA", "aAaa"}) CHECK_FALSE(left.contains({{"ledger", bytes}}));
}

TEST_CASE("a sector that was written twice holds the first, the second or neither") {
  const auto left = left_after("aaaa", [](LossyDisk& disk, const fs::path& path) {
    const auto file = disk.open(path, false);
    disk.write(file, 0, "bbbb");
    disk.write(file, 0, "cccc");
  });
  for (const char* bytes : {"aaaa", "bbbb", "cccc"}) CHECK(left.contains({{"ledger", bytes}}));
}

TEST_CASE("bytes beside a write stay as they are") {
  const auto left =
      left_after("aaaa", [](LossyDisk& disk, const fs::path& path) { disk.write(disk.open(path, false), 1, "BB"); });
  for (const FolderImage& image : left) {
    CHECK(image.at("ledger").front() == 'a');
    CHECK(image.at("ledger").back() == 'a');
  }
}

TEST_CASE("a file that was lengthened or cut off has one length or the other") {
  std::set<std::size_t> longer, shorter;
  for (const FolderImage& image :
       left_after("aaaa", [](LossyDisk&disk, const fs::path&path) { disk.write(disk.open(path, false), 4, "bbbb"); })) {
    longer.insert(image.at("ledger").size());
    CHECK(image.at("ledger").starts_with("aaaa"));
  }
  for (const FolderImage& image :
       left_after("aaaabbbb", [](LossyDisk&disk, const fs::path&path) { disk.truncate(disk.open(path, false), 4); })) {
    shorter.insert(image.at("ledger").size());
  }
  CHECK(longer == std::set<std::size_t>{4, 8});
  CHECK(shorter == std::set<std::size_t>{4, 8});
}

TEST_CASE("where a file is longer than what came to the disk, there is something that nobody wrote") {
  const auto left =
      left_after("", [](LossyDisk& disk, const fs::path& path) { disk.write(disk.open(path, false), 0, "bbbb"); });
  CHECK(left.contains({{"ledger", std::string(4, '\0')}}));
  CHECK(left.size() > 20);  // rubbish
}

TEST_CASE("a deleted file is gone for good once its folder is synced") {
  const auto unsynced = left_after("old", [](LossyDisk& disk, const fs::path& path) { disk.remove(path); });
  CHECK(unsynced == std::set<FolderImage>{{}, {{"ledger", "old"}}});
  const auto synced = left_after("old", [](LossyDisk& disk, const fs::path& path) {
    disk.remove(path);
    disk.sync_folder(path.parent_path());
  });
  CHECK(synced == std::set<FolderImage>{{}});
}

TEST_CASE("a new file lasts once it and its folder are synced") {
  const auto make = [](LossyDisk& disk, const fs::path& path) {
    const fs::path other = path.parent_path() / "journal";
    std::ofstream(other) << "made";
    const auto file = disk.open(other, true);
    disk.write(file, 0, "made");
    disk.sync(file);
    return other.parent_path();
  };
  CHECK(left_after("old", make) ==
        std::set<FolderImage>{{{"ledger", "old"}}, {{"ledger", "old"}, {"journal", "made"}}});
  const auto make_lasting = [&](LossyDisk& disk, const fs::path& path) { disk.sync_folder(make(disk, path)); };
  CHECK(left_after("old", make_lasting) == std::set<FolderImage>{{{"ledger", "old"}, {"journal", "made"}}});
}

TEST_CASE("a renamed file is here or there, and there once the folder it went to is synced") {
  const auto move = [](LossyDisk& disk, const fs::path& path) {
    const fs::path part = path.parent_path() / "ledger.part";
    disk.open(path, false);
    std::ofstream(part) << "new";
    const auto file = disk.open(part, true);
    disk.write(file, 0, "new");
    disk.sync(file);
    disk.sync_folder(part.parent_path());
    fs::rename(part, path);
    disk.rename(part, path);
    return path.parent_path();
  };
  CHECK(left_after("old", move) ==
        std::set<FolderImage>{{{"ledger", "old"}, {"ledger.part", "new"}}, {{"ledger", "new"}}});
  const auto move_for_good = [&](LossyDisk& disk, const fs::path& path) { disk.sync_folder(move(disk, path)); };
  CHECK(left_after("old", move_for_good) == std::set<FolderImage>{{{"ledger", "new"}}});
}

TEST_CASE("a file renamed before it was synced may be there without its bytes") {
  const auto left = left_after("old", [](LossyDisk& disk, const fs::path& path) {
    const fs::path part = path.parent_path() / "ledger.part";
    disk.open(path, false);
    std::ofstream(part) << "new";
    disk.write(disk.open(part, true), 0, "new");
    fs::rename(part, path);
    disk.rename(part, path);
    disk.sync_folder(path.parent_path());
  });
  CHECK(left.contains({{"ledger", ""}}));
  CHECK(left.contains({{"ledger", "new"}}));
}

TEST_CASE("a new folder that is lost takes what is in it along") {
  const auto make = [](LossyDisk& disk, const fs::path& path) {
    const fs::path folder = path.parent_path() / "out";
    fs::create_directory(folder);
    disk.make_folder(folder);
    std::ofstream(folder / "sheet") << "ink";
    const auto file = disk.open(folder / "sheet", true);
    disk.write(file, 0, "ink");
    disk.sync(file);
    disk.sync_folder(folder);
  };
  CHECK(left_after("old", make) ==
        std::set<FolderImage>{{{"ledger", "old"}}, {{"ledger", "old"}, {"out/", ""}, {"out/sheet", "ink"}}});
}

TEST_CASE("the same seed leaves the same disk") {
  const auto left = [](std::uint64_t seed) {
    const Scratch scratch;
    LossyDisk disk;
    std::ofstream(scratch.folder() / "ledger") << std::string(4096, 'a');
    disk.write(disk.open(scratch.folder() / "ledger", false), 0, std::string(4096, 'b'));
    disk.cut({seed, 512});
    return image_of(scratch.folder());
  };
  CHECK(left(3) == left(3));
  CHECK(left(3) != left(4));
}
