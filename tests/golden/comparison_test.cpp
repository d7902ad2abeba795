// What compares must itself be seen to fail.
#include "comparison.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "base/base.h"
#include "cases.h"
#include "picture.h"

namespace fs = std::filesystem;
using namespace golden;

namespace {

struct Folders {
  fs::path expected = fresh_folder("expected"), made = fresh_folder("made"), report = fresh_folder("report");
  void put(const std::string& name, const std::string& was, const std::string& is) const {
    REQUIRE_FALSE(ordinatio::write_file(expected / name, was));
    REQUIRE_FALSE(ordinatio::write_file(made / name, is));
  }
  [[nodiscard]] std::vector<std::string> told() const { return differences(expected, made, report); }
  ~Folders() {
    for (const fs::path& folder : {expected, made, report}) fs::remove_all(folder);
  }
};

Picture with_box(Picture picture, int left, int top, int width, int height, std::uint32_t colour = 0x009E73) {
  for (int y = top; y < top + height; ++y) {
    for (int x = left; x < left + width; ++x) {
      picture.pixels[static_cast<std::size_t>(y * picture.width + x)] = colour;
    }
  }
  return picture;
}

/// An F of 40 by 60 pixels.
Picture letter() {
  Picture picture = with_box(blank_picture(120, 80), 40, 10, 10, 60);
  return with_box(with_box(picture, 50, 10, 30, 10), 50, 35, 20, 10);
}

Picture mirrored(Picture picture) {
  for (auto row = picture.pixels.begin(); row != picture.pixels.end(); row += picture.width) {
    std::reverse(row, row + picture.width);
  }
  return picture;
}

}  // namespace

TEST_CASE("files that are alike are not told") {
  const Folders folders;
  folders.put("a.svg", "one\ntwo\n", "one\ntwo\n");
  CHECK(folders.told().empty());
}

TEST_CASE("a text that differs is told with its line, and what was made is kept") {
  const Folders folders;
  folders.put("a.svg", "one\ntwo\nthree\n", "one\ntoo\nthree\n");
  REQUIRE(folders.told().size() == 1);
  CHECK(folders.told()[0].find("a.svg: line 2: expected \"two\", made \"too\"") == 0);
  CHECK(*ordinatio::read_file(folders.report / "a.svg") == "one\ntoo\nthree\n");
  folders.put("a.svg", "one\ntwo\n", "one\n");
  CHECK(folders.told().size() == 1);
}

TEST_CASE("a file without its expected one is told, and one that was not made") {
  const Folders folders;
  CHECK(folders.told() == std::vector<std::string>{"nothing was expected and nothing was made"});
  folders.put("a.svg", "one", "one");
  fs::remove(folders.expected / "a.svg");
  REQUIRE(folders.told().size() == 1);
  CHECK(folders.told()[0].find("a.svg: there is no expected file") == 0);
  folders.put("a.svg", "one", "one");
  fs::remove(folders.made / "a.svg");
  CHECK(folders.told() == std::vector<std::string>{"a.svg: it was not made"});
}

TEST_CASE("an expected file over 20 KiB is told") {
  const Folders folders;
  folders.put("a.svg", std::string(size_limit, 'x'), std::string(size_limit, 'x'));
  CHECK(folders.told().empty());
  folders.put("a.svg", std::string(size_limit + 1, 'x'), std::string(size_limit + 1, 'x'));
  CHECK(folders.told().size() == 1);
}

TEST_CASE("a picture mirrored, turned, moved by a pixel or without a dot is told, and shown beside what was expected") {
  const Folders folders;
  Picture upside_down = letter();
  std::ranges::reverse(upside_down.pixels);
  Picture moved = letter();
  std::rotate(moved.pixels.begin(), moved.pixels.end() - 1, moved.pixels.end());
  const Picture expected = with_box(letter(), 100, 70, 2, 2);
  for (const Picture& made : {mirrored(expected), upside_down, moved, letter()}) {
    write_png(expected, folders.expected / "a.png");
    write_png(made, folders.made / "a.png");
    fs::remove(folders.report / "a.png");
    CHECK(folders.told().size() == 1);
    CHECK(read_png(folders.report / "a.png").width == 3 * 120 + 2 * 8);
  }
}

TEST_CASE("a picture whose edges are rounded otherwise is not told") {
  const Folders folders;
  write_png(letter(), folders.expected / "a.png");
  const Picture made = with_box(letter(), 50, 10, 30, 1, 0x089F77);  // the upper edge of its arm
  write_png(made, folders.made / "a.png");
  CHECK(ink_difference(letter(), made) > 0);
  CHECK(folders.told().empty());
}

TEST_CASE("ink difference is a share of the ink") {
  const Picture bare = blank_picture(120, 80), box = with_box(bare, 10, 10, 20, 10);
  CHECK(ink_difference(box, box) == 0);
  CHECK(ink_difference(bare, bare) == 0);
  CHECK(ink_difference(bare, box) == 1);
  CHECK(ink_difference(box, with_box(bare, 60, 10, 20, 10)) == 2);
  CHECK(ink_difference(box, with_box(bare, 10, 10, 20, 9)) == Approx(0.1));
  CHECK(ink_difference(box, with_box(blank_picture(121, 80), 10, 10, 20, 10)) == 1);
}

TEST_CASE("the picture of a difference shows missing ink red and new ink blue") {
  const Picture bare = blank_picture(20, 10);
  const Picture all = side_by_side(with_box(bare, 2, 2, 4, 4), with_box(bare, 12, 2, 4, 4));
  const int middle = 20 + 8;
  CHECK(all.at(middle + 3, 3) == 0xD01010);
  CHECK(all.at(middle + 13, 3) == 0x1010D0);
  CHECK(all.at(middle + 8, 3) == 0xFFFFFF);
  CHECK(all.at(3, 3) == 0x009E73);
  CHECK(all.at(2 * middle + 13, 3) == 0x009E73);
}

TEST_CASE("what is renewed is alike afterwards, and what is no longer made goes") {
  const Folders folders;
  folders.put("a.svg", "one", "two");
  folders.put("same.svg", "one", "one");
  REQUIRE_FALSE(ordinatio::write_file(folders.expected / "old.svg", "one"));
  REQUIRE_FALSE(ordinatio::write_file(folders.made / "new.svg", "one"));
  CHECK(renew(folders.expected, folders.made) == std::vector<std::string>{"a.svg", "new.svg", "old.svg"});
  CHECK(folders.told().empty());
}
