#include "paper/paragraphs.h"

namespace ordinatio::inline paper {
namespace {

constexpr double paragraph_gap = 0.5;  // em, beyond the leading

double gap_below(const Label& label) {
  return label.size * (label.leading + paragraph_gap - label_ascent - label_descent);
}

/// How many lines of the label stand in a room of that height.
std::size_t lines_in(const Label& label, double height) {
  std::size_t lines = 0;
  while (lines < label.lines.size() &&
         label.size * (label_ascent + label_descent + label.leading * static_cast<double>(lines)) <= height) {
    ++lines;
  }
  return lines;
}

}  // namespace

std::vector<Label> set_paragraphs(Lettering& lettering, const std::vector<Paragraph>& paragraphs, double width) {
  std::vector<Label> labels;
  labels.reserve(paragraphs.size());
  for (const Paragraph& paragraph : paragraphs) {
    labels.push_back({lettering.set_column(paragraph.words, paragraph.size, width), paragraph.size, paragraph.leading});
  }
  return labels;
}

double height_of(const std::vector<Label>& labels) {
  double height = 0;
  for (std::size_t i = 0; i < labels.size(); ++i) {
    height += labels[i].height() + (i + 1 < labels.size() ? gap_below(labels[i]) : 0);
  }
  return height;
}

std::vector<Label> draw_down(Canvas& canvas, Lettering& lettering, std::vector<Label> labels, double left, double top,
                             double foot, Colour colour) {
  std::vector<Label> rest;
  double y = top;
  for (Label& label : labels) {
    const std::size_t lines = rest.empty() ? lines_in(label, y - foot) : 0;
    const auto end = label.lines.begin() + static_cast<std::ptrdiff_t>(lines);
    if (lines < label.lines.size()) rest.push_back({{end, label.lines.end()}, label.size, label.leading});
    label.lines.erase(end, label.lines.end());
    if (label.lines.empty()) continue;
    y -= label.height();
    draw_label(canvas, lettering, label, {left, y}, colour);
    y -= gap_below(label);
  }
  return rest;
}

}  // namespace ordinatio::inline paper
