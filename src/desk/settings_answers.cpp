// shop.toml as a form, and the bed that it describes.
#include "desk/form_answers.h"
#include "desk/kept_files.h"
#include "desk/pictures.h"
#include "workshop/shop_file.h"

namespace ordinatio::inline desk {
namespace {

constexpr const char* file_name = "shop.toml";

std::filesystem::path file_of(const WorkshopDesk& desk) { return desk.folder() / file_name; }

/// The workshop as it would be.
Result<Shop> shop_of_text(const WorkshopDesk& desk, const std::string& text) {
  Result<Shop> shop = parse_shop(text, file_name);
  if (shop.ok()) shop->folder = desk.folder();
  return shop;
}

/// What the desk could not work with: it would find no pieces, or not the design that is usual.
MaybeFault unfit_for_work(TrialBench& bench) {
  if (const auto pieces = bench.pieces(); !pieces.ok()) return pieces.fault();
  if (const auto design = bench.design(bench.shop().default_design); !design.ok()) return design.fault();
  return std::nullopt;
}

/// work: const AskedText&, TrialBench& → Response.
template <class Work>
Response with_settings(WorkshopDesk& desk, const Request& request, Work&& work) {
  const Result<Ask> ask = Ask::read(request.body);
  if (!ask.ok()) return answer_of(ask.fault());
  const Result<AskedText> asked = asked_text(file_of(desk), shop_form(), *ask);
  if (!asked.ok()) return refused(asked.fault(), "", shop_form());
  const Result<Shop> shop = shop_of_text(desk, asked->after);
  if (!shop.ok()) return refused(shop.fault(), asked->after, shop_form());
  TrialBench bench(*shop);
  if (const auto fault = unfit_for_work(bench)) return refused(*fault, asked->after, shop_form());
  return work(*asked, bench);
}

}  // namespace

/// A shop.toml that cannot be read is shown all the same: here it can be mended.
Response show_settings(WorkshopDesk& desk, const Request&) {
  const Result<std::string> text = read_kept(file_of(desk));
  if (!text.ok()) return answer_of(text.fault());
  FormNames names;
  if (const Result<TrialBench*> bench = desk.bench(); bench.ok()) names.designs = (*bench)->design_names();
  Json answer = shape_of_form(*text, filled_fields(*text, shop_form()), names);
  answer["file"] = file_name;
  return answer_of(answer);
}

Response try_settings(WorkshopDesk& desk, const Request& request) {
  return with_settings(desk, request, [](const AskedText& asked, TrialBench& bench) {
    const Result<Sheet> bed = bench.bare_bed(bench.shop().default_design);
    const Machine& machine = bench.shop().plan.machine;
    Json answer{{"text", asked.after},
                {"at", ""},
                {"unused", unused_fields(asked.after, shop_form())},
                {"picture", bed.ok() ? bed_picture(*bed) : ""},
                {"width", machine.width},
                {"height", machine.height},
                {"pockets", bed.ok() ? bed->frame.pockets.size() : 0}};
    if (!bed.ok()) answer["remark"] = shape_of(bed.fault());
    return answer_of(answer);
  });
}

Response save_settings(WorkshopDesk& desk, const Request& request) {
  return with_settings(desk, request,
                       [&](const AskedText& asked, TrialBench&) { return saved(desk, file_of(desk), asked); });
}

}  // namespace ordinatio::inline desk
