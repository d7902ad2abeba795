#include "check/dxf_polyline.h"

namespace ordinatio::inline check {

const DxfPolyline& DxfPolylineReader::read(DxfGroup& group) {
  found_.points.clear();
  found_.layer = {};
  found_.flags = 0;
  found_.line = groups_.line();
  if (group.is(0, "POLYLINE")) {
    read_vertices(group);
  } else if (group.is(0, "LWPOLYLINE")) {
    read_light(group);
  } else {
    groups_.refuse("\"" + std::string(group.value) + "\" is no entity of a sheet");
  }
  require_sound();
  return found_;
}

/// R12: the vertices follow as entities of their own, up to SEQEND.
void DxfPolylineReader::read_vertices(DxfGroup& group) {
  for (group = next(); group.code != 0; group = next()) {
    switch (group.code) {
      case 66:
        if (integer_of(groups_, group) != 1) groups_.refuse("a polyline says that no vertices follow");
        break;
      case 10:
      case 20:
      case 30:
        if (decimal_of(groups_, group) != 0) groups_.refuse("a polyline is lifted off the bed");
        break;
      default:
        take_layer_or_flags(group);
    }
  }
  plain_head_ = "8\r\n" + std::string(found_.layer) + "\r\n10\r\n";
  while (group.is(0, "VERTEX")) {
    if (read_plain_vertex()) {
      group = next();
    } else {
      read_vertex(group);
    }
  }
  if (!group.is(0, "SEQEND")) groups_.refuse("a polyline does not end in SEQEND");
  for (group = next(); group.code != 0; group = next()) {
    if (group.code != 8) refuse_group(group);
  }
}

/// Nearly all of a file is vertices of layer, x and y: such a one is read without taking its groups apart. False, and
/// nothing read, when the next one has another shape.
bool DxfPolylineReader::read_plain_vertex() {
  const DxfGroups before = groups_;
  Point p;
  if (groups_.pass(plain_head_, 3) && groups_.pass_decimal(p.x) && groups_.pass("20\r\n", 1) &&
      groups_.pass_decimal(p.y) && groups_.follows("0\r\n")) {
    found_.points.push_back(p);
    return true;
  }
  groups_ = before;
  return false;
}

void DxfPolylineReader::read_vertex(DxfGroup& group) {
  Point p;
  bool has_x = false, has_y = false;
  for (group = next(); group.code != 0; group = next()) {
    switch (group.code) {
      case 10:
        p.x = decimal_of(groups_, group);
        has_x = true;
        break;
      case 20:
        p.y = decimal_of(groups_, group);
        has_y = true;
        break;
      case 30:
        if (decimal_of(groups_, group) != 0) groups_.refuse("a vertex is lifted off the bed");
        break;
      case 8:
        if (group.value != found_.layer) groups_.refuse("a vertex is on another layer than its polyline");
        break;
      default:
        refuse_group(group);
    }
  }
  if (!has_x || !has_y) groups_.refuse("a vertex has not both coordinates");
  found_.points.push_back(p);
}

/// R2000: 10 and 20 in turn; handles, owners and class names are not about the drawing.
void DxfPolylineReader::read_light(DxfGroup& group) {
  int announced = -1;
  bool whole = true;
  for (group = next(); group.code != 0; group = next()) {
    switch (group.code) {
      case 10:
        if (!whole) groups_.refuse("a vertex has not both coordinates");
        found_.points.push_back({decimal_of(groups_, group), 0});
        whole = false;
        break;
      case 20:
        if (whole) groups_.refuse("a vertex has not both coordinates");
        found_.points.back().y = decimal_of(groups_, group);
        whole = true;
        break;
      case 90:
        announced = integer_of(groups_, group);
        break;
      case 5:
      case 100:
      case 330:
        break;
      default:
        take_layer_or_flags(group);
    }
  }
  if (!whole || announced < 0 || static_cast<std::size_t>(announced) != found_.points.size()) {
    groups_.refuse("a polyline has not as many vertices as it says");
  }
}

void DxfPolylineReader::require_sound() const {
  if (found_.flags != 0 && found_.flags != 1) groups_.refuse("a polyline is neither open nor closed");
  if (found_.points.size() < 2) groups_.refuse("a polyline has fewer than two vertices");
  if (found_.closed() && found_.points.front() == found_.points.back()) {
    groups_.refuse("a closed polyline says its first vertex twice");
  }
}

/// What polylines of both versions say of themselves; nothing else may stand in one.
void DxfPolylineReader::take_layer_or_flags(const DxfGroup& group) {
  if (group.code == 8) {
    found_.layer = group.value;
  } else if (group.code == 70) {
    found_.flags = integer_of(groups_, group);
  } else {
    refuse_group(group);
  }
}

void DxfPolylineReader::refuse_group(const DxfGroup& group) const {
  groups_.refuse("group " + std::to_string(group.code) + " stands in a polyline of plain lines");
}

}  // namespace ordinatio::inline check
