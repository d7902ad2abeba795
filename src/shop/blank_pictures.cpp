#include <algorithm>

#include "base/account.h"
#include "blanks/blanks.h"
#include "check/check.h"
#include "paper/paper.h"
#include "shop/blank_pictures.h"
#include "shop/outbox.h"

namespace ordinatio::inline shop {
namespace {

BlankPicture picture_of(const BlankRow& row) {
  const FactoryEdges& edges = row.factory_edges;
  return {
      row.blank, row.blank.material, row.note, row.blank.thickness, {edges.left, edges.bottom, edges.right, edges.top},
      row.used};
}

std::string used_and_odd(const Blanks& blanks, const Design& design) {
  const auto used = std::ranges::count_if(blanks.rows, [](const BlankRow& row) { return !row.used.empty(); });
  const auto odd =
      std::ranges::count_if(blanks.rows, [&](const BlankRow& row) { return differs(row, design.blank.outline); });
  return "of " + std::to_string(blanks.rows.size()) + " pieces " + std::to_string(used) + " are used, and " +
         std::to_string(odd) + " differ from the nominal one of design \"" + design.name + "\", " +
         mm_text(design.width) + " × " + mm_text(design.height);
}

Result<std::vector<std::filesystem::path>> put_pictures(const std::vector<BlankPicture>& pictures,
                                                        const std::filesystem::path& out, const Workroom& workroom) {
  const Result<std::string> pdf = write_blanks_pdf(pictures, workroom.shop().name, workroom.fonts());
  if (!pdf.ok()) return pdf.fault();
  Result<std::unique_ptr<Outbox>> outbox = Outbox::open(out, "blanks");
  if (!outbox.ok()) return outbox.fault();
  const Result<std::string> pdf_written = (*outbox)->put("blanks.pdf", *pdf);
  if (!pdf_written.ok()) return pdf_written.fault();
  const Result<std::string> svg_written = (*outbox)->put("blanks.svg", write_blanks_svg(pictures));
  if (!svg_written.ok()) return svg_written.fault();
  std::vector<const Blank*> blanks;
  blanks.reserve(pictures.size());
  for (const BlankPicture& picture : pictures) blanks.push_back(&picture.blank);
  if (auto fault = check_blanks_svg(*svg_written, blanks)) return *std::move(fault);
  return (*outbox)->deliver();
}

}  // namespace

Result<Account> run_blanks(const Shop& shop, const BlankOptions& options) {
  Workroom workroom(shop);
  const auto station = workroom.station(options.design.empty() ? shop.default_design : options.design);
  if (!station.ok()) return station.fault();
  const LaidDesign& design = (*station)->design;
  Result<Blanks> blanks = read_blanks(options.blanks, design.width, design.height, design.blank.outline);
  if (!blanks.ok()) return blanks.fault();

  Account account;
  account.held = std::move(blanks->held);
  account.notes = std::move(blanks->notes);
  account.notes.push_back(used_and_odd(*blanks, design));
  account.items_set = blanks->rows.size();
  if (blanks->rows.empty()) return account;  // nothing to show; what is held says why
  std::vector<BlankPicture> pictures;
  for (const BlankRow& row : blanks->rows) pictures.push_back(picture_of(row));
  auto files = put_pictures(pictures, options.out, workroom);
  if (!files.ok()) return files.fault();
  account.files = *std::move(files);
  return account;
}

}  // namespace ordinatio::inline shop
