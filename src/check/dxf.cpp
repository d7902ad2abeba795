#include <map>
#include <set>

#include "check/check.h"
#include "check/dxf_assembly.h"
#include "check/tracing.h"

namespace ordinatio::inline check {
namespace {

constexpr double dxf_place = 0.0001;  // mm, the last place of a coordinate

/// A header variable's groups, without their order mattering: group code → value.
using Variable = std::map<int, std::string>;

/// The DXF file of one sheet, R12 or R2000, read once from front to back. By points: its polylines are followed along the
/// sheet's contours; else its ink is measured.
class DxfCheck {
 public:
  enum class By { points, ink };
  DxfCheck(std::string_view bytes, const Expectation& expectation, const FileKind& kind, By by)
      : groups_(bytes),
        palette_(expectation.sheet.frame.plan.palette),
        by_(by),
        trace_(expectation, kind),
        assembly_(expectation, kind) {}

  /// False where the points are not the sheet's, which may be right all the same.
  bool run() {
    group_ = groups_.next();
    while (!group_.is(0, "EOF")) read_section();
    if (!groups_.at_end()) groups_.refuse("something stands after EOF");
    require_header();
    require_colours();
    return is_traced_;
  }

 private:
  void advance() { group_ = groups_.next(); }

  void read_section() {
    if (!group_.is(0, "SECTION")) groups_.refuse("no section begins here");
    advance();
    if (group_.code != 2) groups_.refuse("a section has no name");
    const std::string name(group_.value);
    if (!sections_.insert(name).second) groups_.refuse("section " + name + " stands in the file twice");
    advance();
    while (!group_.is(0, "ENDSEC")) read_in(name);
    if (name == "ENTITIES") end_entities();
    advance();
  }

  void read_in(std::string_view section) {
    if (group_.is(0, "EOF") || group_.is(0, "SECTION")) groups_.refuse("a section does not end");
    if (section == "HEADER") {
      read_variable();
    } else if (section == "TABLES" && group_.is(0, "LAYER")) {
      read_layer();
    } else if (section == "ENTITIES") {
      read_entity();
    } else {
      advance();
    }
  }

  void read_variable() {
    if (group_.code != 9) groups_.refuse("the header holds something that is no variable");
    Variable& variable = header_[std::string(group_.value)];
    if (!variable.empty()) groups_.refuse("a header variable is set twice");
    for (advance(); group_.code != 9 && group_.code != 0; advance()) variable[group_.code] = group_.value;
  }

  void read_layer() {
    std::string name, colour;
    for (advance(); group_.code != 0; advance()) {
      if (group_.code == 2) name = group_.value;
      if (group_.code == 62)
        colour = group_.value.substr(std::min(group_.value.find_first_not_of(' '), group_.value.size()));
    }
    if (!layers_.emplace(name, colour).second) groups_.refuse("layer \"" + name + "\" is declared twice");
  }

  void read_entity() {
    const DxfPolyline& polyline = polylines_.read(group_);
    if (!layers_.contains(polyline.layer)) {
      groups_.refuse("layer \"" + std::string(polyline.layer) + "\" is not declared");
    }
    for (const Point p : polyline.points) extents_.add(p);
    if (by_ == By::ink) {
      assembly_.take(polyline);
    } else {
      is_traced_ = is_traced_ && trace_.take(polyline);
    }
  }

  void end_entities() {
    if (by_ == By::ink) {
      assembly_.end(groups_.line());
    } else {
      is_traced_ = is_traced_ && trace_.done();
    }
  }

  /// Each operation has the colour that the sheet says, whether anything is on its layer or not.
  void require_colours() const {
    for (const Operation operation : all_operations) {
      const auto layer = layers_.find(layer_name(operation));
      if (layer == layers_.end()) throw Difference{"layer " + layer_name(operation) + " is missing"};
      const std::string wanted = std::to_string(palette_.index_of(operation));
      if (layer->second == wanted) continue;
      throw Difference{"layer " + layer->first + " has colour " + (layer->second.empty() ? "none" : layer->second) +
                       ", not " + wanted};
    }
  }

  // ---- the header, once the entities are known ----

  void require(const std::string& name, int code, std::string_view value) const {
    const auto variable = header_.find(name);
    const auto found = variable == header_.end() ? Variable::const_iterator{} : variable->second.find(code);
    if (variable == header_.end() || found == variable->second.end()) {
      throw Difference{"the header does not set " + name};
    }
    const std::string& text = found->second;
    if (text.substr(std::min(text.find_first_not_of(' '), text.size())) != value) {
      throw Difference{"the header sets " + name + " to " + text + ", not " + std::string(value)};
    }
  }

  void require_corner(const std::string& name, Point corner) const {
    std::string across, up;
    append_fixed(across, corner.x, 4);
    append_fixed(up, corner.y, 4);
    require(name, 10, across);
    require(name, 20, up);
  }

  void require_header() const {
    for (const char* section : {"HEADER", "TABLES", "ENTITIES"}) {
      if (!sections_.contains(section)) throw Difference{std::string("section ") + section + " is missing"};
    }
    const bool light = sections_.contains("OBJECTS");
    require("$ACADVER", 1, light ? "AC1015" : "AC1009");
    require("$INSUNITS", 70, "4");     // millimetres
    require("$MEASUREMENT", 70, "1");  // metric
    require("$LUNITS", 70, "2");       // decimal
    if (extents_.empty()) return;
    require_corner("$EXTMIN", {extents_.left, extents_.bottom});
    require_corner("$EXTMAX", {extents_.right, extents_.top});
  }

  DxfGroups groups_;
  DxfGroup group_;
  DxfPolylineReader polylines_{groups_};
  const Palette& palette_;
  By by_;
  ChordTrace trace_;
  bool is_traced_ = true;
  DxfAssembly assembly_;
  std::map<std::string, Variable> header_;
  std::set<std::string, std::less<>> sections_;
  std::map<std::string, std::string, std::less<>> layers_;  // name → colour
  Bounds extents_;
};

void check(std::string_view bytes, const Expectation& expectation, const FileKind& kind) {
  if (expectation.is_sound && DxfCheck(bytes, expectation, kind, DxfCheck::By::points).run()) return;
  DxfCheck(bytes, expectation, kind, DxfCheck::By::ink).run();
}

}  // namespace

MaybeFault check_dxf(std::string_view bytes, const SheetModel& model, double chord_tolerance) {
  const FileKind kind{"DXF", ".dxf", dxf_place, chord_tolerance};
  return checked(kind, model.sheet(), [&] { check(bytes, expectation_of(model), kind); });
}

}  // namespace ordinatio::inline check
