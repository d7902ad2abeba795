// In: a cutting plan, and room for it on a page.
// Out: the pane drawn to scale with its measures, things, pieces and numbered cuts. Of this folder alone.
// Never: draws larger than life.
#pragma once

#include <vector>

#include "bed/cutting.h"
#include "paper/page.h"

namespace ordinatio::inline paper {

class CuttingPicture {
 public:
  /// `room`: page mm; the pane and its measures stand at its upper left.
  CuttingPicture(Canvas& canvas, Lettering& lettering, const CuttingPlan& plan, const Bounds& room);
  void draw();

 private:
  [[nodiscard]] Point on_page(Point p) const { return origin_ + scale_ * p; }
  [[nodiscard]] Bounds on_page(const Bounds& box) const;
  void fill(const Bounds& box, Colour colour);
  void draw_waste();
  void draw_edges();
  void draw_thing(const PaneThing& thing);
  void draw_hatching(const Bounds& box);
  void draw_blade(const Cut& cut);
  void draw_piece(std::size_t index);
  void draw_upper_edge(const Bounds& box, bool turned);
  void name_thing(const PaneThing& thing);
  void number_cut(std::size_t index);
  void draw_measures();
  /// Where the label lies on nothing that was drawn before, else nowhere.
  bool put_on_waste(const SetLine& line, const std::vector<Point>& centres, Colour colour);
  bool put(const SetLine& line, const std::vector<Point>& centres, Colour colour);
  [[nodiscard]] std::optional<Bounds> take_place(const SetLine& line, const std::vector<Point>& centres);
  /// As outlines: a page's text lies below its paths, and would be hidden by what is filled.
  void draw_outlines(const SetLine& line, Point at, Colour colour);
  [[nodiscard]] bool is_free(const Bounds& box) const;

  Canvas& canvas_;
  Lettering& lettering_;
  const CuttingPlan& plan_;
  double scale_ = 1;
  Point origin_;
  std::vector<Bounds> taken_;
};

}  // namespace ordinatio::inline paper
