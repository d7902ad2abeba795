#include "workshop/shop_file.h"

#include <unicode/ucnv.h>

#include <algorithm>
#include <map>

#include "bed/settings_card.h"
#include "design/design_file.h"
#include "design/hatch_table.h"
#include "design/toml_table.h"
#include "design/variant.h"
#include "orders/order_options.h"
#include "orders/orders.h"
#include "workshop/choice_table.h"
#include "workshop/jig_table.h"
#include "workshop/machine_table.h"
#include "workshop/palette_file.h"
#include "workshop/station_table.h"

namespace ordinatio::inline workshop {
namespace {

constexpr NumberRange any_tolerance{1e-4, 1};  // mm: from the grid that contours are welded on to what the eye sees

constexpr Word<char> delimiter_words[] = {{",", ','}, {";", ';'}, {"\t", '\t'}, {"|", '|'}};
constexpr Word<MarkPlan::Kind> mark_words[] = {
    {"cross", MarkPlan::Kind::cross}, {"ring", MarkPlan::Kind::ring}, {"target", MarkPlan::Kind::target}};
constexpr Word<DxfVersion> dxf_words[] = {{"R12", DxfVersion::r12}, {"R2000", DxfVersion::r2000}};
constexpr Word<PaperSize> paper_words[] = {{"a4", PaperSize::a4}, {"a5", PaperSize::a5}, {"letter", PaperSize::letter}};
constexpr Word<bool> css_pixel_words[] = {{"mm", false}, {"css-pixels", true}};

// ---- [shop] ----

void read_design_name(TomlTable& shop, std::string_view key, std::string& name) {
  shop.read(key, name);
  if (name.empty() || name.find('/') != std::string::npos || name.ends_with(".toml")) {
    shop.fault(key, "is no design's name", "it is \"" + name + "\"",
               "Name a file of the templates folder, without folder and .toml");
  }
}

void read_names(TomlTable shop, Shop& into) {
  shop.read("name", into.name);
  read_design_name(shop, "design", into.default_design);
  read_design_name(shop, "stand_design", into.stand_design);
  if (shop.read("sample", into.sample) && into.sample.find_first_not_of(" \t\r\n") == std::string::npos) {
    shop.fault("sample", "is empty", "", "Write the words that specimens of faces show");
  }
  if (shop.read("language", into.language) && !is_language(into.language)) {
    shop.fault("language", "is no language", "\"" + into.language + "\" is not in the list of languages",
               "Write a tag such as \"en-GB\", \"de\" or \"zh-Hant\"");
  }
}

// ---- [orders] ----

struct NamedColumn {
  std::string_view key;
  std::string* name;
  bool may_be_none;        // "" says that the export has none
  bool gives_way = false;  // where nobody wrote the name and another column has it
};

void check_column(TomlTable& orders, const NamedColumn& column, std::span<const NamedColumn> earlier) {
  if (column.name->empty() && !column.may_be_none) {
    orders.fault(column.key, "is empty", "", "Name a column, as the first line of the orders does");
  }
  for (const NamedColumn& other : earlier) {
    if (column.name->empty() || *column.name != *other.name) continue;
    // A name that nobody wrote gives way: texts may well stand in a column called Note.
    if (column.gives_way && !orders.has(column.key)) return column.name->clear();
    orders.fault(column.key, "is the same column as " + std::string(other.key), "", "Name another one");
  }
}

void read_columns(TomlTable& orders, OrderFormat& format) {
  OrderColumns& columns = format.columns;
  const NamedColumn named[] = {
      {"order", &columns.order, false},    {"text", &columns.text, false},      {"quantity", &columns.quantity, true},
      {"design", &columns.design, true},   {"blank", &columns.blank, true},     {"wish", &columns.wish, true},
      {"line", &columns.line, true, true}, {"note", &columns.note, true, true}, {"status", &columns.status, true, true},
      {"name", &columns.name, true, true}, {"date", &columns.date, true, true}};
  for (const NamedColumn& column : named) {
    if (orders.read(column.key, *column.name) && !column.name->empty()) format.written.emplace(column.key);
  }
  for (std::size_t i = 0; i < std::size(named); ++i) check_column(orders, named[i], std::span(named).first(i));
  if (orders.read("address", columns.address) && !columns.address.empty()) format.written.emplace("address");
  std::set<std::string> parts(columns.address.begin(), columns.address.end());
  if (parts.size() < columns.address.size() || parts.contains(""))
    orders.fault("address", "names a column twice, or none", "", "Name each column of the address once");
}

constexpr std::size_t label_limit = 200;  // bytes; a longer one is a text in the wrong place

void read_cancelled(TomlTable& orders, std::vector<std::string>& words) {
  orders.read("cancelled", words);
  for (const std::string& word : words) {
    if (label_key(word).empty()) {
      orders.fault("cancelled", "holds an empty word", "rows without a status would be passed over", "Take it out");
    }
  }
}

/// Labels of one kind; `known` has those of all kinds, with their keys.
void read_label_list(TomlTable& table, std::string_view key, std::vector<std::string>& list,
                     std::map<std::u32string, std::string_view>& known) {
  table.read(key, list);
  for (const std::string& label : list) {
    const std::u32string letters = label_key(label);
    if (letters.empty()) {
      table.fault(key, "holds an empty label", "", "Take it out");
    } else if (label.size() > label_limit) {
      table.fault(key, "holds a label that is too long",
                  "it has " + std::to_string(label.size()) + " bytes, " + std::to_string(label_limit) + " are allowed",
                  "Write what stands before the colon in the options");
    } else if (label.find(':') != std::string::npos) {
      table.fault(key, "holds a colon", "\"" + label + "\": a label ends before its colon", "Take it out");
    } else if (const auto [same, is_new] = known.emplace(letters, key); !is_new) {
      table.fault(key, "names \"" + label + "\" again",
                  "it is in " + std::string(same->second) + " already; capitals do not count", "Keep one of them");
    }
  }
}

void read_labels(TomlTable table, OptionLabels& labels) {
  if (!table.present()) return;
  std::map<std::u32string, std::string_view> known;
  const bool any = table.has("note") || table.has("design") || table.has("other");
  if (any || !table.has("words")) table.require("text", "text = [\"Wording\"]");
  if (table.has("text")) read_label_list(table, "text", labels.text, known);
  if (table.has("text") && labels.text.empty()) {
    table.fault("text", "is empty", "nothing would be engraved", "Name the label that the words stand behind");
  }
  read_label_list(table, "note", labels.note, known);
  read_label_list(table, "design", labels.design, known);
  read_label_list(table, "other", labels.other, known);
  read_label_list(table, "words", labels.words, known);
}

bool is_encoding(const std::string& name) {
  UErrorCode error = U_ZERO_ERROR;
  return ucnv_countAliases(name.c_str(), &error) > 0 && U_SUCCESS(error);
}

void read_order_format(TomlTable orders, OrderFormat& format) {
  read_columns(orders, format);
  read_cancelled(orders, format.cancelled);
  read_labels(orders.table("labels"), format.labels);
  read_choices(orders, format);
  char delimiter = 0;
  if (orders.read("delimiter", delimiter, delimiter_words)) format.delimiter = delimiter;
  orders.read("line_separator", format.line_separator);
  orders.read("decode_entities", format.decode_entities);
  orders.read("encoding", format.encoding);
  if (!format.encoding.empty() && !is_encoding(format.encoding)) {
    orders.fault(
        "encoding", "is no encoding that is known here", "it is \"" + format.encoding + "\"",
        "Write \"UTF-8\", \"UTF-16LE\", \"windows-1252\", \"windows-1250\" or \"macintosh\", or take it out to "
        "have it told from the file");
  }
}

// ---- [blanks] ----

constexpr Word<BlankUse::Spare> spare_words[] = {{"fullest", BlankUse::Spare::fullest},
                                                 {"none", BlankUse::Spare::none}};

void read_blank_use(TomlTable blanks, BlankUse& use) {
  if (!blanks.present()) return;
  blanks.require("file", "file = \"blanks.csv\"");
  if (blanks.read("file", use.file) && use.file.empty()) {
    blanks.fault("file", "is empty", "", "Name the file of measured blanks, or take the table out");
  }
  blanks.read("spare", use.spare, spare_words);
}

// ---- [ledger] ----

void read_ledger(TomlTable ledger, std::string& file) {
  if (!ledger.present()) return;
  ledger.require("file", "file = \"workshop.ledger\"");
  if (ledger.read("file", file) && file.empty()) {
    ledger.fault("file", "is empty", "", "Name the ledger's file, or take the table out");
  }
}

// ---- [marks] ----

void read_marks(TomlTable marks, MarkPlan& into) {
  marks.read("kind", into.kind, mark_words);
  marks.read("size", into.size, any_size);
  marks.read("count", into.count, 3, 4);
  const bool placed = marks.read("places", into.places, any_distance);
  if (marks.has("count") && marks.has("places")) {
    marks.fault("count", "has no use here", "places tells it", "Take one of them out");
  }
  if (placed && (into.places.size() < 3 || into.places.size() > 4)) {
    marks.fault("places", "must be three or four", "fewer leave the sheet free to turn or stretch unseen",
                "Write, for example: places = [[12, 12], [588, 12], [12, 388]]");
  }
}

// ---- [labels] ----

constexpr int label_rows = 100;  // or columns; more is a slip of the pen

void read_labels_sheet(TomlTable labels, LabelGrid& into) {
  if (!labels.present()) return;
  labels.require("columns", "columns = 3");
  labels.require("rows", "rows = 8");
  labels.require("width", "width = 60");
  labels.require("height", "height = 30");
  labels.require("left", "left = 15");
  labels.require("top", "top = 20");
  into.lines = false;  // they are cut already
  labels.read("columns", into.columns, 1, label_rows);
  labels.read("rows", into.rows, 1, label_rows);
  labels.read("width", into.width, any_size);
  labels.read("height", into.height, any_size);
  labels.read("left", into.left, any_distance);
  labels.read("top", into.top, any_distance);
  labels.read("gap_x", into.gap_x, any_distance);
  labels.read("gap_y", into.gap_y, any_distance);
  labels.read("lines", into.lines);
  labels.read("paper", into.paper, paper_words);
}

// ---- [packing] ----

void read_packing(TomlTable packing, ParcelHead& into) {
  packing.read("name", into.name);
  packing.read("address", into.address);
}

// ---- [files] ----

void read_files(TomlTable files, Shop& into) {
  files.read("dxf", into.dxf.version, dxf_words);
  files.read("tolerance", into.dxf.tolerance, any_tolerance);
  files.read("svg_units", into.svg.css_pixels, css_pixel_words);
  files.read("scale_bar", into.plan.scale_bar);
}

// ---- [settings_card] ----

void read_settings_card(TomlTable table, SettingsCardTable& into) {
  if (table.read("size", into.size) && !size_named(into.size)) {
    table.fault("size", "is no size", "", "Write it in mm, such as size = \"80x60\"");
  }
  for (const std::string_view what : {"speed", "power", "pitch"}) {
    std::string text;
    if (!table.read(what, text)) continue;
    if (const auto trial = read_trial_values(what, text); !trial.ok()) {
      table.fault(what, "cannot be tried",
                  trial.fault().what + (trial.fault().why.empty() ? "" : ": " + trial.fault().why), trial.fault().mend);
    }
    into.tried.emplace(what, std::move(text));
  }
}

// ---- [settings] ----

constexpr std::size_t setting_limit = 400;  // bytes of one design's words: they share a page with the bed

void read_settings(TomlTable settings, std::vector<std::pair<std::string, std::string>>& into) {
  for (const std::string_view design : settings.keys()) {
    std::string words;
    if (!settings.read(design, words)) continue;
    if (words.find_first_not_of(" \t\r\n") == std::string::npos) {
      settings.fault(design, "is empty", "", "Write how the machine is set for this design, or take the line out");
    } else if (words.size() > setting_limit) {
      settings.fault(
          design, "is too long",
          "it has " + std::to_string(words.size()) + " bytes, " + std::to_string(setting_limit) + " are allowed",
          "Write what is set at the machine, and keep the rest in a place of its own");
    }
    into.emplace_back(design, std::move(words));
  }
}

}  // namespace

Result<Shop> parse_shop(std::string_view text, const std::string& file_name) {
  const auto file = TomlFile::parse(text, file_name);
  if (!file.ok()) return file.fault();
  TomlTable root = file->root();
  Shop shop;
  shop.default_design = "plaque-landscape", shop.stand_design = "stand-words";  // as shipped
  read_names(root.table("shop"), shop);
  read_order_format(root.table("orders"), shop.orders);
  shop.orders.default_design = shop.default_design;
  read_blank_use(root.table("blanks"), shop.blanks);
  read_ledger(root.table("ledger"), shop.ledger);
  read_machines(root, shop);
  read_jigs(root.table("jig"), shop);
  read_marks(root.table("marks"), shop.plan.marks);
  read_labels_sheet(root.table("labels"), shop.labels);
  read_packing(root.table("packing"), shop.packing);
  read_hatch(root.table("hatch"), shop.hatch);
  read_files(root.table("files"), shop);
  read_settings_card(root.table("settings_card"), shop.settings_card);
  read_settings(root.table("settings"), shop.settings);
  read_stations(root.tables("stations"), root.table("plan"), shop);
  shop.plan.palette = read_palette(root.table("colours"));
  if (const auto fault = file->fault()) return *fault;
  if (auto fault = check_boards(shop)) {
    constexpr std::string_view plain = "shop.toml";  // all that the bed knows of where its plan was read
    if (fault->where.starts_with(plain)) fault->where.replace(0, plain.size(), file_name);
    return *std::move(fault);
  }
  if (auto fault = check_labels(shop.labels, file_name + ", [labels]")) return *std::move(fault);
  return shop;
}

Result<Shop> read_shop(const std::filesystem::path& folder) {
  const std::filesystem::path path = folder / "shop.toml";
  const auto text = read_file(path, toml_limit);
  if (!text.ok()) {
    Fault fault = text.fault();
    std::error_code error;
    if (std::filesystem::status(path, error).type() == std::filesystem::file_type::not_found) {
      fault.mend = "Go to a workshop's folder, or make one: ordinatio new FOLDER";
    }
    return fault;
  }
  auto shop = parse_shop(*text, path.string());
  if (shop.ok()) shop->folder = folder;
  return shop;
}

}  // namespace ordinatio::inline workshop
