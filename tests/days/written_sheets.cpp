#include "written_sheets.h"

#include <sqlite3.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <memory>
#include <nlohmann/json.hpp>

#include "base/base.h"
#include "check/svg_path.h"

namespace ordinatio::days {
namespace {

namespace fs = std::filesystem;
using Row = std::vector<std::string>;

std::vector<Row> rows_of(const fs::path& ledger_file, const std::string& sql, const Row& values = {}) {
  sqlite3* raw = nullptr;
  const int opened = sqlite3_open_v2(ledger_file.c_str(), &raw, SQLITE_OPEN_READONLY, nullptr);
  const std::unique_ptr<sqlite3, decltype(&sqlite3_close)> database(raw, sqlite3_close);
  if (opened != SQLITE_OK) throw std::runtime_error(sqlite3_errmsg(raw));
  sqlite3_stmt* prepared = nullptr;
  if (sqlite3_prepare_v2(raw, sql.c_str(), -1, &prepared, nullptr) != SQLITE_OK) {
    throw std::runtime_error(sqlite3_errmsg(raw));
  }
  const std::unique_ptr<sqlite3_stmt, decltype(&sqlite3_finalize)> statement(prepared, sqlite3_finalize);
  for (std::size_t i = 0; i < values.size(); ++i) {
    sqlite3_bind_text(prepared, static_cast<int>(i) + 1, values[i].c_str(), -1, SQLITE_TRANSIENT);
  }
  std::vector<Row> rows;
  while (sqlite3_step(prepared) == SQLITE_ROW) {
    Row& row = rows.emplace_back();
    for (int column = 0; column < sqlite3_column_count(prepared); ++column) {
      const auto* text = sqlite3_column_text(prepared, column);
      row.emplace_back(text == nullptr ? "" : reinterpret_cast<const char*>(text));
    }
  }
  return rows;
}

/// Path data by item and operation: <g id="engrave-12-1"> … <path d="…"/>.
using Drawn = std::map<std::string, std::map<std::string, std::string>>;

Drawn drawn_in(const std::string& svg) {
  Drawn drawn;
  for (std::size_t at = 0; (at = svg.find("<path d=\"", at)) != std::string::npos; ++at) {
    const std::size_t group = svg.rfind("<g id=\"", at) + 7;
    const std::string id = svg.substr(group, svg.find('"', group) - group);
    const std::size_t dash = id.find('-');
    const std::string operation = id.substr(0, dash), item = id.substr(dash + 1);
    if (operation == "guide" || item.starts_with("mark") || item.empty() || item[0] < '0' || item[0] > '9') continue;
    const std::size_t data = at + 9;
    drawn[item][operation] = svg.substr(data, svg.find('"', data) - data);
  }
  return drawn;
}

/// Of all that an item's file fills: mm² that one rule fills and the other does not, beside all of it.
double disputed_share(const std::string& data) {
  const Polygons polygons = polygons_of(read_path_data(data, 1, 0, 1), 0.005);
  const double nonzero = area_of(weld(polygons, 1e-4));
  return std::abs(nonzero - area_of(weld(polygons, 1e-4, FillRule::even_odd))) / nonzero;
}

constexpr double area_share = 1e-3;

/// What a line so wide covers, its ends and corners cut square.
Polygons strip_along(const std::vector<Polyline>& lines, double width) {
  Polygons strips;
  for (const Polyline& line : lines) {
    const std::vector<Point>& points = line.points;
    for (std::size_t i = 0; i + (line.closed ? 0 : 1) < points.size(); ++i) {
      const Point from = points[i], to = points[(i + 1) % points.size()], along = to - from;
      const double length = std::hypot(along.x, along.y);
      if (length == 0) continue;
      const Point aside = width / 2 / length * Point{-along.y, along.x};
      strips.push_back({from - aside, to - aside, to + aside, from + aside});
    }
  }
  return weld(strips, 1e-4);
}

void look_at_ink(const std::string& item, const std::map<std::string, std::string>& layers,
                 std::vector<std::string>& wrong) {
  const auto engraved = layers.find("engrave"), scored = layers.find("score");
  if (engraved == layers.end()) return;
  if (const double share = disputed_share(engraved->second); share > area_share) {
    wrong.push_back(item + ": its ink lies over itself, a share of " + std::to_string(share));
  }
  if (scored == layers.end()) return;
  // A line that ran through ink would cut it into more pieces, or take its corners in.
  const Polygons ink = polygons_of(read_path_data(engraved->second, 1, 0, 1), 0.005);
  const std::vector<Polyline> lines = flatten(read_path_data(scored->second, 1, 0, 1), 0.005);
  const Polygons strip = strip_along(lines, 0.02);
  if (area_of(intersection(strip, weld(ink, 1e-4), 1e-4)) > 1e-3) wrong.push_back(item + ": a line runs over its ink");
}

void join(std::string& list, const std::string& more) { list += (list.empty() ? "" : ", ") + more; }

}  // namespace

std::vector<std::string> WrittenSheets::look() {
  std::vector<std::string> wrong;
  const fs::path ledger_file = workshop_ / "workshop.ledger";
  if (!fs::exists(ledger_file)) return wrong;
  const auto live = rows_of(ledger_file,
                            "SELECT DISTINCT s.name, s.folder FROM sheet s JOIN placement p ON p.sheet = s.id "
                            "WHERE s.state = 'written' AND p.state = 'on sheet' AND s.stale = '' ORDER BY s.id");
  for (const Row& sheet : live) {
    const fs::path folder = workshop_ / sheet[1];
    const fs::path svg = folder / (sheet[0] + ".svg"), aligned = folder / (sheet[0] + "-aligned.svg");
    if (!fs::exists(svg)) wrong.push_back(sheet[0] + ": its file is not there");
    for (const fs::path& file : {svg, aligned}) {
      if (fs::exists(file)) look_at(sheet[0], file, wrong);
    }
  }
  return wrong;
}

void WrittenSheets::look_at(const std::string& sheet, const fs::path& svg, std::vector<std::string>& wrong) {
  const fs::path ledger_file = workshop_ / "workshop.ledger";
  const std::string name = svg.filename().string();
  const auto bytes = read_file(svg);
  const auto json = read_file(fs::path(svg).replace_extension(".json"));
  if (!bytes.ok() || !json.ok()) {
    wrong.push_back(name + ": it or its manifest cannot be read");
    return;
  }
  ++files_;
  const Drawn drawn = drawn_in(*bytes);
  const bool is_new = inks_known_.insert(sha256_hex(*bytes)).second;
  // Only what is due, or was engraved from this very sheet: what was withdrawn is off it.
  std::map<std::string, Row> placed;
  for (const Row& row :
       rows_of(ledger_file,
               "SELECT i.number, p.state, i.state, i.words, p.blank, coalesce(b.state, 'none'), "
               "coalesce(b.item = i.id, 0), b.material, p.pocket FROM placement p JOIN sheet s ON s.id = p.sheet "
               "JOIN item i ON i.id = p.item LEFT JOIN blank b ON b.id = p.blank WHERE s.name = ?1 "
               "ORDER BY p.id",
               {sheet})) {
    if (!placed.contains(row[0]) || row[1] != "withdrawn") placed[row[0]] = row;
  }
  std::map<std::string, std::string> pieces, words, pockets;
  std::set<std::string> materials, sides;
  const nlohmann::json manifest = nlohmann::json::parse(*json);
  for (const auto& item : manifest.at("items")) {
    const std::string number = item.at("id");
    pieces[number] = item.at("piece").value("id", "");
    words[number] = item.at("original");
    pockets[number] = std::to_string(item.at("pocket").get<int>());
    sides.insert(item.value("from_behind", false) ? "back" : "front");
  }
  for (const auto& [number, layers] : drawn) {
    ++items_;
    if (is_new) look_at_ink(name + ", " + number, layers, wrong);
    const auto row = placed.find(number);
    if (row == placed.end()) {
      wrong.push_back(name + ", " + number + ": the ledger does not have it on this sheet");
      continue;
    }
    const Row& cells = row->second;
    const bool is_due = cells[1] == "on sheet", is_done = cells[1] == "engraved";
    if (!is_due && !is_done) wrong.push_back(name + ", " + number + ": it is drawn, and the ledger says " + cells[1]);
    if (!is_due) continue;
    if (cells[2] != "on sheet") wrong.push_back(name + ", " + number + ": the item is " + cells[2]);
    if (cells[3] != words[number]) wrong.push_back(name + ", " + number + ": other words than the ledger's");
    if (cells[4].empty() || cells[5] != "reserved" || cells[6] != "1") {
      wrong.push_back(name + ", " + number + ": piece \"" + cells[4] + "\" is not its own: " + cells[5]);
    }
    if (pieces[number] != cells[4]) wrong.push_back(name + ", " + number + ": it is drawn for " + pieces[number]);
    if (pockets[number] != cells[8]) {
      wrong.push_back(name + ", " + number + ": it is drawn in pocket " + pockets[number] + ", and is due in " +
                      cells[8]);
    }
    materials.insert(cells[7]);
  }
  for (const auto& [number, row] : placed) {
    if (row[1] == "on sheet" && !drawn.contains(number)) {
      wrong.push_back(name + ", " + number + ": it is due here and not drawn");
    }
  }
  for (const auto* kinds : {&materials, &sides}) {
    std::string list;
    for (const std::string& kind : *kinds) join(list, kind);
    if (kinds->size() > 1) wrong.push_back(name + ": one bed for " + list);
  }
}

}  // namespace ordinatio::days
