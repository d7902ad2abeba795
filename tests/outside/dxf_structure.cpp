#include "dxf_structure.h"

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <limits>
#include <map>
#include <set>

#include "dxf_document.h"

namespace outside {
namespace {

using Names = std::vector<std::string_view>;

/// Ten-thousandths of a mm: exact, so that extents can be held equal.
std::int64_t fixed(std::string_view text) {
  std::string digits;
  for (const char c : text) {
    if (c != '.') digits += c;
  }
  std::int64_t value = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

std::uint64_t hex(std::string_view text) {
  std::uint64_t value = 0;
  std::from_chars(text.data(), text.data() + text.size(), value, 16);
  return value;
}

bool is_layer_name(std::string_view name) {
  return !name.empty() && name.size() <= 31 && std::all_of(name.begin(), name.end(), [](char c) {
    return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '$' || c == '_' || c == '-';
  });
}

struct Vertex {
  std::int64_t x, y;
  friend bool operator==(const Vertex&, const Vertex&) = default;
};

struct Table {
  const DxfRecord* head = nullptr;
  std::vector<const DxfRecord*> entries;
};

class Structure {
 public:
  explicit Structure(const DxfDocument& document) : document_(document), faults_(document.faults) {}

  std::vector<std::string> check() {
    if (!document_.ended) fault("the file does not end in EOF");
    read_header();
    const std::string version = variable("$ACADVER", 1);
    r2000_ = version == "AC1015";
    if (!r2000_ && version != "AC1009") fault("$ACADVER is neither AC1009 nor AC1015");
    check_sections();
    check_units();
    read_tables();
    check_layers();
    check_entities();
    check_extents();
    if (r2000_) {
      check_tables_r2000();
      check_blocks();
      check_objects();
      check_handles();
    }
    return faults_;
  }

 private:
  void fault(const std::string& what) { faults_.push_back(what); }
  void fault(std::size_t line, const std::string& what) { faults_.push_back(at_line(line, what)); }

  // ---- sections and header ----

  void check_sections() {
    const Names r12{"HEADER", "TABLES", "BLOCKS", "ENTITIES"},
        r2000{"HEADER", "CLASSES", "TABLES", "BLOCKS", "ENTITIES", "OBJECTS"};
    const Names& known = r2000_ ? r2000 : r12;
    auto next = known.begin();
    for (const DxfSection& section : document_.sections) {
      const auto found = std::find(next, known.end(), section.name);
      if (found == known.end()) {
        fault("section " + std::string(section.name) + " is unknown, twice there, or out of order");
      } else {
        next = found + 1;
      }
    }
    for (const std::string_view name : known) {
      if (document_.section(name) == nullptr && !(name == "BLOCKS" && !r2000_)) {
        fault("section " + std::string(name) + " is missing");
      }
    }
  }

  void read_header() {
    const DxfSection* header = document_.section("HEADER");
    if (header == nullptr) return;
    std::string name;
    for (const DxfTag& tag : header->variables) {
      if (tag.code == 9) {
        name = tag.value;
        if (variables_.contains(name)) fault(tag.line, name + " is set twice");
        variables_[name];
      } else if (name.empty()) {
        fault(tag.line, "a value without a variable");
      } else {
        variables_[name][tag.code] = tag.value;
      }
    }
    if (!header->records.empty()) fault("a record stands in the header");
  }

  std::string variable(const std::string& name, int code) const {
    const auto found = variables_.find(name);
    if (found == variables_.end()) return "";
    const auto value = found->second.find(code);
    return value == found->second.end() ? "" : value->second;
  }

  /// Millimetres, metric, decimal; the three must never disagree.
  void check_units() {
    for (const auto& [name, wanted] : {std::pair{"$INSUNITS", "4"}, {"$MEASUREMENT", "1"}, {"$LUNITS", "2"}}) {
      const std::string found = variable(name, 70);
      if (found != wanted) fault(std::string(name) + " is " + (found.empty() ? "not set" : found) + ", not " + wanted);
    }
  }

  // ---- tables ----

  void read_tables() {
    const DxfSection* section = document_.section("TABLES");
    if (section == nullptr) return;
    Table* table = nullptr;
    for (const DxfRecord& record : section->records) {
      if (record.type == "TABLE") {
        if (table != nullptr) fault(record.line, "a table does not end");
        const std::string name(record.first(2).value_or(""));
        if (tables_.contains(name)) fault(record.line, "table " + name + " is there twice");
        table = &tables_[name];
        table->head = &record;
      } else if (record.type == "ENDTAB") {
        if (table == nullptr) fault(record.line, "no table ends here");
        table = nullptr;
      } else if (table == nullptr || record.type != table->head->first(2)) {
        fault(record.line, "\"" + std::string(record.type) + "\" is no entry of this table");
      } else {
        table->entries.push_back(&record);
      }
    }
    if (table != nullptr) fault("the last table does not end");
    for (const auto& [name, found] : tables_) check_table(name, found);
  }

  void check_table(const std::string& name, const Table& table) {
    if (table.head->first(70) != std::to_string(table.entries.size())) {
      fault(table.head->line, "table " + name + " says that it has another number of entries");
    }
    std::set<std::string_view> names;
    for (const DxfRecord* entry : table.entries) {
      const auto entry_name = entry->first(2);
      if (!entry_name) {
        fault(entry->line, "an entry of table " + name + " has no name");
      } else if (!names.insert(*entry_name).second) {
        fault(entry->line, std::string(*entry_name) + " is in table " + name + " twice");
      }
    }
  }

  bool has_entry(const std::string& table, std::string_view name) const {
    const auto found = tables_.find(table);
    return found != tables_.end() && std::any_of(found->second.entries.begin(), found->second.entries.end(),
                                                 [&](const DxfRecord* entry) { return entry->first(2) == name; });
  }

  void check_layers() {
    const auto layers = tables_.find("LAYER");
    if (layers == tables_.end()) return fault("table LAYER is missing");
    for (const DxfRecord* layer : layers->second.entries) {
      const std::string name(layer->first(2).value_or(""));
      if (!is_layer_name(name)) fault(layer->line, "\"" + name + "\" is no legal layer name");
      const std::int64_t colour = layer->has(62) ? fixed(*layer->first(62)) : 0;
      if (colour < 1 || colour > 255) fault(layer->line, "layer " + name + " has no colour of the index");
      if (!layer->has(70)) fault(layer->line, "layer " + name + " has no flags");
      if (!has_entry("LTYPE", layer->first(6).value_or(""))) {
        fault(layer->line, "layer " + name + " has a line type that is not declared");
      }
    }
  }

  void check_tables_r2000() {
    for (const char* name : {"VPORT", "LTYPE", "LAYER", "STYLE", "VIEW", "UCS", "APPID", "DIMSTYLE", "BLOCK_RECORD"}) {
      if (!tables_.contains(name)) fault("table " + std::string(name) + " is missing");
    }
    const std::pair<const char*, Names> wanted[] = {{"LTYPE", {"ByBlock", "ByLayer", "Continuous"}},
                                                    {"LAYER", {"0"}},
                                                    {"STYLE", {"Standard"}},
                                                    {"APPID", {"ACAD"}},
                                                    {"DIMSTYLE", {"Standard"}},
                                                    {"VPORT", {"*Active"}},
                                                    {"BLOCK_RECORD", {"*Model_Space", "*Paper_Space"}}};
    for (const auto& [table, names] : wanted) {
      for (const std::string_view name : names) {
        if (!has_entry(table, name)) fault("table " + std::string(table) + " lacks " + std::string(name));
      }
    }
    for (const auto& [name, table] : tables_) {
      for (const DxfRecord* entry : table.entries) {
        if (!entry->has(name == "DIMSTYLE" ? 105 : 5)) fault(entry->line, "an entry of " + name + " has no handle");
        if (entry->first(330) != table.head->first(5))
          fault(entry->line, "an entry of " + name + " is not its table's");
        if (entry->first(100) != "AcDbSymbolTableRecord") fault(entry->line, "an entry of " + name + " has no class");
      }
    }
  }

  // ---- entities ----

  void check_entities() {
    const DxfSection* section = document_.section("ENTITIES");
    if (section == nullptr) return;
    const std::vector<DxfRecord>& records = section->records;
    for (std::size_t i = 0; i < records.size(); ++i) {
      if (!r2000_ && records[i].type == "POLYLINE") {
        i = check_polyline(records, i);
      } else if (r2000_ && records[i].type == "LWPOLYLINE") {
        check_light_polyline(records[i]);
      } else {
        fault(records[i].line, "\"" + std::string(records[i].type) + "\" stands where a polyline should begin");
      }
    }
  }

  void check_layer_of(const DxfRecord& record, std::string_view layer) {
    if (record.first(8) != layer) fault(record.line, "it is on another layer than its polyline");
  }

  /// POLYLINE, VERTEX and more, SEQEND. Returns the place of the last record taken.
  std::size_t check_polyline(const std::vector<DxfRecord>& records, std::size_t i) {
    const DxfRecord& head = records[i];
    check_head(head);
    if (head.first(66) != "1") fault(head.line, "it does not say that vertices follow");
    std::vector<Vertex> vertices;
    for (++i; i < records.size() && records[i].type == "VERTEX"; ++i) {
      check_layer_of(records[i], head.first(8).value_or(""));
      if (records[i].has(42)) fault(records[i].line, "a vertex has a bulge");
      if (!records[i].has(10) || !records[i].has(20)) {
        fault(records[i].line, "a vertex lacks a coordinate");
      } else {
        vertices.push_back({fixed(*records[i].first(10)), fixed(*records[i].first(20))});
      }
    }
    check_vertices(head, vertices);
    if (i < records.size() && records[i].type == "SEQEND") {
      check_layer_of(records[i], head.first(8).value_or(""));
      return i;
    }
    fault(head.line, "the polyline does not end in SEQEND");
    return i - 1;
  }

  void check_light_polyline(const DxfRecord& record) {
    check_head(record);
    std::vector<std::string_view> classes;
    std::vector<Vertex> vertices;
    for (std::size_t i = 0; i < record.tags.size(); ++i) {
      const DxfTag& tag = record.tags[i];
      if (tag.code == 100) classes.push_back(tag.value);
      if (tag.code == 42) fault(tag.line, "a vertex has a bulge");
      if (tag.code != 10) continue;
      if (i + 1 == record.tags.size() || record.tags[i + 1].code != 20) {
        fault(tag.line, "a vertex lacks a coordinate");
      } else {
        vertices.push_back({fixed(tag.value), fixed(record.tags[i + 1].value)});
      }
    }
    if (classes != Names{"AcDbEntity", "AcDbPolyline"}) fault(record.line, "its classes are not those of a polyline");
    if (record.first(90) != std::to_string(vertices.size())) fault(record.line, "it has another number of vertices");
    check_vertices(record, vertices);
  }

  void check_head(const DxfRecord& head) {
    const std::string layer(head.first(8).value_or(""));
    if (!has_entry("LAYER", layer)) fault(head.line, "layer \"" + layer + "\" is not declared");
    if (head.first(70) != "1" && head.first(70) != "0") fault(head.line, "it is neither closed nor open");
  }

  void check_vertices(const DxfRecord& head, const std::vector<Vertex>& vertices) {
    if (vertices.size() < 2) return fault(head.line, "a polyline of fewer than two vertices");
    if (head.first(70) == "1" && vertices.front() == vertices.back()) {
      fault(head.line, "the closing vertex is said twice");
    }
    for (const Vertex& vertex : vertices) {
      least_ = {std::min(least_.x, vertex.x), std::min(least_.y, vertex.y)};
      most_ = {std::max(most_.x, vertex.x), std::max(most_.y, vertex.y)};
    }
  }

  void check_extents() {
    if (least_.x > most_.x) return fault("nothing is drawn");
    const auto corner = [&](const char* name) { return Vertex{fixed(variable(name, 10)), fixed(variable(name, 20))}; };
    if (variable("$EXTMIN", 10).empty() || !(corner("$EXTMIN") == least_)) fault("$EXTMIN is not true");
    if (variable("$EXTMAX", 10).empty() || !(corner("$EXTMAX") == most_)) fault("$EXTMAX is not true");
  }

  // ---- blocks, objects and handles of R2000 ----

  void check_blocks() {
    const DxfSection* blocks = document_.section("BLOCKS");
    if (blocks == nullptr) return;
    Names names;
    bool open = false;
    for (const DxfRecord& record : blocks->records) {
      if (record.type == "BLOCK" && !open) {
        names.push_back(record.first(2).value_or(""));
      } else if (record.type != "ENDBLK" || !open) {
        fault(record.line, "blocks do not begin and end in turn");
      }
      open = record.type == "BLOCK";
    }
    if (open) fault("the last block does not end");
    if (names != Names{"*Model_Space", "*Paper_Space"}) fault("the blocks are not *Model_Space and *Paper_Space");
  }

  void check_objects() {
    const DxfSection* objects = document_.section("OBJECTS");
    if (objects == nullptr) return;
    if (objects->records.empty() || objects->records.front().type != "DICTIONARY") {
      return fault("OBJECTS does not begin with the root dictionary");
    }
    const DxfRecord& root = objects->records.front();
    if (root.first(330) != "0") fault(root.line, "the root dictionary has an owner");
    for (const std::string_view name : {"ACAD_GROUP", "ACAD_PLOTSTYLENAME"}) {
      const auto entry = std::find_if(root.tags.begin(), root.tags.end(),
                                      [&](const DxfTag& tag) { return tag.code == 3 && tag.value == name; });
      if (entry == root.tags.end() || entry + 1 == root.tags.end() || (entry + 1)->code != 350) {
        fault(root.line, "the root dictionary lacks " + std::string(name));
      } else {
        check_child(*objects, root, *(entry + 1));
      }
    }
  }

  void check_child(const DxfSection& objects, const DxfRecord& root, const DxfTag& child) {
    const auto found = std::find_if(objects.records.begin(), objects.records.end(),
                                    [&](const DxfRecord& record) { return record.first(5) == child.value; });
    if (found == objects.records.end()) {
      fault(child.line, "the root dictionary names what is not there");
    } else if (found->first(330) != root.first(5)) {
      fault(found->line, "it is not owned by the root dictionary that names it");
    }
  }

  /// Every record but those that end tables has a handle of its own; what is pointed at exists.
  void check_handles() {
    std::set<std::uint64_t> handles;
    for_each_record([&](const DxfRecord& record) {
      if (record.type == "ENDTAB" || record.type == "CLASS") return;
      const auto handle = record.first(record.type == "DIMSTYLE" ? 105 : 5);
      if (!handle || hex(*handle) == 0) {
        fault(record.line, "it has no handle");
      } else if (!handles.insert(hex(*handle)).second) {
        fault(record.line, "handle " + std::string(*handle) + " is there twice");
      }
    });
    for_each_record([&](const DxfRecord& record) { check_pointers(record, handles); });
    const std::string seed = variable("$HANDSEED", 5);
    if (handles.empty() || seed.empty() || hex(seed) <= *handles.rbegin()) {
      fault("$HANDSEED is not above all handles");
    }
    const DxfSection* entities = document_.section("ENTITIES");
    if (entities == nullptr) return;
    for (const DxfRecord& entity : entities->records) {
      if (entity.first(330) != model_space()) fault(entity.line, "the entity is not in *Model_Space");
    }
  }

  /// Tables and the root dictionary have no owner (330 is 0); a block record without layout has 340 0.
  void check_pointers(const DxfRecord& record, const std::set<std::uint64_t>& handles) {
    if (record.type == "ENDTAB" || record.type == "CLASS") return;
    const bool is_root = record.type == "TABLE" || (record.type == "DICTIONARY" && record.first(330) == "0");
    if (!record.has(330)) fault(record.line, "it has no owner");
    for (const DxfTag& tag : record.tags) {
      if (tag.code != 330 && tag.code != 340 && tag.code != 350 && tag.code != 390) continue;
      const bool may_be_nothing = (tag.code == 330 && is_root) || (tag.code == 340 && record.type == "BLOCK_RECORD");
      if (hex(tag.value) == 0 && may_be_nothing) continue;
      if (!handles.contains(hex(tag.value))) {
        fault(tag.line,
              "group " + std::to_string(tag.code) + " points at " + std::string(tag.value) + ", which is not there");
      }
    }
  }

  std::optional<std::string_view> model_space() const {
    const auto records = tables_.find("BLOCK_RECORD");
    if (records == tables_.end()) return "";
    for (const DxfRecord* record : records->second.entries) {
      if (record->first(2) == "*Model_Space") return record->first(5);
    }
    return "";
  }

  template <class Visit>
  void for_each_record(const Visit& visit) const {
    for (const DxfSection& section : document_.sections) {
      for (const DxfRecord& record : section.records) visit(record);
    }
  }

  const DxfDocument& document_;
  std::vector<std::string> faults_;
  bool r2000_ = false;
  std::map<std::string, std::map<int, std::string>> variables_;
  std::map<std::string, Table> tables_;
  Vertex least_{std::numeric_limits<std::int64_t>::max(), std::numeric_limits<std::int64_t>::max()};
  Vertex most_{std::numeric_limits<std::int64_t>::min(), std::numeric_limits<std::int64_t>::min()};
};

}  // namespace

std::vector<std::string> dxf_structure_faults(std::string_view bytes) {
  const DxfDocument document = read_dxf(bytes);
  return Structure(document).check();
}

}  // namespace outside
