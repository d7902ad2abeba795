#include "check/dxf_assembly.h"

namespace ordinatio::inline check {

std::string layer_name(Operation operation) {
  std::string name(name_of(operation));
  for (char& c : name) c = static_cast<char>(c - 'a' + 'A');
  return name;
}

std::string layer_name(const SheetPart& part) { return part.layer.empty() ? layer_name(part.operation) : part.layer; }

void DxfAssembly::take(const DxfPolyline& polyline) {
  const Contour contour{polyline.points.front(), polyline.closed(), 0};
  while (!belongs(polyline, contour)) {
    if (started_ && !pairing_.done()) misplaced(polyline);
    finish();
    begin(polyline.line);
  }
  path_.move_to(polyline.points.front());
  for (std::size_t i = 1; i < polyline.points.size(); ++i) path_.line_to(polyline.points[i]);
  if (polyline.closed()) path_.close();
  line_ = polyline.line;
}

void DxfAssembly::end(std::size_t line) {
  finish();
  if (next_ != expectation_.parts.size()) {
    throw Difference{name_of(expectation_.parts[next_]) + ": missing from the file", line};
  }
}

bool DxfAssembly::belongs(const DxfPolyline& polyline, const Contour& contour) {
  return started_ && polyline.layer == layer_ && pairing_.take(contour);
}

void DxfAssembly::begin(std::size_t line) {
  if (next_ == expectation_.parts.size()) throw Difference{"a polyline is not on the sheet", line};
  pairing_ = ContourPairing(part().ink.contours, kind_.step);
  layer_ = layer_name(*part().part);
  started_ = true;
}

void DxfAssembly::finish() {
  if (!started_) return;
  const double area = compare_part(expectation_, part(), path_, kind_, line_);
  apart_.take(part(), path_, area, line_);
  path_ = {};
  started_ = false;
  ++next_;
}

void DxfAssembly::misplaced(const DxfPolyline& polyline) const {
  throw Difference{name_of(part()) + ": contour " + std::to_string(pairing_.taken() + 1) + " should start at " +
                       spoken(pairing_.next().start) + " on layer " + layer_ +
                       (pairing_.next().closed ? ", closed" : ", open") + "; on layer " + std::string(polyline.layer) +
                       " a polyline, " + (polyline.closed() ? "closed" : "open") + ", starts at " +
                       spoken(polyline.points.front()),
                   polyline.line};
}

}  // namespace ordinatio::inline check
