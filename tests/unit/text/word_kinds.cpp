#include <catch2/catch.hpp>

#include "text/words.h"

namespace ordinatio::word_kinds_test {

TEST_CASE("one small letter is a short word whatever the workshop's language, one capital only in its own") {
  CHECK(kind_of("у", "en-GB") == WordKind::small_word);   // Дом у мельницы
  CHECK(kind_of("i", "en-GB") == WordKind::conjunction);  // Łucja i Grześ
  CHECK(kind_of("i", "en-GB", true) == WordKind::other);  // I am the miller
  CHECK(kind_of("i", "pl", true) == WordKind::conjunction);
  CHECK(kind_of("a", "en-GB", true) == WordKind::small_word);
}

}  // namespace ordinatio::word_kinds_test
