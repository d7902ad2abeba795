#include <algorithm>
#include <array>
#include <cmath>

#include "bed/item_number.h"
#include "paper/artwork_picture.h"
#include "paper/measures.h"
#include "paper/paper.h"
#include "paper/proof_text.h"

namespace ordinatio::inline paper {
namespace {

/// Whether a border runs all along the clear edge: a dotted line beside it would only fray it.
bool border_covers(const Polygon& clear, const Artwork& artwork) {
  constexpr double grid_step = 1e-4, fineness = 0.01, reach_out = 0.5, left_bare = 0.02,
                   alike = 0.9;  // mm, mm, of the edge, of its width
  if (clear.empty()) return false;
  const Polygons edge = difference(offset({clear}, fineness, Join::mitre, fineness),
                                   offset({clear}, -fineness, Join::mitre, fineness), grid_step);
  const double width = alike * bounds_of(path_of(Polygons{clear})).width();
  Polygons border;
  for (const Layer& layer : artwork.layers) {
    if (layer.operation == Operation::guide) continue;
    for (Polygon& contour : polygons_of(layer.path, fineness)) {
      if (bounds_of(path_of(Polygons{contour})).width() >= width) border.push_back(std::move(contour));
    }
  }
  if (border.empty()) return false;
  const Polygons bare = difference(
      edge, offset(weld(border, grid_step, FillRule::even_odd), reach_out, Join::mitre, fineness), grid_step);
  return area_of(path_of(bare)) <= left_bare * area_of(path_of(edge));
}

constexpr int least_text_lines = 7;                            // of facts and words, below the picture
constexpr double measures_away = 10, proof_measure_room = 18;  // mm beside and below the blank, for its measures

constexpr std::array iso_216{a4, Paper{297, 420}, Paper{420, 594}, Paper{594, 841}, Paper{841, 1189}};

/// A paper, and how many times smaller the plaque is drawn on it.
struct ProofPaper {
  Paper paper;
  double reduction = 1;
};

Bounds reduced(const Bounds& box, double reduction) {
  return {box.left / reduction, box.bottom / reduction, box.right / reduction, box.top / reduction};
}

/// From the line above the blank to that of the words below its measures.
int picture_lines(const Bounds& blank) {
  return static_cast<int>(std::ceil((grid + blank.height() + measures_away + 1.5 * grid) / grid));
}

bool takes(const Paper& paper, const Bounds& blank, int text_lines) {
  return blank.width() + proof_measure_room <= paper.right() - paper.left() &&
         picture_lines(blank) + text_lines <= paper.lines();
}

/// Upright first, with words below the blank if it can be.
std::optional<Paper> turned_for(const Paper& upright, const Bounds& blank) {
  const Paper lying{upright.height, upright.width};
  for (const int text_lines : {least_text_lines, 0}) {
    for (const Paper& paper : {upright, lying}) {
      if (takes(paper, blank, text_lines)) return paper;
    }
  }
  return std::nullopt;
}

/// The smallest sheet of the A series that the blank goes on, A4 first; else one made to measure.
Paper fitting_paper(const Bounds& blank) {
  for (const Paper& upright : iso_216) {
    if (const auto paper = turned_for(upright, blank)) return *paper;
  }
  return {std::max(iso_216.back().width, blank.width() + proof_measure_room + 2 * side_margin),
          top_margin + foot_margin + grid * (header_lines + picture_lines(blank) + least_text_lines + 1)};
}

ProofPaper paper_for(const Bounds& blank, PaperSize size) {
  if (size == PaperSize::fitting) return {fitting_paper(blank)};
  for (const double reduction : iso_reductions) {
    if (const auto paper = turned_for(paper_of(size), reduced(blank, reduction))) return {*paper, reduction};
  }
  return {paper_of(size), iso_reductions.back()};
}

/// "1 : 2", ISO 5455.
std::string scale_text(double reduction) {
  std::string text = "1 : ";
  append_number(text, reduction, 0);
  return text;
}

Bounds blank_box(const Artwork& artwork) { return bounds_of(path_of(artwork.blank)); }

/// "1042" of "1042-2".
std::string order_of(const std::string& item) { return item.substr(0, item.rfind('-')); }

/// Each artwork's whole hash behind its item: what a page shows of it is its beginning.
std::string keywords_of(const std::vector<ProofPage>& pages) {
  std::string keywords;
  for (const ProofPage& page : pages) {
    if (!page.artwork || page.held) continue;
    keywords += (keywords.empty() ? "" : ", ") + make_visible(page.item.id, " ").text + " " + page.artwork->hash;
  }
  return keywords;
}

/// Pages are laid out by these measures: they have to be numbers, and such as a page can hold.
MaybeFault immeasurable(const ProofPage& proof) {
  if (!proof.artwork) return std::nullopt;
  const Bounds blank = blank_box(*proof.artwork);
  for (const double length : {blank.width(), blank.height(), proof.artwork->cap_height}) {
    if (length >= 0 && length <= longest_page) continue;  // neither holds for NaN
    return Fault{"the proof of " + proof.item.id + " cannot be drawn", "",
                 "its blank or its letters have no size that a page can hold", ""};
  }
  return std::nullopt;
}

/// Draws the pages of one document.
class Proofs {
 public:
  Proofs(Lettering& lettering, std::string shop_name, PaperSize size)
      : canvas_(Canvas::pdf(make_visible("Proofs · " + shop_name, " ").text)),
        lettering_(lettering),
        shop_name_(std::move(shop_name)),
        size_(size) {}

  void name_artworks(const std::vector<ProofPage>& pages) { canvas_.set_keywords(keywords_of(pages)); }
  void add(const ProofPage& proof);
  Result<std::string> finish() { return canvas_.finish(); }

 private:
  void add_artwork(const ProofPage& proof, const Artwork& artwork);
  void add_held(const ProofPage& proof);
  void add_yes(std::vector<FlowedPage>& pages, const Passage& yes, int picture) const;
  [[nodiscard]] std::optional<double> column_beside(const Bounds& blank) const;
  void add_page(const ProofPage& proof, const FlowedPage& page, std::size_t number, std::size_t count);
  [[nodiscard]] PageHead head_of(const ProofPage& proof, bool is_first) const;
  void draw_picture(const Artwork& artwork);
  void draw_ring(const Artwork& artwork, const Gauge& gauge, const Pen& pen);
  void draw_finest(const Artwork& artwork);
  void draw_slits(const Artwork& artwork);
  void draw_measures_and_legend(const Bounds& blank, const Artwork& artwork, bool bordered);

  Canvas canvas_;
  Lettering& lettering_;
  /// From the artwork to the page that was started last.
  [[nodiscard]] Transform to_page(const Artwork& artwork) const;

  std::string shop_name_;
  PaperSize size_;
  Paper paper_;
  double reduction_ = 1;
};

void Proofs::add(const ProofPage& proof) {
  if (proof.artwork) {
    add_artwork(proof, *proof.artwork);
  } else {
    add_held(proof);
  }
}

void Proofs::add_artwork(const ProofPage& proof, const Artwork& artwork) {
  const ProofPaper wanted = paper_for(blank_box(artwork), size_);
  paper_ = wanted.paper;
  reduction_ = wanted.reduction;
  const Bounds blank = reduced(blank_box(artwork), reduction_);
  ProofText text(lettering_, paper_.left(), paper_.right());
  int picture = picture_lines(blank);
  std::vector<Passage> passages{blank_lines(1)};
  std::optional<Passage> aside;
  if (const auto x = column_beside(blank)) {
    aside = text.facts_aside(*x, proof.item, artwork);
    picture = std::max(picture, 1 + aside->lines);
  } else {
    for (Passage& passage : text.facts(proof.item, artwork)) passages.push_back(std::move(passage));
    passages.push_back(blank_lines(1));
  }
  for (Passage& passage :
       proof.held ? text.of_illegible(proof.item, artwork, *proof.held) : text.of_artwork(proof.item, artwork)) {
    passages.push_back(std::move(passage));
  }
  for (Passage& passage : text.from_order(proof)) passages.push_back(std::move(passage));
  std::vector<FlowedPage> pages = flow(passages, paper_.lines() - picture, paper_.lines());
  for (FlowedPassage& flowed : pages.front()) flowed.first_line += picture;
  if (aside) pages.front().insert(pages.front().begin(), {1, *aside});
  if (!proof.held) add_yes(pages, text.yes(artwork.hash), picture);
  for (std::size_t i = 0; i < pages.size(); ++i) add_page(proof, pages[i], i + 1, pages.size());
}

void Proofs::add_held(const ProofPage& proof) {
  paper_ = paper_of(size_);
  ProofText text(lettering_, paper_.left(), paper_.right());
  const Fault reason = proof.held.value_or(Fault{"This item is held", "", "no reason was recorded", ""});
  std::vector<Passage> passages = text.of_held(proof.item, reason);
  for (Passage& passage : text.from_order(proof)) passages.push_back(std::move(passage));
  const std::vector<FlowedPage> pages = flow(passages, paper_.lines(), paper_.lines());
  for (std::size_t i = 0; i < pages.size(); ++i) add_page(proof, pages[i], i + 1, pages.size());
}

/// At the foot of the last page, or on a page of its own.
void Proofs::add_yes(std::vector<FlowedPage>& pages, const Passage& yes, int picture) const {
  const int used = std::max(lines_used(pages.back()), pages.size() == 1 ? picture : 0);
  if (used + 1 + yes.lines <= paper_.lines()) {
    pages.back().push_back({paper_.lines() - yes.lines, yes});
  } else {
    pages.push_back({{1, yes}});
  }
}

/// Where the first column starts that the blank and its measures leave free, if one does.
std::optional<double> Proofs::column_beside(const Bounds& blank) const {
  const double pitch = column_pitch(paper_.left(), paper_.right());
  const double column = std::ceil((blank.width() + proof_measure_room) / pitch);
  return column < columns ? std::optional(paper_.left() + column * pitch) : std::nullopt;
}

void Proofs::add_page(const ProofPage& proof, const FlowedPage& page, std::size_t number, std::size_t count) {
  canvas_.start_page(paper_.width, paper_.height);
  canvas_.name_page(make_visible(number_for_people(proof.item), " ").text, number == 1,
                    make_visible("Order " + order_of(proof.item.id), " ").text);
  Page sheet(canvas_, lettering_, paper_);
  sheet.draw_head(head_of(proof, number == 1));
  if (number == 1 && proof.artwork) {
    draw_picture(*proof.artwork);
    if (proof.held) draw_finest(*proof.artwork);
    draw_slits(*proof.artwork);
  }
  sheet.draw(page);
  sheet.draw_foot({number_for_people(proof.item), number, count});
}

PageHead Proofs::head_of(const ProofPage& proof, bool is_first) const {
  const bool is_held = !proof.artwork || proof.held;
  const std::string kind = is_held ? "Held, not engraved" : "Proof";
  return {shop_name_, is_first ? kind : kind + ", continued", number_for_people(proof.item), is_held ? alarm : grey};
}

Transform Proofs::to_page(const Artwork& artwork) const {
  const Bounds blank = reduced(blank_box(artwork), reduction_);
  return then(scale_by(1 / reduction_), shift_by({paper_.left() - blank.left, paper_.baseline(1) - blank.top}));
}

void Proofs::draw_ring(const Artwork& artwork, const Gauge& gauge, const Pen& pen) {
  constexpr double radius = 2.5;  // mm
  const Point centre = to_page(artwork)(gauge.at);
  const Polygon corners{centre + Point{-radius, -radius}, centre + Point{radius, -radius},
                        centre + Point{radius, radius}, centre + Point{-radius, radius}};
  canvas_.stroke(path_of(rounded_outline(corners, radius * (1 - 1e-9))), pen);
}

/// Rings about the thinnest stroke and the narrowest counter: what an item that is held for them is held for.
void Proofs::draw_finest(const Artwork& artwork) {
  for (const Gauge& gauge : {artwork.stroke, artwork.counter}) {
    if (std::isfinite(gauge.width)) draw_ring(artwork, gauge, {0.4, alarm, {}});
  }
}

/// Dashed rings about what is warned of and holds nothing.
void Proofs::draw_slits(const Artwork& artwork) {
  for (const Gauge& slit : artwork.slits) draw_ring(artwork, slit, {0.4, alarm, {1, 0.7}});
}

void Proofs::draw_picture(const Artwork& artwork) {
  const Transform place = to_page(artwork);
  const Polygon clear = polygon_of(artwork.clear_area.region);
  const bool bordered = border_covers(clear, artwork);
  if (!clear.empty() && !bordered) {
    canvas_.stroke(transformed(path_of(Polygons{clear}), place), {0.15, grey, {0.3, 0.9}});
  }
  draw_artwork(canvas_, lettering_, artwork, place);
  draw_measures_and_legend(bounds_of(transformed(path_of(artwork.blank), place)), artwork, bordered);
}

void Proofs::draw_measures_and_legend(const Bounds& blank, const Artwork& artwork, bool bordered) {
  const Bounds true_size = blank_box(artwork);
  draw_measures(canvas_, lettering_, blank, mm_text(true_size.width()), mm_text(true_size.height()),
                {measures_away, body_size});
  std::string legend = reduction_ == 1 ? "" : "Scale " + scale_text(reduction_) + ". ";
  legend += "Solid line: the edge of the blank.";
  legend += bordered ? " All ink stays inside the border." : " Dotted line: all ink stays inside it.";
  if (!artwork.kept_clear.empty()) legend += " Dashed line: kept clear.";
  if (artwork.illegible) legend += " Rings: the thinnest stroke, the narrowest counter.";
  if (!artwork.slits.empty()) legend += " Dashed ring: a slit that the beam will fill.";
  SetLine line = lettering_.set(legend, small_size);
  line.size *= std::min(1.0, (paper_.right() - blank.left) / line.width());
  lettering_.draw(canvas_, line, {blank.left, blank.bottom - measures_away - 1.5 * grid}, grey);
}

}  // namespace

double proof_reduction(const Artwork& artwork, PaperSize paper) {
  return paper_for(blank_box(artwork), paper).reduction;
}

Result<std::string> write_proof_pdf(const std::vector<ProofPage>& pages, const std::string& shop_name,
                                    const FontLibrary& fonts, PaperSize paper) {
  if (pages.empty())
    return Fault{"there is nothing to make a proof of", "", "no items were named", "Name an item of the orders"};
  Result<Lettering> lettering = Lettering::with(fonts);
  if (!lettering.ok()) return lettering.fault();
  Proofs proofs(*lettering, shop_name, paper);
  proofs.name_artworks(pages);
  for (const ProofPage& page : pages) {
    if (MaybeFault fault = immeasurable(page)) return *std::move(fault);
    proofs.add(page);
  }
  return proofs.finish();
}

}  // namespace ordinatio::inline paper
