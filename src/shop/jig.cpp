#include "shop/jig.h"

#include "base/account.h"
#include "shop/sheet_run.h"
#include "shop/sheet_time.h"

namespace ordinatio::inline shop {
namespace {

/// What a maker wants to know of the board before cutting it.
void account_for(Account& account, const Board& board) {
  const Jig& jig = board.sheet.frame.plan.jig;
  account.sheets = 1;
  account.items_set = board.sheet.frame.pockets.size();
  std::string size;
  append_number(size, board.hole_width, 2);
  account.notes.push_back("each hole comes out " + size + " x " + mm_text(board.hole_height) + " with a kerf of " +
                          mm_text(jig.kerf, 3) + "; cut a slit, gauge it, and set kerf in shop.toml, " + table_of(jig));
  if (board.notch > 0) {
    account.notes.push_back(
        "finger notches are " + mm_text(board.notch) + " across" +
        (board.notch < jig.notch ? ", not " + mm_text(jig.notch) + ": there is no room for more" : ""));
  }
  account.notes.push_back("the pockets' numbers are " + mm_text(board.number_height) + " tall");
}

Result<Board> board_in(Workroom& workroom, const std::string& named) {
  const Result<const Station*> station = workroom.station(named.empty() ? workroom.shop().default_design : named);
  if (!station.ok()) return station.fault();
  if ((*station)->no_bed) return *(*station)->no_bed;
  Typesetter typesetter(workroom.fonts());
  Result<Board> board = build_jig((*station)->beds.front(), typesetter);
  if (board.ok()) board->sheet.designs = {{(*station)->design.name, (*station)->design.checksum}};
  return board;
}

}  // namespace

Result<Board> board_of(const Shop& shop, const std::string& design) {
  Workroom workroom(shop);
  return board_in(workroom, design);
}

Result<Account> run_jig(const Shop& shop, const JigOptions& options) {
  Workroom workroom(shop);
  const Result<Board> board = board_in(workroom, options.design);
  if (!board.ok()) return board.fault();
  Account account;
  account_for(account, *board);
  tell_setting(account, board->sheet);
  Result<std::unique_ptr<Outbox>> outbox = Outbox::open(options.out, board->sheet.name + ".");
  if (!outbox.ok()) return outbox.fault();
  if (auto fault = put_sheet(**outbox, workroom, board->sheet, {}, sheet_time(shop, board->sheet)))
    return *std::move(fault);
  auto files = (*outbox)->deliver();
  if (!files.ok()) return files.fault();
  account.files = std::move(*files);
  return account;
}

}  // namespace ordinatio::inline shop
