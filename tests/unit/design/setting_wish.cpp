// What is wished of one item's setting, as text.
#include "design/setting_wish.h"

#include <catch2/catch.hpp>

namespace ordinatio::setting_wish_test {
using Catch::Contains;

namespace {

SettingWish wish(const std::string& text) {
  auto read = parse_setting(text, "here");
  if (!read.ok()) FAIL(text + ": " + describe(read.fault()));
  return *std::move(read);
}

}  // namespace

TEST_CASE("a wish comes back as it was kept") {
  const char* const texts[] = {"",
                               "size 8.5",
                               "nudge 1.5,-2",
                               "lines kept",
                               "design slate, face script, size 150x100",
                               "size 0.001; nudge -1000,1000; lines kept; design a; size 3; lines kept"};
  for (const char* text : texts) {
    CHECK(setting_text(wish(text)) == text);
    CHECK(wish(text) == kept_setting(text));
    CHECK(wish(text).is_plain() == std::string_view(text).empty());
  }
  const SettingWish all = wish("size 8.5; nudge 1.5,-2; lines kept; design slate");
  CHECK(all.size == 8.5);
  CHECK(all.nudge == Point{1.5, -2});
  CHECK(all.lines_kept);
  CHECK(all.design == "slate");
}

TEST_CASE("what is finer than a file of the bed is rounded, and comes back the same") {
  const SettingWish fine = wish("size 8.12345; nudge 0.0004,-0.0004");
  CHECK(fine.size == 8.123);
  CHECK(fine.nudge == Point{0, 0});
  CHECK(wish(setting_text(fine)) == fine);
}

TEST_CASE("a wish that is off says what it may be, and none of it is taken") {
  const std::pair<std::string, std::string> cases[] = {
      {"size", "is not understood"},
      {"size x", "more than 0 and up to 1000 mm"},
      {"size 0", "more than 0 and up to 1000 mm"},
      {"size -3", "more than 0 and up to 1000 mm"},
      {"size 1001", "more than 0 and up to 1000 mm"},
      {"size nan", "more than 0 and up to 1000 mm"},
      {"nudge 1", "two numbers of mm"},
      {"nudge 1,2,3", "two numbers of mm"},
      {"nudge 1001,0", "each of up to 1000 mm"},
      {"nudge ,1", "two numbers of mm"},
      {"lines free", "is not understood"},
      {"size 3; size 4", "is not understood"},
      {"size 3;", "more than 0"},
      {"size 3; ", "is not understood"},
      {"design ", "it is empty"},
      {"design " + std::string(301, 'a'), "longer than 300 bytes"},
  };
  for (const auto& [text, why] : cases) {
    INFO(text);
    const auto read = parse_setting(text, "here");
    REQUIRE_FALSE(read.ok());
    CHECK_THAT(describe(read.fault()), Contains(why));
    CHECK(read.fault().where == "here");
    CHECK_FALSE(read.fault().mend.empty());
    CHECK(kept_setting(text).unread == text);
    CHECK(setting_text(kept_setting(text)) == text);
  }
}

TEST_CASE("a wish changes what it speaks of, and a nudge by nothing takes the one before back") {
  const auto changed = [](const std::string& before, const std::string& now) {
    return setting_text(with_changes(wish(before), wish(now)));
  };
  CHECK(changed("size 5; nudge 1,2", "size 6") == "size 6; nudge 1,2");
  CHECK(changed("size 5; nudge 1,2", "nudge 0,0") == "size 5");
  CHECK(changed("design slate", "lines kept") == "lines kept; design slate");
  CHECK(changed("lines kept; design slate", "design pane") == "lines kept; design pane");
  CHECK(changed("", "nudge 0,0").empty());
}

}  // namespace ordinatio::setting_wish_test
