#include "machine/machine.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "machine/carriage.h"
#include "machine/profile.h"
#include "machine/scan.h"

namespace ordinatio::inline machine {
namespace {

/// Of a sheet, a gigabyte of them; reached by a picture on a bed of metres, with lines as fine as they may be. Its engraving
/// is then not told.
constexpr double crossing_limit = 5e7;

double speed_for(Operation operation, const Motion& motion) {
  switch (operation) {
    case Operation::engrave:
      return motion.scan_speed;
    case Operation::score:
      return motion.score_speed;
    case Operation::cut:
      return motion.cut_speed;
    case Operation::mark:
      return motion.mark_speed;
    case Operation::guide:
      break;
  }
  return 0;
}

/// A piece that is filled.
struct FilledPiece {
  const SheetPart* part = nullptr;
  ScanLines lines;
  double bottom = 0, top = 0;
};
using PieceGroup = std::vector<const ScanLines*>;

void sweep_group(Carriage& carriage, const PieceGroup& group, double pitch, std::size_t& count) {
  std::int64_t first = group.front()->first, end = group.front()->end();
  for (const ScanLines* piece : group) first = std::min(first, piece->first), end = std::max(end, piece->end());
  std::vector<Span> line;
  for (std::int64_t k = first; k < end; ++k) {
    gather_line(group, k, line);
    if (line.empty()) continue;
    carriage.sweep(line, (static_cast<double>(k) + 0.5) * pitch);
    ++count;
  }
}

/// Pieces whose ink lies at the same height come together.
std::vector<PieceGroup> rows_of(const std::vector<FilledPiece>& pieces) {
  std::vector<const FilledPiece*> upward;
  upward.reserve(pieces.size());
  for (const FilledPiece& piece : pieces) upward.push_back(&piece);
  std::ranges::stable_sort(upward, {}, [](const FilledPiece* piece) { return piece->bottom; });
  std::vector<PieceGroup> rows;
  double top = 0;
  for (const FilledPiece* piece : upward) {
    if (rows.empty() || piece->bottom >= top) rows.emplace_back(), top = piece->top;
    rows.back().push_back(&piece->lines);
    top = std::max(top, piece->top);
  }
  return rows;
}

std::vector<PieceGroup> grouped(const std::vector<FilledPiece>& pieces, Grouping grouping) {
  if (grouping == Grouping::rows) return rows_of(pieces);
  std::vector<PieceGroup> groups;
  for (const FilledPiece& piece : pieces) {
    if (groups.empty() || grouping == Grouping::pieces) groups.emplace_back();
    groups.back().push_back(&piece.lines);
  }
  return groups;
}

/// The time of a sheet as it is added up.
class TimeSheet {
 public:
  TimeSheet(const Sheet& sheet, const Motion& motion) : sheet_(sheet), motion_(motion) {
    for (const SheetItem& item : sheet.items) items_.emplace(item.item.id, 0);
  }

  SheetTime told() {
    for (const Operation operation : all_operations) {
      if (operation == Operation::guide) continue;
      std::vector<const SheetPart*> parts;
      for (const SheetPart& part : sheet_.parts) {
        if (part.operation == operation) parts.push_back(&part);
      }
      if (parts.empty()) continue;
      if (speed_for(operation, motion_) == 0) {
        time_.untold.push_back({operation, "no speed is told for it"});
      } else if (is_filled(operation)) {
        fill(parts);
      } else {
        follow(operation, parts);
      }
    }
    for (const SheetItem& item : sheet_.items) time_.items.push_back({item.item.id, items_.at(item.item.id)});
    return std::move(time_);
  }

 private:
  void add(Operation operation, double seconds) {
    time_.operations.push_back({operation, seconds});
    time_.seconds += seconds;
  }

  void add_to_item(const std::string& id, double seconds) {
    if (const auto item = items_.find(id); item != items_.end()) item->second += seconds;
  }

  void fill(const std::vector<const SheetPart*>& parts) {
    std::vector<Polygons> outlines;
    double crossings = 0;
    for (const SheetPart* part : parts) {
      outlines.push_back(polygons_of(part->path, curve_tolerance));
      crossings += crossings_of(outlines.back(), motion_.scan_pitch);
    }
    if (crossings > crossing_limit) {
      time_.untold.push_back({Operation::engrave, "its scan lines are too many to be gone through"});
      return;
    }
    std::vector<FilledPiece> pieces;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      ScanLines lines = scan_lines(outlines[i], motion_.scan_pitch);
      if (lines.spans.empty()) continue;  // less than a scan line
      const Bounds bounds = bounds_of(parts[i]->path);
      pieces.push_back({parts[i], std::move(lines), bounds.bottom, bounds.top});
    }
    compare_groupings(pieces);
    share(pieces);
  }

  void compare_groupings(const std::vector<FilledPiece>& pieces) {
    for (const Grouping grouping : all_groupings) {
      Carriage carriage(motion_);
      std::size_t lines = 0;
      for (const PieceGroup& group : grouped(pieces, grouping)) sweep_group(carriage, group, motion_.scan_pitch, lines);
      double& seconds = time_.groupings[static_cast<std::size_t>(grouping)];
      seconds = carriage.seconds() * motion_.factor;
      // Of two that are alike the one that is done with a piece sooner: a fault then spoils fewer.
      if (grouping != Grouping::pieces && seconds >= best() * (1 - alike)) continue;
      time_.best = grouping, time_.scan_lines = lines;
    }
    add(Operation::engrave, best());
  }

  [[nodiscard]] double best() const { return time_.groupings[static_cast<std::size_t>(time_.best)]; }

  void share(const std::vector<FilledPiece>& pieces) {
    std::vector<double> alone;
    double all = 0;
    for (const FilledPiece& piece : pieces) {
      Carriage carriage(motion_);
      std::size_t lines = 0;
      sweep_group(carriage, {&piece.lines}, motion_.scan_pitch, lines);
      all += alone.emplace_back(carriage.seconds());
    }
    for (std::size_t i = 0; i < pieces.size(); ++i) add_to_item(pieces[i].part->id, best() * alone[i] / all);
  }

  /// In the files' order.
  void follow(Operation operation, const std::vector<const SheetPart*>& parts) {
    const double speed = speed_for(operation, motion_);
    double seconds = 0;
    for (const SheetPart* part : parts) {
      double of_part = 0;
      for (Polyline& line : flatten(part->path, curve_tolerance)) {
        if (line.points.size() < 2) continue;
        if (line.closed) line.points.push_back(line.points.front());
        if (at_) {
          of_part += rest_to_rest(length(line.points.front() - *at_), motion_.travel_speed, motion_.acceleration);
        }
        of_part += path_time(line.points, speed, motion_.acceleration, motion_.corner);
        at_ = line.points.back();
      }
      add_to_item(part->id, of_part * motion_.factor);
      seconds += of_part * motion_.factor;
    }
    add(operation, seconds);
  }

  static constexpr double alike = 1e-3;  // a share: nobody sees a second of a quarter of an hour

  const Sheet& sheet_;
  const Motion& motion_;
  SheetTime time_;
  std::map<std::string, double> items_;
  std::optional<Point> at_;  // where the last path that was followed ended
};

}  // namespace

std::string_view name_of(Grouping grouping) {
  constexpr std::string_view names[] = {"piece by piece", "row by row", "the whole bed in one go"};
  return names[static_cast<std::size_t>(grouping)];
}

SheetTime time_of(const Sheet& sheet, const Motion& motion) { return TimeSheet(sheet, motion).told(); }

Fit fit_factor(const std::vector<TimedBed>& beds) {
  double product = 0, square = 0, left = 0, took = 0;
  for (const TimedBed& bed : beds) product += bed.told * bed.took, square += bed.told * bed.told;
  if (square == 0) return {};
  const double factor = product / square;
  for (const TimedBed& bed : beds) {
    left += std::pow(bed.took - factor * bed.told, 2);
    took += bed.took * bed.took;
  }
  return {factor, std::sqrt(left / took)};
}

}  // namespace ordinatio::inline machine
