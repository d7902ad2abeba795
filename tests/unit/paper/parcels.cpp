// Packing lists and labels: where things stand, and what is refused.
#include <catch2/catch.hpp>

#include "paper/labels.h"
#include "paper/packing_list.h"

namespace ordinatio::parcels_test {
using Catch::Contains;

namespace {

const FontLibrary& fonts() {
  static const FontLibrary library("none");
  return library;
}

Artwork slate() {
  Artwork artwork;
  artwork.blank.outline = rectangle_outline(150, 100, Corner::rounded, 4);
  Path ink;
  ink.add_rectangle({40, 40, 110, 60});
  artwork.layers = {{Operation::engrave, ink}};
  return artwork;
}

std::vector<Parcel> parcels(int count) {
  std::vector<Parcel> all;
  for (int n = 1; n <= count; ++n) {
    Parcel parcel;
    parcel.order = std::to_string(3000 + n);
    parcel.customer = "Marigold Fenwick";
    parcel.notes = {"wrap it well"};
    parcel.items = {{parcel.order + "-1/A", "Rose Cottage\nFord End", "", slate()},
                    {parcel.order + "-2/B", "Weir", ""}};
    parcel.missing = {{parcel.order + "-3/C", "The Mill", "held: the customer asks for time"}};
    all.push_back(std::move(parcel));
  }
  return all;
}

Labels labels_of(int count, const LabelGrid& measures, int first = 1) {
  std::vector<LabelItem> items;
  for (int n = 1; n <= count; ++n) items.push_back({std::to_string(3000 + n) + "-1/K", "Rose Cottage"});
  const auto labels = write_labels(items, measures, first, "Mill", fonts());
  if (!labels.ok()) FAIL(describe(labels.fault()));
  return *labels;
}

Fault refused(const LabelGrid& measures, int first = 1) {
  const auto labels = write_labels({{"3001-1/K", "Rose"}}, measures, first, "Mill", fonts());
  REQUIRE_FALSE(labels.ok());
  return labels.fault();
}

}  // namespace

TEST_CASE("a packing list goes over as many pages as its paper asks for, and is the same to the byte each time") {
  for (const PaperSize paper : {PaperSize::a4, PaperSize::a5, PaperSize::letter}) {
    const auto list = write_packing_list(parcels(12), "Mill", fonts(), paper);
    REQUIRE(list.ok());
    CHECK(list->ink.size() > 1);
    // Two pictures of 1,400 mm², reduced to 32 mm of 150, and their boxes.
    CHECK(list->ink.front() > 2 * 1'400 * (27.0 / 150) * (27.0 / 150));
    CHECK(write_packing_list(parcels(12), "Mill", fonts(), paper)->pdf == list->pdf);
  }
}

TEST_CASE("an order of a hundred pieces goes over many pages, and a list of nothing is none") {
  std::vector<Parcel> large = parcels(1);
  for (int n = 0; n < 100; ++n) large.front().items.push_back(large.front().items.front());
  const auto list = write_packing_list(large, "Mill", fonts(), PaperSize::a4);
  REQUIRE(list.ok());
  CHECK(list->ink.size() > 8);
  CHECK_FALSE(write_packing_list({}, "Mill", fonts(), PaperSize::a4).ok());
}

TEST_CASE("labels fill sheet after sheet, the first one from the label that is not used yet") {
  const LabelGrid measures;
  REQUIRE(measures.count() == 21);
  CHECK(labels_of(21, measures).ink.size() == 1);
  CHECK(labels_of(22, measures).ink.size() == 2);
  CHECK(labels_of(3, measures, 19).ink.size() == 1);
  CHECK(labels_of(3, measures, 20).ink.size() == 2);
  CHECK(refused(measures, 22).where == "--from");
  CHECK(refused(measures, 0).where == "--from");
}

TEST_CASE("a label that is too small for a code that a phone reads is refused with the size that would do") {
  LabelGrid measures;
  measures.columns = measures.rows = 1;
  measures.width = 40, measures.height = 9.5;
  CHECK_THAT(refused(measures).mend, Contains("28 mm x 10 mm"));
  measures.width = 28, measures.height = 10;
  CHECK(labels_of(1, measures).ink.size() == 1);
  measures.width = 12, measures.height = 20;  // the words below the code
  CHECK(labels_of(1, measures).ink.size() == 1);
}

TEST_CASE("labels that reach over the paper's edge are told by which one") {
  LabelGrid measures;
  CHECK_FALSE(check_labels(measures, "shop.toml"));
  measures.gap_x = 10;
  CHECK_THAT(check_labels(measures, "shop.toml")->why, Contains("wide"));
  measures.gap_x = 0, measures.top = 50;
  CHECK_THAT(check_labels(measures, "shop.toml")->why, Contains("high"));
}

}  // namespace ordinatio::parcels_test
