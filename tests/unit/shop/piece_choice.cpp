#include "shop/piece_choice.h"

#include <unistd.h>

#include <catch2/catch.hpp>
#include <fstream>

#include "base/account.h"
#include "check/check.h"
#include "manifest/manifest.h"
#include "shop/day.h"
#include "shop/proof.h"
#include "shop/remake.h"

namespace ordinatio::piece_choice_test {
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

/// A workshop with slates of 150 × 100 mm, in a folder that goes again.
class Mill {
 public:
  Mill() {
    fs::remove_all(folder_);
    REQUIRE_FALSE(new_shop(folder_));
    write("templates/slate.toml",
          "[blank]\nwidth = 150\nheight = 100\n[clear]\nmargin = 5\n[text]\ncap_height = { min = 2, max = 40 }\n");
    write("shop.toml", shop_toml + "[blanks]\nfile = \"blanks.csv\"\n");
  }
  ~Mill() { fs::remove_all(folder_); }
  Mill(const Mill&) = delete;
  Mill& operator=(const Mill&) = delete;

  void write(const std::string& name, const std::string& text) const {
    std::ofstream(folder_ / name, std::ios::binary) << text;
  }
  [[nodiscard]] Shop shop() const {
    auto shop = read_shop(folder_);
    if (!shop.ok()) FAIL(describe(shop.fault()));
    return std::move(*shop);
  }
  Account day(const std::string& orders, const std::string& blanks) const {
    write("orders.csv", orders);
    write("blanks.csv", blanks);
    auto account = run_day(shop(), {folder_ / "orders.csv", folder_ / "out", {}, true, true, true, false, "", 2});
    if (!account.ok()) FAIL(describe(account.fault()));
    return std::move(*account);
  }
  /// "1042-1" → the id of its piece.
  [[nodiscard]] std::map<std::string, std::string> pieces() const {
    std::map<std::string, std::string> pieces;
    for (const ManifestItem& item : items()) pieces[item.item.id] = item.piece.id;
    return pieces;
  }
  [[nodiscard]] std::vector<ManifestItem> items() const {
    std::vector<ManifestItem> items;
    for (const auto& entry : fs::directory_iterator(folder_ / "out")) {
      if (entry.path().extension() != ".json") continue;
      const auto manifest = read_manifest(*read_file(entry.path()), "manifest");
      REQUIRE(manifest.ok());
      items.insert(items.end(), manifest->items.begin(), manifest->items.end());
    }
    return items;
  }
  [[nodiscard]] const fs::path& folder() const { return folder_; }

  const std::string shop_toml = "[shop]\ndesign = \"slate\"\n[machine]\nwidth = 600\nheight = 400\n[jig]\nedge = 24\n";

 private:
  fs::path folder_ = fs::temp_directory_path() / ("ordinatio-pieces-" + std::to_string(::getpid()));
};

const std::string head = "Order,Text,Quantity,Blank,Wish\n";
const std::string pieces_head = "id,width,height,keep_clear,chips,used\n";

}  // namespace

TEST_CASE("the long text gets the large piece, whichever comes first") {
  const Mill mill;
  const std::string orders = head + "1,Ada,1,,\n2,The Whole Family of Fenwick at the Old Mill,1,,\n";
  for (const std::string blanks : {"S,120,80,,,\nL,150,100,,,\n", "L,150,100,,,\nS,120,80,,,\n"}) {
    const Account account = mill.day(orders, pieces_head + blanks);
    CHECK(account.items_set == 2);
    CHECK(mill.pieces() == std::map<std::string, std::string>{{"1-1", "S"}, {"2-1", "L"}});
    CHECK_THAT(account.notes.back(), Contains("first come, first served"));
  }
}

TEST_CASE("a long text is tried on a few pieces more than it has items, however many lie there") {
  const Mill mill;
  mill.write("templates/slate.toml",
             "[blank]\nwidth = 150\nheight = 100\n[clear]\nmargin = 5\n[text]\nline_breaks = \"free\"\n"
             "cap_height = { min = 1.8, max = 40 }\n");
  std::string text;
  for (int i = 0; i < 110; ++i) text += (i == 0 ? "" : " ") + std::string("ab");
  const Shop shop = mill.shop();
  Blanks blanks;
  for (int i = 0; i < 40; ++i) {
    BlankRow& row = blanks.rows.emplace_back();
    row.width = 150 - 0.1 * i, row.height = 100 - 0.05 * i;
    row.blank = {"S-" + std::to_string(i), rectangle_outline(row.width, row.height, Corner::square, 0), {}, {}};
  }
  Order order;
  order.number = "1", order.text = text, order.quantity = 2, order.design = "slate", order.source = "orders.csv:2";
  Workroom workroom(shop);
  Composer composer(workroom, "", 1);
  REQUIRE_FALSE(workroom.open_designs({order}));
  PieceChoice choice(workroom, blanks, composer.typesetters(), "");
  std::vector<std::string> notes;
  const auto items = choice.choose({order}, notes);
  REQUIRE(items.size() == 2);
  CHECK((items[0].piece != nullptr && items[1].piece != nullptr));
  CHECK(choice.sizes_asked() <= 5);  // two items and three more pieces
}

TEST_CASE("where there are more pieces than items, the fullest are saved, unless the workshop says otherwise") {
  Mill mill;
  const std::string blanks = pieces_head + "L,150,100,,,\nS,120,80,,,\nM,140,95,,,\n";
  mill.day(head + "1,The Whole Family of Fenwick,2,,\n", blanks);
  CHECK(mill.pieces() == std::map<std::string, std::string>{{"1-1", "S"}, {"1-2", "M"}});
  mill.write("shop.toml", mill.shop_toml + "[blanks]\nfile = \"blanks.csv\"\nspare = \"none\"\n");
  mill.day(head + "1,The Whole Family of Fenwick,2,,\n", blanks);
  CHECK(mill.pieces() == std::map<std::string, std::string>{{"1-1", "L"}, {"1-2", "M"}});
}

TEST_CASE("a wish and a pinned piece come before what is largest") {
  const Mill mill;
  const std::string blanks =
      pieces_head + "A,150,100,stamp 5 5 20 10,,\nB,150,100,,top 0-30 12,\nC,150,100,,,\nD,150,100,,,\n";
  const Account account = mill.day(
      head + "1,Ada,1,,keep: stamp\n2,Ida,1,,size: full\n3,Eva,1,B,\n4,Ann,1,,keep: coin\n5,Una,1,Z,\n", blanks);
  const auto pieces = mill.pieces();
  CHECK(pieces.at("1-1") == "A");
  CHECK((pieces.at("2-1") == "C" || pieces.at("2-1") == "D"));
  CHECK(pieces.at("3-1") == "B");
  REQUIRE(account.held.size() == 2);
  CHECK_THAT(describe(account.held[0].fault), Contains("no free piece is as the customer wishes"));
  CHECK_THAT(describe(account.held[1].fault), Contains("piece Z is not free"));
}

TEST_CASE("a piece that is used is not free, and an item without a piece is held while the others go on") {
  const Mill mill;
  const Account account = mill.day(head + "1,Ada,3,,\n", pieces_head + "A,,,,,sold\nB,,,,,\nC,,,,,\n");
  CHECK(account.items_set == 2);
  REQUIRE(account.held.size() == 1);
  CHECK(account.held[0].id == "1-3");
  CHECK_THAT(describe(account.held[0].fault), Contains("no piece is left for it"));
}

TEST_CASE("a wish that is not understood holds its row, and without measured pieces every wish does") {
  Mill mill;
  const Account account =
      mill.day(head + "1,Ada,1,,colour: green\n2,Ida,1,A; B,\n3,Eva,1,,\n", pieces_head + "A,,,,,\n");
  CHECK(account.items_set == 1);
  CHECK_THAT(describe(account.held[0].fault), Contains("the wish \"colour: green\" is not understood"));
  CHECK_THAT(describe(account.held[1].fault), Contains("more pieces named than the order has items"));
  mill.write("shop.toml", mill.shop_toml);
  const Account bare = mill.day(head + "1,Ada,1,,size: full\n2,Ida,1,,\n", pieces_head);
  CHECK(bare.items_set == 1);
  CHECK_THAT(describe(bare.held.at(0).fault), Contains("no pieces are measured"));
}

TEST_CASE("an item on a measured piece is remade exactly as it was, and proofs show its piece") {
  const Mill mill;
  const std::string blanks = pieces_head + "A,138,99,stamp 5 5 20 10,top 0-30 7,\n";
  mill.day(head + "1,The Old Mill,1,,\n", blanks);
  const ManifestItem before = mill.items().at(0);
  const auto remade =
      run_remake(mill.shop(), {"1-1", mill.folder() / "out/sheet-001.json", mill.folder() / "again", {}, {}});
  if (!remade.ok()) FAIL(describe(remade.fault()));
  const auto manifest = read_manifest(*read_file(mill.folder() / "again/remake-1-1.json"), "manifest");
  REQUIRE(manifest.ok());
  CHECK(manifest->items.at(0).hash == before.hash);
  CHECK(manifest->items.at(0).piece.id == "A");
  const auto proof = run_proof(mill.shop(), {mill.folder() / "orders.csv", mill.folder() / "proofs", {}, {}, ""});
  if (!proof.ok()) FAIL(describe(proof.fault()));
  CHECK(proof->smallest_cap_height == before.cap_height);
}

TEST_CASE("a design engraved from behind is mirrored on its piece, and the marks are not") {
  const Mill mill;
  const std::string design = "side = \"back\"\n[blank]\nwidth = 150\nheight = 100\n[clear]\nmargin = 5\n[text]\n";
  mill.write("templates/slate.toml", design);
  mill.day(head + "1,F,1,,\n", pieces_head + "A,150,100,stamp 0 0 60 90 margin 0,,\n");
  const ManifestItem item = mill.items().at(0);
  CHECK(item.from_behind);
  CHECK(item.to_bed.determinant() == Approx(-1));
  // The stamp takes the left as it is seen; on the bed the piece lies face down, and its letter is to the left.
  const Point seen = item.placement.shift;
  CHECK(seen.x > 60);
  const auto manifest = read_manifest(*read_file(mill.folder() / "out/sheet-001.json"), "manifest");
  CHECK(item.to_bed(seen).x < manifest->pockets.at(static_cast<std::size_t>(item.pocket) - 1).box.left + 90);
}

TEST_CASE("more items than can be shared out at once are held, and the others go on") {
  const Mill mill;
  const Account account = mill.day(head + "1,Ada,2001,,\n", pieces_head + "A,,,,,\n");
  CHECK(account.items_set == 1);
  REQUIRE(account.held.size() == 2000);
  CHECK_THAT(describe(account.held.back().fault), Contains("one item too many"));
}

}  // namespace ordinatio::piece_choice_test
