#include "design/forms.h"

#include <catch2/catch.hpp>

#include "design/design.h"

namespace ordinatio::forms_test {
using Catch::Matchers::Contains;

namespace {

struct Bench {
  FontLibrary library{"none"};
  Typesetter typesetter{library};

  std::string note(const std::vector<std::string>& lines, const ToldLanguage& told) {
    return note_of_forms(lines, {{"serif"}, "en", told.language}, told, typesetter);
  }
  Artwork artwork(const std::string& line, const ToldLanguage& told, const std::string& language, bool shops) {
    Design design;
    design.name = "test", design.width = 150, design.height = 100;
    design.blank.outline = rectangle_outline(150, 100, Corner::square, 0);
    TextPart text;
    text.look.faces = {"serif"};
    text.language = language, text.shops_language = shops;
    design.texts.push_back(text);
    const auto laid = laid_as_drawn(design);
    REQUIRE(laid.ok());
    auto artwork = compose(*laid, {{"", {line}, {}}, "", {}, told}, typesetter);
    if (!artwork.ok()) FAIL(describe(artwork.fault()));
    return std::move(*artwork);
  }
};

}  // namespace

TEST_CASE("a note names the letters that another language draws otherwise, and none where all are drawn alike") {
  Bench bench;
  // 骨 has its inner corner on the left in simplified Chinese, on the right elsewhere; 一 is one stroke everywhere.
  CHECK_THAT(bench.note({"骨一"}, {"ja", {"zh-Hans", "zh-Hant"}, false}),
             Contains("“骨” is drawn otherwise in simplified Chinese") && Contains("set in Japanese forms;"));
  CHECK(bench.note({"一"}, {"ja", {"zh-Hans", "zh-Hant", "ko"}, false}).empty());
  CHECK(bench.note({"骨"}, {"ja", {}, false}).empty());
  CHECK_THAT(bench.note({"骨"}, {"zh-Hans", {"ja"}, true}), Contains("simplified Chinese forms, which is a guess"));
  CHECK_THAT(bench.note({"عامر"}, {"ur", {"ar"}, false}),
             Contains("Arabic") && Contains("set in Urdu forms (Nastaliq)"));
  CHECK_THAT(bench.note({"عامر"}, {"ar", {"fa", "ur"}, false}), Contains("in Urdu: set in Arabic forms (Naskh);"));
  CHECK(bench.note({"عامر"}, {"ar", {"fa"}, false}).empty());
}

TEST_CASE("an item is set in the forms that its order told, unless the design says otherwise") {
  Bench bench;
  const auto face = [&](const std::string& language, bool shops, const ToldLanguage& told) {
    return bench.artwork("田中", told, language, shops).faces.at(0).name;
  };
  CHECK(face("en", true, {"ja", {}, false}) == "cjk-jp");
  CHECK(face("zh-Hant", true, {"ja", {}, false}) == "cjk-jp");   // the workshop's yields to what letters tell
  CHECK(face("zh-Hant", false, {"ja", {}, false}) == "cjk-tc");  // the design's does not
  CHECK(face("ko", true, {}) == "cjk-kr");                       // nothing told: the workshop's
  CHECK(face("en", true, {}) == "cjk-sc");
  CHECK(face("en", true, {"ur", {}, false}) == "cjk-sc");  // told of other words
}

TEST_CASE("what is a guess is worth a look, what the order's file told is on the proof alone") {
  Bench bench;
  const Artwork guess = bench.artwork("骨", {"zh-Hans", {"ja"}, true}, "en", true);
  REQUIRE(guess.warnings.size() == 1);
  CHECK_THAT(guess.warnings[0], Contains("which is a guess"));
  CHECK(guess.changes.at(0) == guess.warnings[0]);
  const Artwork by_file = bench.artwork("骨", {"ja", {"zh-Hans"}, false}, "en", true);
  CHECK(by_file.warnings.empty());
  CHECK_THAT(by_file.changes.at(0), Contains("set in Japanese forms; language"));
  // The design has settled it.
  CHECK_THAT(bench.artwork("骨", {"ja", {"zh-Hans"}, true}, "ja", false).changes.at(0), !Contains("drawn otherwise"));
  CHECK(guess.hash != by_file.hash);
}

}  // namespace ordinatio::forms_test
