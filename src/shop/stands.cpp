#include <algorithm>

#include "shop/sheet_run.h"

namespace ordinatio {
namespace {

constexpr int count_limit = 10'000;

bool has_inscription(const Design& design) {
  return std::ranges::any_of(design.texts,
                             [](const TextPart& text) { return std::holds_alternative<InscriptionPart>(text.words); });
}

}  // namespace

Result<Account> run_stands(const Shop& shop, const StandOptions& options, const Progress& progress) {
  if (options.count < 1 || options.count > count_limit) {
    return Fault{"a count of " + std::to_string(options.count) + " cannot be made", "--count", "",
                 "Give a number from 1 to " + std::to_string(count_limit)};
  }
  Workroom workroom(shop);
  const Result<const Station*> station = workroom.station(options.design.empty() ? shop.stand_design : options.design);
  if (!station) return station.fault();
  const Design& design = (*station)->design;
  if (has_inscription(design)) {
    return Fault{"design " + design.name + " is none for stands", "", "it has a place for a customer's words",
                 "Choose another with --design, or give the shop a stand_design"};
  }
  Typesetter typesetter(workroom.fonts());
  Result<Artwork> artwork = compose(design, {{}, options.date}, typesetter);
  if (!artwork) return artwork.fault();
  if (artwork->illegible) return *artwork->illegible;
  Result<std::unique_ptr<Outbox>> outbox = Outbox::open(options.out, "stands-");
  if (!outbox) return outbox.fault();

  Account account;
  account.smallest_cap_height = artwork->cap_height;
  account.smallest_item = design.name;
  SheetRun run(workroom, **outbox, {}, {"stands-", options.date}, 0);
  for (int n = 1; n <= options.count; ++n) {
    SheetItem item{{numbered("stand-", n), design.name, {}, ""}, *artwork, 0, {}};
    if (auto fault = run.add(**station, std::move(item))) return *std::move(fault);
    if (progress) progress(static_cast<std::size_t>(n), static_cast<std::size_t>(options.count));
  }
  if (auto fault = run.finish()) return *std::move(fault);
  account.items_set = static_cast<std::size_t>(options.count);
  account.sheets = run.sheets();
  auto files = (*outbox)->deliver();
  if (!files) return files.fault();
  account.files = std::move(*files);
  return account;
}

}  // namespace ordinatio
