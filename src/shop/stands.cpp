#include "shop/stands.h"

#include <algorithm>

#include "base/account.h"
#include "shop/records.h"
#include "shop/sheet_run.h"

namespace ordinatio::inline shop {
namespace {

constexpr int count_limit = 10'000;
constexpr int number_limit = 999'999;  // a longer one would be a slip of the pen
constexpr int stands_a_batch = 512;    // stands composed before their sheets are written: what memory holds at once

}  // namespace

MaybeFault check_numbers(const StandOptions& options) {
  if (!options.count) {
    return Fault{"no count is given", "--count", "without a ledger the program does not know how many are wanted",
                 "Give a number from 1 to " + std::to_string(count_limit)};
  }
  if (*options.count < 1 || *options.count > count_limit) {
    return Fault{"a count of " + std::to_string(*options.count) + " cannot be made", "--count", "",
                 "Give a number from 1 to " + std::to_string(count_limit)};
  }
  const int largest = number_limit - *options.count + 1;
  if (options.first_number.value_or(1) >= 1 && options.first_number.value_or(1) <= largest) return std::nullopt;
  return Fault{"no stands are numbered from " + std::to_string(*options.first_number), "--first-number", "",
               "Give a number from 1 to " + std::to_string(largest)};
}

namespace {

Result<Artwork> compose_stand(const LaidDesign& design, const std::string& date, const std::string& number,
                              Typesetter& typesetter) {
  Result<Artwork> artwork = compose(design, {{}, date, number}, typesetter);
  if (artwork.ok() && artwork->illegible) return *artwork->illegible;
  return artwork;
}

/// One run of stands, from their design to their sheets.
class Stands {
 public:
  Stands(const Workroom& workroom, Outbox& outbox, const Station& station, const StandOptions& options,
         const Progress& progress, int first_sheet)
      : station_(station),
        options_(options),
        progress_(progress),
        run_(workroom, &outbox, {}, {"stands-", options.date, first_sheet}, 0) {}

  /// All bear the same artwork.
  MaybeFault add_alike(const Artwork& artwork);
  /// Each bears its own number: composed on all cores.
  MaybeFault add_numbered(std::vector<Typesetter>& typesetters);
  MaybeFault finish(Account& account);
  [[nodiscard]] const std::map<int, SheetRun::Written>& written() const { return run_.written(); }

 private:
  MaybeFault add(const std::string& id, const std::string& number, Artwork artwork);

  const Station& station_;
  const StandOptions& options_;
  const Progress& progress_;
  SheetRun run_;
  std::size_t done_ = 0;
  double smallest_ = 0;
};

MaybeFault Stands::add(const std::string& id, const std::string& number, Artwork artwork) {
  run_.expect({{id, &station_, &station_.design.blank}});  // of one design they are equally thick: one lot
  if (done_++ == 0 || artwork.cap_height < smallest_) smallest_ = artwork.cap_height;
  if (auto fault = run_.add(station_, {{id, station_.design.name, {}, "", number}, std::move(artwork), 0, {}}))
    return fault;
  if (progress_) progress_(done_, static_cast<std::size_t>(*options_.count));
  return std::nullopt;
}

MaybeFault Stands::add_alike(const Artwork& artwork) {
  for (int n = 1; n <= *options_.count; ++n) {
    if (auto fault = add(numbered("stand-", n), "", artwork)) return fault;
  }
  return std::nullopt;
}

MaybeFault Stands::add_numbered(std::vector<Typesetter>& typesetters) {
  const int end = *options_.first_number + *options_.count;
  for (int first = *options_.first_number; first < end; first += stands_a_batch) {
    std::vector<std::optional<Result<Artwork>>> artworks(
        static_cast<std::size_t>(std::min(stands_a_batch, end - first)));
    const auto number_of = [first](std::size_t i) { return numbered("", first + static_cast<int>(i)); };
    for_each_parallel(artworks.size(), static_cast<unsigned>(typesetters.size()), [&](std::size_t i, unsigned worker) {
      artworks[i] = compose_stand(station_.design, options_.date, number_of(i), typesetters[worker]);
    });
    for (std::size_t i = 0; i < artworks.size(); ++i) {
      const std::string id = "stand-" + number_of(i);
      if (!artworks[i]->ok()) {
        Fault fault = artworks[i]->fault();
        fault.where = id + (fault.where.empty() ? "" : ", " + fault.where);
        return fault;
      }
      if (auto fault = add(id, number_of(i), **std::move(artworks[i]))) return fault;
    }
  }
  return std::nullopt;
}

MaybeFault Stands::finish(Account& account) {
  if (auto fault = run_.finish()) return fault;
  account.items_set = static_cast<std::size_t>(*options_.count);
  account.sheets = run_.sheets();
  tell_settings(account, run_.written());
  tell_times(account, run_.written());
  account.smallest_cap_height = smallest_;
  account.smallest_item = station_.design.name;
  return std::nullopt;
}

Result<const Station*> open_design(Workroom& workroom, const std::string& name) {
  Result<const Station*> station = workroom.station(name);
  if (station.ok() && (*station)->unfit) return *(*station)->unfit;
  if (!station.ok() || !has_inscription((*station)->design)) return station;
  return Fault{"design " + (*station)->design.name + " is none for stands", "", "it has a place for a customer's words",
               "Choose another with --design, or give the shop a stand_design"};
}

/// The design, opened, and what its first stand looks like: lest a folder be made for what no stand of them can be.
struct StandWork {
  Workroom workroom;
  const Station* station = nullptr;
  std::vector<Typesetter> typesetters;
  std::optional<Artwork> first;
  explicit StandWork(const Shop& shop) : workroom(shop) {}

  MaybeFault open(const StandOptions& options);
  [[nodiscard]] bool is_numbered() const { return has_number(station->design); }
  MaybeFault compose_first(const StandOptions& options, Account& account);
  /// All of them.
  MaybeFault make(Stands& stands, Account& account);
};

MaybeFault StandWork::open(const StandOptions& options) {
  const Result<const Station*> opened =
      open_design(workroom, options.design.empty() ? workroom.shop().stand_design : options.design);
  if (!opened.ok()) return opened.fault();
  station = *opened;
  if (station->no_bed) return station->no_bed;
  for (unsigned i = 0; i < (is_numbered() ? core_count() : 1); ++i) typesetters.emplace_back(workroom.fonts());
  return std::nullopt;
}

MaybeFault StandWork::compose_first(const StandOptions& options, Account& account) {
  Result<Artwork> artwork =
      compose_stand(station->design, options.date, options.first_number ? numbered("", *options.first_number) : "",
                    typesetters.front());
  if (!artwork.ok()) return artwork.fault();
  first = *std::move(artwork);
  if (options.first_number && !is_numbered()) {
    account.notes.push_back("--first-number has no use: design " + station->design.name + " has no place for one");
  }
  return std::nullopt;
}

MaybeFault StandWork::make(Stands& stands, Account& account) {
  if (auto fault = is_numbered() ? stands.add_numbered(typesetters) : stands.add_alike(*first)) return fault;
  return stands.finish(account);
}

/// The sheets as the ledger has them; stands go to the items that lack one in turn, what is left over is to spare.
std::vector<NewSheet> planned_stands(const StandOptions& options, const Stands& stands,
                                     const std::vector<std::int64_t>& lacking, bool is_numbered) {
  std::vector<NewSheet> sheets;
  std::size_t done = 0;
  for (const auto& [number, written] : stands.written()) {
    NewSheet& sheet = sheets.emplace_back();
    sheet.sheet = {number, written.name, LedgerSheet::Kind::stands, {}, options.date, "", false, {}};
    for (const SheetRun::Laid& laid : written.items) {
      NewStand& stand = sheet.stands.emplace_back();
      stand.pocket = laid.pocket, stand.batch = options.batch;
      if (is_numbered) stand.serial = *options.first_number + static_cast<int>(done);
      if (done < lacking.size()) stand.item = lacking[done];
      ++done;
    }
  }
  return sheets;
}

/// The first number, where the ledger knows it and nobody gave another. No two stands bear one number.
MaybeFault settle_numbers(Records& records, StandOptions& options, bool is_numbered) {
  if (is_numbered && !options.first_number) options.first_number = records.next_serial();
  if (auto fault = check_numbers(options)) return fault;
  if (!is_numbered || !options.first_number) return std::nullopt;
  return records.check_serials(*options.first_number, *options.first_number + *options.count - 1);
}

MaybeFault make_stands(Records& records, StandOptions options, const Progress& progress, Account& account) {
  const Result<std::optional<WantedStands>> wanted = records.stands_wanted(options, account);
  if (!wanted.ok()) return wanted.fault();
  if (!*wanted) return std::nullopt;
  options.count = (*wanted)->count;
  StandWork work(records.shop());
  if (auto fault = work.open(options)) return fault;
  if (auto fault = settle_numbers(records, options, work.is_numbered())) return fault;
  if (auto fault = work.compose_first(options, account)) return fault;
  if (auto fault = records.open_outbox(options.out, "stands", "stands-")) return fault;
  Stands stands(work.workroom, records.outbox(), *work.station, options, progress, records.next_sheet_number());
  if (auto fault = work.make(stands, account)) return fault;
  records.tell_stands(**wanted, account);
  return records.book_sheets(planned_stands(options, stands, (*wanted)->items, work.is_numbered()), account);
}

}  // namespace

Result<Artwork> stand_of(const Shop& shop, StandOptions options) {
  StandWork work(shop);
  if (auto fault = work.open(options)) return *std::move(fault);
  if (work.is_numbered() && !options.first_number) options.first_number = 1;
  Account ignored;
  if (auto fault = work.compose_first(options, ignored)) return *std::move(fault);
  return *std::move(work.first);
}

Result<Account> run_stands(const Shop& shop, const StandOptions& options, const Progress& progress) {
  return on_record(shop, options.call, EntryKind::stands, [&](Records& records, Account& account) {
    return make_stands(records, options, progress, account);
  });
}

}  // namespace ordinatio::inline shop
