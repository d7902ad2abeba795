// What tests compose on.
#pragma once

#include "design/design.h"

namespace ordinatio {

/// A landscape plaque of 150 × 100 mm with one text, as read_design would give it.
inline Design plaque(double least_cap_height, double largest_cap_height) {
  Design design;
  design.name = "test";
  design.width = 150, design.height = 100;
  design.blank.outline = rectangle_outline(150, 100, Corner::square, 0);
  design.margin = 5;
  design.gap = 3;
  TextPart text;
  text.look.faces = {"serif"};
  text.min_cap_height = least_cap_height, text.max_cap_height = largest_cap_height;
  design.texts.push_back(text);
  return design;
}

}  // namespace ordinatio
