// What is made beside the plaques: the board, papers for the parcels, stands, plans for the saw, samples of the faces.
#include "desk/answers.h"
#include "desk/exports.h"
#include "desk/given_files.h"
#include "desk/pictures.h"
#include "shop/jig.h"
#include "shop/packing.h"
#include "shop/panes.h"
#include "shop/specimen.h"
#include "shop/stands.h"

namespace ordinatio::inline desk {
namespace {

/// look: const Shop& → Result<Json>.
template <class Look>
Response looked_at(WorkshopDesk& desk, Look&& look) {
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  const Result<Json> seen = look((*bench)->shop());
  return seen.ok() ? answer_of(*seen) : answer_of(seen.fault());
}

Json shape_of(const FaceSample& sample) {
  return {{"name", sample.face.name},
          {"use", sample.face.use},
          {"picture", sample.cannot ? "" : ink_picture(sample.ink)},
          {"least", sample.least_cap},
          {"cannot", sample.cannot ? sample.cannot->what : ""}};
}

Json shape_of(const CuttingPlan& plan) {
  return {{"id", plan.pane.id},         {"picture", pane_picture(plan)}, {"width", plan.pane.width},
          {"height", plan.pane.height}, {"pieces", plan.pieces.size()},  {"cuts", plan.cuts.size()}};
}

}  // namespace

Response show_board(WorkshopDesk& desk, const Request& request) {
  return looked_at(desk, [&](const Shop& shop) -> Result<Json> {
    const Result<Board> board = board_of(shop, request.parameter("design"));
    if (!board.ok()) return board.fault();
    const Machine& machine = board->sheet.frame.plan.machine;
    return Json{{"picture", board_picture(board->sheet)},
                {"width", machine.width},
                {"height", machine.height},
                {"pockets", board->sheet.frame.pockets.size()},
                {"hole_width", board->hole_width},
                {"hole_height", board->hole_height},
                {"files", files_in(shop, "jig")}};
  });
}

Response make_board(WorkshopDesk& desk, const Request& request) {
  return command(desk, request, [&](const Shop& shop, const Ask& ask) {
    return run_jig(shop, {ask.text("design"), shop.folder / "out" / "jig"});
  });
}

Response make_packing(WorkshopDesk& desk, const Request& request) {
  return command(desk, request, [&](const Shop& shop, const Ask& ask) {
    const std::filesystem::path out = shop.folder / "out" / "packing";
    if (ask.flag("labels")) return run_labels(shop, {desk.call("labels"), {}, 1, out});
    return run_packing(shop, {desk.call("packing"), {}, PaperSize::a4, out});
  });
}

Response show_stand(WorkshopDesk& desk, const Request& request) {
  return looked_at(desk, [&](const Shop& shop) -> Result<Json> {
    StandOptions options;
    options.date = request.parameter("date").empty() ? desk.today() : request.parameter("date");
    const Result<Artwork> stand = stand_of(shop, options);
    if (!stand.ok()) return stand.fault();
    const Bounds box = bounds_of(path_of(stand->blank));
    return Json{{"picture", plaque_picture(*stand)}, {"width", box.width()}, {"height", box.height()}};
  });
}

Response show_panes(WorkshopDesk& desk, const Request&) {
  return looked_at(desk, [&](const Shop& shop) -> Result<Json> {
    SeenPlans& seen = desk.cutting_plans();
    const std::lock_guard lock(seen.guard);
    Json panes = Json::array();
    for (const CuttingPlan& plan : seen.plans) panes.push_back(shape_of(plan));
    return Json{{"panes", panes}, {"files", files_in(shop, "panes")}};
  });
}

Response begin_panes(WorkshopDesk& desk, const Request& request) {
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  const auto kept = kept_export(desk.folder(), request.parameter("name"), request.body);
  if (!kept.ok()) return answer_of(kept.fault());
  PanesOptions options;
  options.panes = *kept;
  options.out = desk.folder() / "out" / "panes";
  options.piece = request.parameter("piece");
  options.kerf = parse_number(request.parameter("kerf")).value_or(options.kerf);
  options.shown = [&seen = desk.cutting_plans()](const std::vector<CuttingPlan>& plans) {
    const std::lock_guard lock(seen.guard);
    seen.plans = plans;
  };
  const auto work = [shop = (*bench)->shop(), options](const Progress& progress) {
    return run_panes(shop, options, progress);
  };
  if (auto fault = desk.background().begin("panes", work)) return answer_of(*fault);
  return state_of_work(desk);
}

Response show_sample_faces(WorkshopDesk& desk, const Request& request) {
  return looked_at(desk, [&](const Shop& shop) -> Result<Json> {
    SpecimenOptions options;
    if (!request.parameter("words").empty()) options.text = request.parameter("words");
    const Result<std::vector<FaceSample>> samples = show_faces(shop, options);
    if (!samples.ok()) return samples.fault();
    Json faces = Json::array();
    for (const FaceSample& sample : *samples) faces.push_back(shape_of(sample));
    return Json{{"faces", faces}, {"words", options.text.value_or(shop.sample)}, {"files", files_in(shop, "specimen")}};
  });
}

}  // namespace ordinatio::inline desk
