#include "blanks/panes.h"

#include <algorithm>
#include <cmath>

#include "base/account.h"
#include "base/phrase.h"
#include "csv/csv.h"
#include "csv/shown.h"
#include "orders/order_rows.h"
#include "paper/cutting_pdf.h"
#include "shop/outbox.h"
#include "shop/panes.h"

namespace ordinatio::inline shop {
namespace {

constexpr double rounding_slack = 1e-9;  // pieces: 20 × (1 − 0.8) must not become 3

std::string number_text(double value) {
  std::string text;
  append_number(text, value, 3);
  return text;
}

/// `name left bottom width height`, parted by `;`: ink keeps clear of what was kept whole. A name is one word here.
std::string keep_clear_cell(const CutPiece& piece) {
  std::string cell;
  for (const PaneThing& thing : piece.things) {
    std::string name = thing.name;
    std::replace_if(
        name.begin(), name.end(), [](char c) { return c == ' ' || c == ';'; }, '-');
    cell += (cell.empty() ? "" : "; ") + name;
    for (const double measure : {thing.box.left, thing.box.bottom, thing.box.width(), thing.box.height()}) {
      cell += " " + number_text(measure);
    }
  }
  return cell;
}

void append_record(std::string& csv, const std::vector<std::string>& cells) {
  for (std::size_t i = 0; i < cells.size(); ++i) csv.append(i == 0 ? "" : ",").append(csv_field(cells[i]));
  csv += "\r\n";
}

Fault piece_fault(const std::string& piece) {
  return {"the piece " + shown(piece) + " is no size", "--piece", "",
          "Write width x height in mm, such as 101.6x152.4"};
}

/// The piece that was asked for, or the blank of the shop's own design.
Result<CuttingTask> task_of(const Shop& shop, Workroom& workroom, const PanesOptions& options) {
  CuttingTask task{0, 0, options.kerf};
  if (options.piece.empty()) {
    const auto station = workroom.station(shop.default_design);
    if (!station.ok()) return station.fault();
    task.piece_width = (*station)->design.width;
    task.piece_height = (*station)->design.height;
    return task;
  }
  const std::size_t by = options.piece.find_first_of("xX");
  if (by == std::string::npos) return piece_fault(options.piece);
  const auto width = parse_number(options.piece.substr(0, by)), height = parse_number(options.piece.substr(by + 1));
  if (!width || !height || !(*width > 0 && *height > 0)) return piece_fault(options.piece);
  task.piece_width = *width;
  task.piece_height = *height;
  return task;
}

MaybeFault check_options(const PanesOptions& options) {
  if (!(options.breakage >= 0 && options.breakage < 1)) {
    return Fault{"the breakage is no share", "--breakage", "it is from 0 to below 1",
                 "Write 0.05 where one piece in twenty breaks"};
  }
  if (!(options.kerf >= 0 && options.kerf <= widest_kerf)) {
    return Fault{"the kerf is no blade's", "--kerf", "it is from 0 to " + mm_text(widest_kerf),
                 "Measure the slit that the saw leaves"};
  }
  return std::nullopt;
}

/// Plans in the order of the rows, on all cores.
std::vector<Result<CuttingPlan>> plan_all(const std::vector<PaneRow>& rows, const CuttingTask& task,
                                          const Progress& progress) {
  std::vector<Result<CuttingPlan>> plans(rows.size(), Result<CuttingPlan>(Fault{}));
  std::size_t done = 0;
  std::mutex guard;
  for_each_parallel(rows.size(), core_count(), [&](std::size_t index, unsigned) {
    plans[index] = plan_cutting(rows[index].pane, task);
    const std::lock_guard lock(guard);
    ++done;
    if (progress) progress(done, rows.size());
  });
  return plans;
}

Fault no_piece(const CuttingPlan& plan) {
  return {"no piece goes into the pane", "",
          mm_text(plan.pane.width) + " × " + mm_text(plan.pane.height) +
              ", and what is kept clear, leave no room for " + mm_text(plan.task.piece_width) + " × " +
              mm_text(plan.task.piece_height),
          "Plan smaller pieces for it: --piece"};
}

/// Parts the rows into those with plans, which stay, and those that are held.
std::vector<CuttingPlan> keep_planned(std::vector<PaneRow>& rows, std::vector<Result<CuttingPlan>> plans,
                                      Account& account) {
  std::vector<PaneRow> planned;
  std::vector<CuttingPlan> good;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (plans[i].ok() && !plans[i]->pieces.empty()) {
      planned.push_back(std::move(rows[i]));
      good.push_back(std::move(*plans[i]));
      continue;
    }
    Fault fault = plans[i].ok() ? no_piece(*plans[i]) : plans[i].fault();
    fault.where = rows[i].source;
    account.held.push_back({rows[i].pane.id, std::move(fault)});
  }
  rows = std::move(planned);
  return good;
}

void note_pieces(const std::vector<CuttingPlan>& plans, double breakage, Account& account) {
  for (const CuttingPlan& plan : plans) account.items_set += plan.pieces.size();
  account.notes.push_back(counted(account.items_set, "piece") + " at the most: what breaks or is flawed comes off");
  if (breakage > 0) {
    const double expected = std::floor(static_cast<double>(account.items_set) * (1 - breakage) + rounding_slack);
    account.notes.push_back(counted(static_cast<std::size_t>(expected), "piece") + " to expect at a breakage of " +
                            number_text(breakage));
  }
  for (const CuttingPlan& plan : plans) {
    std::string note = plan.pane.id + ": " + counted(plan.pieces.size(), "piece");
    if (plan.pane.factory.count() > 0) {
      note += ", factory edges kept " + std::to_string(plan.factory_edges()) + ", corners " +
              std::to_string(plan.factory_corners());
    }
    account.notes.push_back(note);
    if (plan.is_best) continue;
    account.warnings.push_back(plan.pane.id + ": there may be a better plan; the things on it leave too many to try");
  }
}

/// Writes the file; what then stands on the disk must be the same to the byte.
MaybeFault put_whole(Outbox& outbox, const std::string& name, const std::string& bytes) {
  const Result<std::string> written = outbox.put(name, bytes);
  if (!written.ok()) return written.fault();
  if (*written == bytes) return std::nullopt;
  return Fault{"read back, the file is not what was written", name, "", "Look after the disk", Fault::Cause::machine};
}

/// blanks.csv for the pieces of all plans, RFC 4180, with its header.
std::string blanks_csv(const std::vector<PaneRow>& rows, const std::vector<CuttingPlan>& plans) {
  std::string csv;
  append_record(csv,
                {"id", "material", "glass", "width", "height", "thickness", "factory_edges", "keep_clear", "note"});
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const CuttingTask& task = plans[i].task;
    for (std::size_t n = 0; n < plans[i].pieces.size(); ++n) {
      const CutPiece& piece = plans[i].pieces[n];
      append_record(csv, {piece_id(plans[i], n), rows[i].material, rows[i].glass, number_text(task.piece_width),
                          number_text(task.piece_height), rows[i].thickness ? number_text(*rows[i].thickness) : "",
                          words_for(piece.factory), keep_clear_cell(piece), rows[i].note});
    }
  }
  return csv;
}

/// The PDF's pages say what the CSV's rows say.
MaybeFault deliver(const Workroom& workroom, const std::filesystem::path& out, const std::vector<PaneRow>& rows,
                   const std::vector<CuttingPlan>& plans, Account& account) {
  std::vector<CuttingPage> pages;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    pages.push_back({plans[i], rows[i].material, rows[i].note, rows[i].thickness});
  }
  const Result<std::string> pdf = write_cutting_pdf(pages, workroom.shop().name, workroom.fonts());
  if (!pdf.ok()) return pdf.fault();
  Result<std::unique_ptr<Outbox>> cutting = Outbox::open(out, "cutting"), blanks = Outbox::open(out, "blanks");
  for (const auto* outbox : {&cutting, &blanks}) {
    if (!outbox->ok()) return outbox->fault();
  }
  const std::string csv = blanks_csv(rows, plans);
  if (auto fault = put_whole(**cutting, "cutting.pdf", *pdf)) return fault;
  if (auto fault = put_whole(**blanks, "blanks.csv", csv)) return fault;
  for (Outbox* outbox : {blanks->get(), cutting->get()}) {
    const auto files = outbox->deliver();
    if (!files.ok()) return files.fault();
    account.files.insert(account.files.end(), files->begin(), files->end());
  }
  return std::nullopt;
}

}  // namespace

Result<Account> run_panes(const Shop& shop, const PanesOptions& options, const Progress& progress) {
  if (auto fault = check_options(options)) return *std::move(fault);
  Workroom workroom(shop);
  const Result<CuttingTask> task = task_of(shop, workroom, options);
  if (!task.ok()) return task.fault();
  Result<PaneRows> rows = read_panes(options.panes);
  if (!rows.ok()) return rows.fault();
  Account account;
  account.held = std::move(rows->held);
  const std::vector<CuttingPlan> plans = keep_planned(rows->panes, plan_all(rows->panes, *task, progress), account);
  note_pieces(plans, options.breakage, account);
  account.notes.insert(account.notes.end(), rows->notes.begin(), rows->notes.end());
  if (options.shown) options.shown(plans);
  if (plans.empty()) return account;
  if (auto fault = deliver(workroom, options.out, rows->panes, plans, account)) return *std::move(fault);
  return account;
}

}  // namespace ordinatio::inline shop
