// What a command's work stands on: the workshop's ledger, or, where it keeps none, the files of this one run. Of this folder
// alone.
#pragma once

#include "base/account.h"
#include "ledger/ledger.h"
#include "orders/orders.h"
#include "shop/align.h"
#include "shop/piece_choice.h"
#include "shop/proving.h"
#include "shop/remaking.h"
#include "shop/stands.h"
#include "shop/transaction.h"

namespace ordinatio::inline shop {

/// An export that was read.
struct ShopExport {
  std::filesystem::path file;
  std::string channel;  // see IntakeOptions
  Orders orders;
};
/// The export that a command names. Where it names none: without a ledger the workshop's own, with one none, for what waits is
/// in the ledger. Faults: those of read_orders; with a ledger, samples that nobody asked for.
Result<std::optional<ShopExport>> export_named(const Shop& shop, const std::filesystem::path& named,
                                               const std::string& channel, const LedgerCall& call);

/// Stands that are to be made.
struct WantedStands {
  int count = 0;
  std::vector<std::int64_t> items = {};  // of the ledger, that lack one and have these in turn
};

/// Commands are written once, on this. In the ledger (LedgerRecords) what they do is written down, and what was done before
/// counts; files (FileRecords) know what stands in them, and nothing is kept.
class Records {
 public:
  Records(const Shop& shop, Delivery& delivery) : shop_(shop), delivery_(delivery) {}
  virtual ~Records() = default;
  Records(const Records&) = delete;
  Records& operator=(const Records&) = delete;
  [[nodiscard]] const Shop& shop() const { return shop_; }

  // ---- orders and pieces ----
  /// Takes the export in, if there is one, and tells what of it is held. wanted: the items that are asked for; empty: all.
  /// Faults: there is no such item; of files alone, a design that cannot be read.
  virtual MaybeFault take_in(Workroom& workroom, std::optional<ShopExport> given,
                             const std::vector<std::string>& wanted, Account& account) = 0;
  /// Says that the workshop's own export was passed over.
  virtual void note_unread(Account& account) = 0;
  /// The measured pieces that items may have; nothing where none are measured.
  virtual Result<std::optional<FreePieces>> pieces(Workroom& workroom, const std::filesystem::path& file,
                                                   Account& account) = 0;
  /// What waits, each order of one text, and in whose forms it is set. measured: whether there are pieces to wish for.
  virtual std::vector<Order> orders_to_prove(const Workroom& workroom, bool measured, Account& account) = 0;
  /// The same less what a person or a question holds, which is told; nothing where the day has nothing to do.
  virtual std::optional<std::vector<Order>> orders_to_lay(const Workroom& workroom, bool measured,
                                                          Account& account) = 0;
  /// Orders that cannot be laid.
  virtual void hold_orders(const std::vector<HeldItem>& held, Account& account) = 0;
  /// Whether the item may go on a sheet; if not, what it waits for is told.
  virtual bool may_be_laid(const std::string& number, const Design& design, const Artwork& artwork,
                           Account& account) = 0;
  virtual void note_held(const std::string& item, const Fault& fault) = 0;
  /// Its id in the ledger.
  virtual std::int64_t id_of(const std::string& item) = 0;
  virtual MaybeFault note_proof(const Design& design, const ProvedItem& proved) = 0;
  /// Faults: files that make no item are no use.
  virtual MaybeFault nothing_to_prove(Account& account) = 0;

  // ---- stands ----
  /// Faults: a count that cannot be. Nothing: none are lacking.
  virtual Result<std::optional<WantedStands>> stands_wanted(const StandOptions& options, Account& account) = 0;
  /// The number that the next stand bears, where that is known.
  virtual std::optional<int> next_serial() = 0;
  /// Faults: one of the numbers is given.
  virtual MaybeFault check_serials(int first, int last) = 0;
  virtual void tell_stands(const WantedStands& wanted, Account& account) = 0;

  // ---- an item made again ----
  /// Nothing: it is made later. Faults: the item or its sheet is not known, it is not made yet, it is not to be made so.
  virtual Result<std::optional<ToRemake>> to_remake(Workroom& workroom, const RemakeOptions& options,
                                                    Account& account) = 0;
  /// The item on the piece that it is made on now.
  virtual Result<SheetItem> on_piece(Workroom& workroom, const ToRemake& wanted, const RemakeOptions& options,
                                     SheetItem again, Account& account) = 0;
  virtual std::string remake_name(const std::string& item, int number) = 0;

  // ---- a sheet laid to its marks ----
  virtual Result<Manifest> manifest_to_align(const AlignOptions& options) = 0;
  /// What of that sheet is still to be engraved, as it was drawn.
  virtual Result<Sheet> redraw(Workroom& workroom, const Manifest& manifest, const std::string& name,
                               Account& account) = 0;
  /// Where its files go: beside the sheet's own, or elsewhere as a copy.
  virtual MaybeFault open_aligned(const std::filesystem::path& named, const std::string& name) = 0;
  virtual MaybeFault book_aligned(const std::string& name, Account& account) = 0;

  // ---- sheets ----
  virtual int next_sheet_number() = 0;
  /// Opens the outbox: for `named`, else for where sheets go; files alone are parted by their kinds, each into the folder
  /// out/`usual` with names that begin with `stem`.
  virtual MaybeFault open_outbox(const std::filesystem::path& named, const std::string& usual,
                                 const std::string& stem) = 0;
  [[nodiscard]] Outbox& outbox() const { return *delivery_.outbox; }
  /// Books what is in the outbox and names it in the account, which is whole but for that.
  /// Faults: artwork that is not what was approved, a blank that is not free.
  virtual MaybeFault book_sheets(std::vector<NewSheet> sheets, Account& account) = 0;

 protected:
  const Shop& shop_;
  Delivery& delivery_;
};

using RecordWork = std::function<MaybeFault(Records&, Account&)>;
/// Runs the work in the ledger, as in_ledger does, where the workshop keeps one; else on files.
Result<Account> on_record(const Shop& shop, const LedgerCall& call, EntryKind kind, const RecordWork& work,
                          const std::string& input = "");
/// Runs the work on files, whatever the workshop keeps.
Result<Account> on_files(const Shop& shop, const RecordWork& work);
/// The same in the ledger, to see what it would do: nothing of it stays.
Result<Account> to_see_on_record(const Shop& shop, const LedgerCall& call, EntryKind kind, const RecordWork& work);

}  // namespace ordinatio::inline shop
