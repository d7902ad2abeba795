// Where a command's files go: all of them, checked, or none. Of this folder alone.
#pragma once

#include <mutex>

#include "machine/machine.h"
#include "shop/workroom.h"

namespace ordinatio::inline shop {

/// Files are written into a hidden folder beside their place and moved there when the work is done. What an earlier run
/// left under the names of this kind of work is kept in earlier-001, earlier-002, …, unless it is the same to the byte.
class Outbox {
 public:
  /// Which files of an earlier run are in the way: all of this kind of work, or those whose names are written anew.
  enum class Earlier { of_the_kind, of_the_name };
  /// `stem`: files whose names begin with it are this kind of work ("sheet-", "proofs", …).
  static Result<std::unique_ptr<Outbox>> open(const std::filesystem::path& folder, const std::string& stem,
                                              Earlier earlier = Earlier::of_the_kind);
  ~Outbox();
  Outbox(const Outbox&) = delete;
  Outbox& operator=(const Outbox&) = delete;

  /// Writes the file and gives back what then stands on the disk. May be called from several threads.
  Result<std::string> put(const std::string& name, std::string_view bytes);
  /// From now on the hidden folder outlives a run that ends before its files are delivered, and the power's failing: the
  /// ledger is about to say that they are planned. Gives the SHA-256 of each file.
  Result<std::map<std::string, std::string>> seal();
  /// The ledger did not say it after all.
  void discard() { sealed_ = false; }
  /// When all is moved, these files of an earlier run go first, into the folder `earlier`.
  void set_aside_first(std::vector<std::string> names, std::string earlier) {
    aside_ = std::move(names), aside_folder_ = std::move(earlier);
  }
  /// Their places, in the order of their names.
  [[nodiscard]] std::vector<std::filesystem::path> files();
  /// Moves everything to its place; gives the files in the order of their names.
  Result<std::vector<std::filesystem::path>> deliver();

 private:
  Outbox(std::filesystem::path folder, std::string stem, Earlier earlier)
      : folder_(std::move(folder)), stem_(std::move(stem)), earlier_(earlier) {}
  [[nodiscard]] std::filesystem::path unfinished() const;
  void make_folders_last() const;
  [[nodiscard]] std::vector<std::string> earlier_files() const;
  [[nodiscard]] bool same_as_earlier(const std::vector<std::string>& earlier) const;

  std::filesystem::path folder_;
  std::string stem_;
  std::vector<std::filesystem::path> made_folders_;  // innermost first; they go again when nothing came of the work
  Earlier earlier_;
  bool delivered_ = false, sealed_ = false;
  std::mutex guard_;
  std::vector<std::string> names_, aside_;
  std::string aside_folder_;
};

/// Where files wait until they are moved to their place in the folder.
std::filesystem::path unfinished_folder(const std::filesystem::path& folder, const std::string& stem);
/// The first of earlier-001, earlier-002, … that is not there yet; `is_taken`: those that are not to be had all the same.
std::string next_earlier(const std::filesystem::path& folder,
                         const std::function<bool(const std::string& name)>& is_taken = {});
/// Moves files that are still in their place into a folder beside them.
MaybeFault move_aside(const std::filesystem::path& folder, const std::vector<std::string>& names,
                      const std::string& earlier);
/// Moves the file to a folder earlier-001, earlier-002, … beside it, if there is one of its name.
MaybeFault set_aside(const std::filesystem::path& folder, const std::vector<std::string>& names);
/// Sheet by sheet, each one's manifest last: where it is, the sheet is whole.
std::vector<std::string> in_order_of_moving(std::vector<std::string> names);
/// Renames the file to its place.
MaybeFault move_file(const std::filesystem::path& from, const std::filesystem::path& to);

struct SheetFormats {
  bool svg = true, dxf = true, pdf = true, png = false;
};
/// Writes a sheet's files in the order of work, reads each of them back and holds it against the sheet. time: what it takes,
/// where that is known.
MaybeFault put_sheet(Outbox& outbox, const Workroom& workroom, Sheet sheet, const SheetFormats& formats,
                     const std::optional<SheetTime>& time);

}  // namespace ordinatio::inline shop
