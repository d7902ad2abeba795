#include <algorithm>

#include "shop/sheet_run.h"

namespace ordinatio {
namespace {

constexpr int count_limit = 10'000;
constexpr int number_limit = 999'999;  // a longer one would be a slip of the pen
constexpr int batch = 512;             // stands composed before their sheets are written: what memory holds at once

bool has_inscription(const Design& design) {
  return std::ranges::any_of(design.texts,
                             [](const TextPart& text) { return std::holds_alternative<InscriptionPart>(text.words); });
}

MaybeFault check_numbers(const StandOptions& options) {
  if (options.count < 1 || options.count > count_limit) {
    return Fault{"a count of " + std::to_string(options.count) + " cannot be made", "--count", "",
                 "Give a number from 1 to " + std::to_string(count_limit)};
  }
  const int largest = number_limit - options.count + 1;
  if (options.first_number.value_or(1) >= 1 && options.first_number.value_or(1) <= largest) return std::nullopt;
  return Fault{"no stands are numbered from " + std::to_string(*options.first_number), "--first-number", "",
               "Give a number from 1 to " + std::to_string(largest)};
}

Result<Artwork> compose_stand(const Design& design, const std::string& date, const std::string& number,
                              Typesetter& typesetter) {
  Result<Artwork> artwork = compose(design, {{}, date, number}, typesetter);
  if (artwork && artwork->illegible) return *artwork->illegible;
  return artwork;
}

/// One run of stands, from their design to their sheets.
class Stands {
 public:
  Stands(Workroom& workroom, Outbox& outbox, const Station& station, const StandOptions& options,
         const Progress& progress)
      : station_(station),
        options_(options),
        progress_(progress),
        run_(workroom, outbox, {}, {"stands-", options.date}, 0) {}

  /// All bear the same artwork.
  MaybeFault add_alike(const Artwork& artwork);
  /// Each bears its own number: composed on all cores.
  MaybeFault add_numbered(std::vector<Typesetter>& typesetters);
  MaybeFault finish(Account& account);

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
  if (done_++ == 0 || artwork.cap_height < smallest_) smallest_ = artwork.cap_height;
  if (auto fault = run_.add(station_, {{id, station_.design.name, {}, "", number}, std::move(artwork), 0, {}}))
    return fault;
  if (progress_) progress_(done_, static_cast<std::size_t>(options_.count));
  return std::nullopt;
}

MaybeFault Stands::add_alike(const Artwork& artwork) {
  for (int n = 1; n <= options_.count; ++n) {
    if (auto fault = add(numbered("stand-", n), "", artwork)) return fault;
  }
  return std::nullopt;
}

MaybeFault Stands::add_numbered(std::vector<Typesetter>& typesetters) {
  const int end = *options_.first_number + options_.count;
  for (int first = *options_.first_number; first < end; first += batch) {
    std::vector<std::optional<Result<Artwork>>> artworks(static_cast<std::size_t>(std::min(batch, end - first)));
    const auto number_of = [first](std::size_t i) { return numbered("", first + static_cast<int>(i)); };
    for_each_parallel(artworks.size(), static_cast<unsigned>(typesetters.size()), [&](std::size_t i, unsigned worker) {
      artworks[i] = compose_stand(station_.design, options_.date, number_of(i), typesetters[worker]);
    });
    for (std::size_t i = 0; i < artworks.size(); ++i) {
      const std::string id = "stand-" + number_of(i);
      if (!*artworks[i]) {
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
  account.items_set = static_cast<std::size_t>(options_.count);
  account.sheets = run_.sheets();
  account.smallest_cap_height = smallest_;
  account.smallest_item = station_.design.name;
  return std::nullopt;
}

Result<const Station*> open_design(Workroom& workroom, const std::string& name) {
  Result<const Station*> station = workroom.station(name);
  if (!station || !has_inscription((*station)->design)) return station;
  return Fault{"design " + (*station)->design.name + " is none for stands", "", "it has a place for a customer's words",
               "Choose another with --design, or give the shop a stand_design"};
}

}  // namespace

Result<Account> run_stands(const Shop& shop, const StandOptions& options, const Progress& progress) {
  if (auto fault = check_numbers(options)) return *std::move(fault);
  Workroom workroom(shop);
  const Result<const Station*> station =
      open_design(workroom, options.design.empty() ? shop.stand_design : options.design);
  if (!station) return station.fault();
  const bool is_numbered = has_number((*station)->design);
  std::vector<Typesetter> typesetters;
  for (unsigned i = 0; i < (is_numbered ? core_count() : 1); ++i) typesetters.emplace_back(workroom.fonts());
  // One for all; of those that are numbered the first, lest a folder be made for what no stand of them can be.
  const Result<Artwork> first =
      compose_stand((*station)->design, options.date, options.first_number ? numbered("", *options.first_number) : "",
                    typesetters.front());
  if (!first) return first.fault();
  Result<std::unique_ptr<Outbox>> outbox = Outbox::open(options.out, "stands-");
  if (!outbox) return outbox.fault();

  Account account;
  if (options.first_number && !is_numbered) {
    account.notes.push_back("--first-number has no use: design " + (*station)->design.name + " has no place for one");
  }
  Stands stands(workroom, **outbox, **station, options, progress);
  if (auto fault = is_numbered ? stands.add_numbered(typesetters) : stands.add_alike(*first)) return *std::move(fault);
  if (auto fault = stands.finish(account)) return *std::move(fault);
  auto files = (*outbox)->deliver();
  if (!files) return files.fault();
  account.files = std::move(*files);
  return account;
}

}  // namespace ordinatio
