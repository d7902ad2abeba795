#include "blanks/blank_row.h"

#include <algorithm>
#include <cmath>

#include "base/harmless.h"
#include "csv/csv.h"
#include "csv/long_cells.h"
#include "csv/rows.h"
#include "csv/shown.h"

namespace ordinatio::inline blanks {
namespace {

constexpr NumberRange any_side{least_side, length_limit};

/// One record on its way to a piece. Each step leaves the piece as it was, or returns why the row is held.
class Measuring {
 public:
  Measuring(const CsvRecord& record, BlankReading& reading) : record_(record), reading_(reading) {}

  MaybeFault measure() {
    for (const auto step : {&Measuring::read_id, &Measuring::read_words, &Measuring::read_shape,
                            &Measuring::read_chips_cell, &Measuring::read_things_cell}) {
      if (auto fault = (this->*step)()) return fault;
    }
    return std::nullopt;
  }
  BlankRow take() { return std::move(row_); }

 private:
  [[nodiscard]] std::string_view cell(BlankColumn column) const {
    const auto at = reading_.header.at[static_cast<std::size_t>(column)];
    return at && *at < record_.fields.size() ? trimmed(record_.fields[*at].text) : std::string_view();
  }
  [[nodiscard]] bool has(BlankColumn column) const { return !cell(column).empty(); }
  /// The fault with its place: this row, that column.
  [[nodiscard]] Fault in(BlankColumn column, Fault fault) const {
    const std::size_t at = reading_.header.at[static_cast<std::size_t>(column)].value_or(0);
    const std::size_t field = std::min(at, record_.fields.size() - 1);
    fault.where = place_of(record_.fields[field], reading_.header.names[at], reading_.file);
    return fault;
  }
  [[nodiscard]] std::size_t line() const { return record_.fields.front().line; }

  MaybeFault read_id();
  MaybeFault read_words();
  MaybeFault read_side(BlankColumn column, const std::string& thing, std::optional<double>& side) const;
  MaybeFault read_shape();
  MaybeFault read_rectangle(std::optional<double> width, std::optional<double> height);
  MaybeFault take_rectangle(const CornerShapes& corners, BlankColumn blamed);
  MaybeFault read_outline(std::optional<double> width, std::optional<double> height);
  Result<Polygon> read_drawing(const std::string& name);
  MaybeFault check_beside_outline(BlankColumn column, std::optional<double> written, double measured) const;
  MaybeFault read_chips_cell();
  MaybeFault read_things_cell();

  const CsvRecord& record_;
  BlankReading& reading_;
  BlankRow row_;
};

MaybeFault Measuring::read_id() {
  const std::string_view id = cell(BlankColumn::id);
  if (id.empty()) {
    return in(BlankColumn::id,
              {"the piece has no id", "", "it could not be told from others", "Write what stands on it"});
  }
  if (auto fault = cell_too_long(id, "id", name_limit)) return in(BlankColumn::id, *fault);
  if (steers(id)) {
    return in(BlankColumn::id, {"the id " + shown(id) + " holds a line end or a control character", "",
                                "it stands on labels and in file names", "Write the id in one line"});
  }
  if (id.find("\uFFFD") != std::string_view::npos) {
    return in(BlankColumn::id, {"a character is lost in the id " + shown(id), "",
                                "its bytes mean nothing in the encoding that was taken",
                                "Write the character again, or save the file as UTF-8"});
  }
  row_.blank.id = id;
  row_.source = reading_.file + ":" + std::to_string(line());
  return std::nullopt;
}

MaybeFault Measuring::read_words() {
  row_.blank.material = cell(BlankColumn::material);
  row_.note = cell(BlankColumn::note);
  row_.glass = lower_case(cell(BlankColumn::glass));
  row_.used = cell(BlankColumn::used);
  const auto factory = read_factory_edges(cell(BlankColumn::factory_edges));
  if (!factory.ok()) return in(BlankColumn::factory_edges, factory.fault());
  row_.factory_edges = *factory;
  if (!has(BlankColumn::thickness)) return std::nullopt;
  const auto thickness = read_length(cell(BlankColumn::thickness), "thickness", any_size);
  if (!thickness.ok()) return in(BlankColumn::thickness, thickness.fault());
  row_.blank.thickness = *thickness;
  return std::nullopt;
}

MaybeFault Measuring::read_side(BlankColumn column, const std::string& thing, std::optional<double>& side) const {
  if (!has(column)) return std::nullopt;
  const auto length = read_length(cell(column), thing, any_side);
  if (!length.ok()) return in(column, length.fault());
  side = *length;
  return std::nullopt;
}

MaybeFault Measuring::read_shape() {
  std::optional<double> width, height;
  if (auto fault = read_side(BlankColumn::width, "width", width)) return fault;
  if (auto fault = read_side(BlankColumn::height, "height", height)) return fault;
  return has(BlankColumn::outline) ? read_outline(width, height) : read_rectangle(width, height);
}

MaybeFault Measuring::read_rectangle(std::optional<double> width, std::optional<double> height) {
  row_.width = width.value_or(reading_.nominal_width);
  row_.height = height.value_or(reading_.nominal_height);
  if (has(BlankColumn::corners)) {
    const auto nominal = corner_shapes_of(reading_.nominal, reading_.nominal_width, reading_.nominal_height);
    const auto corners = read_corners(cell(BlankColumn::corners), nominal.value_or(CornerShapes{}));
    if (!corners.ok()) return in(BlankColumn::corners, corners.fault());
    return take_rectangle(*corners, BlankColumn::corners);
  }
  if (row_.width == reading_.nominal_width && row_.height == reading_.nominal_height) {
    row_.blank.outline = reading_.nominal;
    return std::nullopt;
  }
  const BlankColumn blamed = width ? BlankColumn::width : BlankColumn::height;
  const auto corners = corner_shapes_of(reading_.nominal, reading_.nominal_width, reading_.nominal_height);
  if (corners) return take_rectangle(*corners, blamed);
  return in(blamed, {"width and height do not tell the shape of this piece", "", "the nominal piece is no rectangle",
                     "Give its corners, or its outline"});
}

MaybeFault Measuring::take_rectangle(const CornerShapes& corners, BlankColumn blamed) {
  if (auto fault = check_corners(corners, row_.width, row_.height)) return in(blamed, *std::move(fault));
  row_.blank.outline = rectangle_outline(row_.width, row_.height, corners);
  return std::nullopt;
}

Result<Polygon> Measuring::read_drawing(const std::string& name) {
  if (std::filesystem::path(name).is_absolute() || name.find("..") != std::string::npos) {
    return Fault{shown(name) + " is not beside this file", "", "", "Put the drawing into the folder of this file"};
  }
  const Result<Logo> drawing = reading_.read_drawing(name);
  if (!drawing.ok()) {
    Fault fault = drawing.fault();
    fault.why = fault.where + (fault.where.empty() || fault.why.empty() ? "" : ": ") + fault.why;
    return fault;
  }
  std::size_t passed_over = 0;
  auto shape = largest_shape(*drawing, passed_over);
  if (shape.ok() && passed_over > 0) {
    reading_.drawing_notes.push_back(reading_.file + ":" + std::to_string(line()) + ": smaller shapes and holes in " +
                                     name + " passed over: " + std::to_string(passed_over) +
                                     "; write a hole in keep_clear");
  }
  return shape;
}

MaybeFault Measuring::check_beside_outline(BlankColumn column, std::optional<double> written, double measured) const {
  if (!written || std::abs(*written - measured) <= box_slack) return std::nullopt;
  return in(column,
            {mm_text(*written) + " contradicts the outline", "", "its box measures " + mm_text(measured) + " there",
             "Leave the cell empty, or measure the outline again"});
}

MaybeFault Measuring::read_outline(std::optional<double> width, std::optional<double> height) {
  const std::string_view outline = cell(BlankColumn::outline);
  const bool is_drawing = lower_case(outline).ends_with(".svg");
  const Result<Polygon> polygon = is_drawing ? read_drawing(std::string(outline)) : read_polygon(outline);
  if (!polygon.ok()) return in(BlankColumn::outline, polygon.fault());
  Result<Shape> shape = shape_of(*polygon);
  if (!shape.ok()) return in(BlankColumn::outline, shape.fault());
  if (auto fault = check_beside_outline(BlankColumn::width, width, shape->width)) return fault;
  if (auto fault = check_beside_outline(BlankColumn::height, height, shape->height)) return fault;
  if (has(BlankColumn::corners)) {
    return in(BlankColumn::corners, {"corners beside an outline contradict it", "",
                                     "the outline says what its corners are", "Leave the cell empty, or the outline"});
  }
  if (!is_drawing && length(shape->shift) > 0) reading_.moved.push_back(line());
  row_.width = shape->width;
  row_.height = shape->height;
  row_.blank.outline = std::move(shape->outline);
  row_.blank.chips = std::move(shape->pockets);
  return std::nullopt;
}

MaybeFault Measuring::read_chips_cell() {
  const auto chips = read_chips(cell(BlankColumn::chips), row_.width, row_.height);
  if (!chips.ok()) return in(BlankColumn::chips, chips.fault());
  if (chips->empty()) return std::nullopt;
  row_.blank.chips.insert(row_.blank.chips.end(), chips->begin(), chips->end());
  if (auto fault = check_chips(row_.blank)) return in(BlankColumn::chips, *std::move(fault));
  return std::nullopt;
}

MaybeFault Measuring::read_things_cell() {
  auto things = read_things(cell(BlankColumn::keep_clear));
  if (!things.ok()) return in(BlankColumn::keep_clear, things.fault());
  if (auto fault = check_places(*things, row_.blank)) return in(BlankColumn::keep_clear, *std::move(fault));
  row_.blank.kept_clear = *std::move(things);
  return std::nullopt;
}

}  // namespace

std::string id_of(const CsvRecord& record, const BlankHeader& header) {
  const std::size_t at = *header.at[0];
  return at < record.fields.size() ? std::string(trimmed(record.fields[at].text)) : std::string();
}

Result<BlankRow> read_blank_row(const CsvRecord& record, BlankReading& reading) {
  // An id alone is a nominal piece; any other short row has lost a field, or a quote.
  const bool id_alone = record.fields.size() == 1 && reading.header.at[0] == 0;
  if (!id_alone) {
    if (auto fault = check_width(record, reading.header.names, reading.file)) return *std::move(fault);
  }
  Measuring measuring(record, reading);
  if (auto fault = measuring.measure()) return *std::move(fault);
  return measuring.take();
}

}  // namespace ordinatio::inline blanks
