// The sheets: what is on each, and what became of it.
#include <algorithm>

#include "bookkeeping/bookkeeping.h"
#include "desk/answers.h"
#include "desk/given_files.h"
#include "desk/pictures.h"
#include "shop/ledger_access.h"
#include "shop/loading.h"
#include "shop/sheet_time.h"

namespace ordinatio::inline desk {
namespace {

Json line_of(Ledger& ledger, const LedgerSheet& sheet) {
  std::size_t waiting = 0, engraved = 0;
  for (const LedgerPlacement& placement : ledger.placements_on(sheet.number)) {
    if (placement.state == LedgerPlacement::State::on_sheet) ++waiting;
    if (placement.state == LedgerPlacement::State::engraved) ++engraved;
  }
  return {{"name", sheet.name},   {"kind", name_of(sheet.kind)}, {"written", sheet.written},
          {"stale", sheet.stale}, {"waiting", waiting},          {"engraved", engraved}};
}

Json places_of(Ledger& ledger, const LedgerSheet& sheet) {
  Json places = Json::array();
  for (const LedgerPlacement& placement : ledger.placements_on(sheet.number)) {
    places.push_back({{"pocket", placement.pocket},
                      {"state", name_of(placement.state)},
                      {"piece", placement.blank},
                      {"item", shape_of(*ledger.item(placement.item), ledger, "")}});
  }
  return places;
}

/// Where an item may be laid: what is engraved, or went wrong, stays.
Json pockets_of(Ledger& ledger, const LedgerSheet& sheet, const Sheet& drawn) {
  Json pockets = Json::array();
  const std::vector<LedgerPlacement> places = ledger.placements_on(sheet.number);
  for (const Pocket& pocket : drawn.frame.pockets) {
    const auto there = std::ranges::find(places, pocket.number, &LedgerPlacement::pocket);
    const bool is_open = there == places.end() || there->state == LedgerPlacement::State::on_sheet ||
                         there->state == LedgerPlacement::State::withdrawn;
    if (is_open) pockets.push_back(pocket.number);
  }
  return pockets;
}

Json files_of(const LedgerSheet& sheet) {
  Json files = Json::array();
  for (const auto& [name, checksum] : sheet.files) {
    if (!is_aside(name)) files.push_back(name);
  }
  return files;
}

}  // namespace

Json shape_of_sheets(Ledger& ledger) {
  Json sheets = Json::array();
  for (const LedgerSheet& sheet : ledger.sheets()) sheets.push_back(line_of(ledger, sheet));
  return sheets;
}

Response show_sheets(WorkshopDesk& desk, const Request&) {
  return from_workshop(desk, [&](TrialBench&, Ledger& ledger) {
    return answer_of(Json{{"sheets", shape_of_sheets(ledger)}});
  });
}

Response show_sheet(WorkshopDesk& desk, const Request& request) {
  return from_workshop(desk, [&](TrialBench& bench, Ledger& ledger) -> Response {
    const Result<LedgerSheet> sheet = sheet_meant(ledger, request.parameter("name"));
    if (!sheet.ok()) return answer_of(sheet.fault());
    // Stands have no items, and a sheet whose design is another one by now cannot be drawn: the list is there all the same.
    const Result<Sheet> drawn = bench.sheet(*sheet);
    const Machine& machine = bench.shop().plan.machine;
    Json shape = line_of(ledger, *sheet);
    shape.erase("waiting"), shape.erase("engraved");
    shape["picture"] = drawn.ok() ? bed_picture(*drawn) : "";
    shape["width"] = drawn.ok() ? drawn->frame.plan.machine.width : machine.width;
    shape["height"] = drawn.ok() ? drawn->frame.plan.machine.height : machine.height;
    shape["places"] = places_of(ledger, *sheet);
    shape["pockets"] = drawn.ok() ? pockets_of(ledger, *sheet, *drawn) : Json::array();
    const auto time = drawn.ok() ? sheet_time(bench.shop(), *drawn) : std::nullopt;
    shape["time"] = time && !time->operations.empty() ? time_words(*time) : "";
    shape["files"] = files_of(*sheet);
    shape["story"] = shape_of(ledger.story_of_sheet(*sheet));
    return answer_of(shape);
  });
}

Response book_engraved(WorkshopDesk& desk, const Request& request) {
  return command(
      desk, request,
      [&](const Shop& shop, const Ask& ask) {
        const std::string sheet = ask.text("sheet"), pockets = ask.text("pockets");
        return run_engraved(shop, {desk.call("engraved " + sheet + " " + pockets), {sheet}, pockets});
      },
      "sheet");
}

Response resume_sheet(WorkshopDesk& desk, const Request& request) {
  return command(desk, request, [&](const Shop& shop, const Ask& ask) {
    ResumeOptions options;
    options.sheet = ask.text("sheet");
    options.done = ask.text("done");
    options.spoiled = ask.text("spoiled");
    if (!ask.text("reason").empty()) options.reason = ask.text("reason");
    options.call = desk.call("resume " + options.sheet);
    return run_resume(shop, options);
  });
}

Response make_loading(WorkshopDesk& desk, const Request& request) {
  return command(desk, request, [&](const Shop& shop, const Ask& ask) {
    LoadingOptions options{{ask.text("sheet")}, shop.folder / "out" / "loading"};
    options.by_name_alone = true;
    options.call = desk.call("loading " + options.sheets.front());
    return run_loading(shop, options);
  });
}

/// Of a sheet, a file that the ledger knows: no path is made of what was asked.
Response give_file(WorkshopDesk& desk, const Request& request) {
  const std::string name = request.parameter("name"), folder = request.parameter("folder");
  if (!folder.empty()) {
    const Result<TrialBench*> bench = desk.bench();
    return bench.ok() ? made_file((*bench)->shop(), folder, name) : unknown_file();
  }
  return from_workshop(desk, [&](TrialBench& bench, Ledger& ledger) -> Response {
    const std::optional<LedgerSheet> sheet = ledger.sheet_named(request.parameter("sheet"));
    if (!sheet || !sheet->files.contains(name)) return unknown_file();
    return given(folder_on_disk(bench.shop(), *sheet) / name);
  });
}

}  // namespace ordinatio::inline desk
