#include "shop/photo_piece.h"

#include <algorithm>

#include "paper/paper.h"
#include "photo/card.h"
#include "shop/piece_draft.h"
#include "shop/workroom.h"

namespace ordinatio::inline shop {
namespace {

constexpr int sight_quality = 85;   // of the JPEG: edges are judged by it
constexpr double beside_card = 15;  // mm from the card's paper to a piece that a person is to place
constexpr std::size_t photo_limit = std::size_t{64} << 20;  // bytes; read_photo says the same of a picture

/// The way back of a transform that turns and shifts.
Transform back_of(const Transform& turn) {
  const Transform back{turn.xx, turn.xy, turn.yx, turn.yy, 0, 0};
  const Point shift = back({turn.dx, turn.dy});
  return then(back, shift_by(Point{} - shift));
}

Transform to_card_of(const TablePicture& table) {
  const double scale = 1 / table.pixels_per_mm;
  return {scale, 0, 0, -scale, table.box.left, table.box.top};
}

std::string doubt_of(const Fault& fault) { return fault.what + (fault.why.empty() ? "" : ": " + fault.why); }

Fault not_found(const PhotoSurvey& survey) {
  Fault fault = survey.piece.fault();
  if (fault.mend.empty()) fault.mend = "Take another, or draw the outline at the desk";
  return fault;
}

}  // namespace

Result<PieceSight> look_at_photo(std::string_view bytes, const std::string& name, double nominal_width,
                                 double nominal_height) {
  const Result<PhotoSurvey> survey = survey_photo(bytes, name);
  if (!survey.ok()) return survey.fault();
  const TablePicture& table = survey->table;
  PieceSight sight{jpeg_of(table.picture, sight_quality), table.picture.width, table.picture.height, {}, {}, {}};
  if (survey->piece.ok()) {
    sight.to_piece = then(to_card_of(table), back_of(survey->piece->to_card));
    sight.outline = survey->piece->outline;
    sight.doubt = survey->piece->doubt;
  } else {
    sight.to_piece = then(to_card_of(table), shift_by({-card_paper.left, -card_paper.top - beside_card}));
    sight.outline = polygon_of_box({0, 0, nominal_width, nominal_height});
    sight.doubt = doubt_of(survey->piece.fault());
  }
  return sight;
}

namespace {

BlankCells cells_seen(const PieceProposal& piece, const BlankCells& words) {
  PieceDraft draft;
  draft.corners = piece.outline;
  BlankCells cells = cells_of(draft);
  for (const BlankCell& word : words) {
    const auto cell = std::ranges::find(cells, word.column, &BlankCell::column);
    if (cell != cells.end()) cell->text = word.text;
  }
  return cells;
}

/// Of a row that stands there: its shape, and words where there are some; what is kept clear on it stays.
BlankCells changes_of(BlankCells cells) {
  std::erase_if(cells, [](const BlankCell& cell) { return cell.text.empty(); });
  for (const char* column : {"width", "height", "corners", "chips"}) cells.push_back({column, ""});
  return cells;
}

Result<Account> put_on_shelf(const Shop& shop, const MeasureOptions& options, const BlankCells& cells) {
  if (options.again) return run_change_blank(shop, options.call, cells.front().text, changes_of(cells));
  return options.add ? run_add_blank(shop, options.call, cells) : Result<Account>(Account());
}

}  // namespace

Result<Account> run_measure(const Shop& shop, const MeasureOptions& options) {
  const Result<std::string> bytes = read_file(options.photo, photo_limit);
  if (!bytes.ok()) return bytes.fault();
  const Result<PhotoSurvey> survey = survey_photo(*bytes, options.photo.filename().string());
  if (!survey.ok()) return survey.fault();
  if (!survey->piece.ok()) return not_found(*survey);
  const BlankCells cells = cells_seen(*survey->piece, options.words);
  Workroom workroom(shop);
  const Result<const Station*> station = workroom.station(shop.default_design);
  if (!station.ok()) return station.fault();
  const Result<BlankRow> piece = piece_of(cells, (*station)->design);
  if (!piece.ok()) return piece.fault();
  Result<Account> account = put_on_shelf(shop, options, cells);
  if (!account.ok()) return account;
  account->told.push_back("It measures " + mm_text(piece->width, 1) + " × " + mm_text(piece->height, 1) + "; its row:");
  const Result<std::string> row = with_row_added("", cells, "");
  for (const std::string_view line : lines_as_typed(*row)) {
    if (!line.empty()) account->told.emplace_back(line);
  }
  account->items_set = 1;
  if (!survey->piece->doubt.empty()) account->warnings.push_back(survey->piece->doubt);
  account->notes.emplace_back(
      "A lens bends straight lines a little, and the card must have lain level with the piece's face: measure one side "
      "with a ruler");
  return account;
}

Result<std::string> card_pdf(const Shop& shop, std::string_view paper) {
  const Workroom workroom(shop);
  return write_card_pdf(paper == "letter" ? CardPaper::us_letter : CardPaper::iso_a4, workroom.fonts());
}

Result<Account> run_card(const Shop& shop, std::string_view paper, const std::filesystem::path& out) {
  const Result<std::string> pdf = card_pdf(shop, paper);
  if (!pdf.ok()) return pdf.fault();
  if (auto fault = make_folder(out)) return *std::move(fault);
  if (auto fault = write_file(out / "card.pdf", *pdf)) return *std::move(fault);
  Account account;
  account.files.push_back(out / "card.pdf");
  account.notes.emplace_back("Print it at true size, and check its line with a ruler");
  return account;
}

}  // namespace ordinatio::inline shop
