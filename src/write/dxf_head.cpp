#include <stdexcept>

#include "write/dxf_tags.h"

// The tables and sections that readers want around the entities, as the DXF reference for R12 and R2000 lists them.
namespace ordinatio::inline write {
namespace {

void append_header(DxfTags& tags, std::string_view version, const Bounds& extents, bool with_handles) {
  tags.text(0, "SECTION").text(2, "HEADER").text(9, "$ACADVER").text(1, version);
  if (with_handles) tags.hand_seed();
  tags.text(9, "$INSBASE").point(10, {0, 0}, true);
  tags.text(9, "$EXTMIN").point(10, {extents.left, extents.bottom}, true);
  tags.text(9, "$EXTMAX").point(10, {extents.right, extents.top}, true);
  tags.text(9, "$LUNITS").number(70, 2);       // decimal
  tags.text(9, "$MEASUREMENT").number(70, 1);  // metric
  tags.text(9, "$INSUNITS").number(70, 4);     // millimetres
  tags.text(0, "ENDSEC");
}

/// Handles of the tables of an R2000 file, of their heads and of their entries.
enum Handle : unsigned {
  vport_table = 0x1,
  ltype_table,
  layer_table,
  style_table,
  view_table,
  ucs_table,
  appid_table,
  dimstyle_table,
  record_table,
  vport,
  by_block,
  by_layer,
  continuous,
  layer_zero,
  style,
  appid,
  dimstyle,
  root_dictionary,
  group_dictionary,
  plot_style_dictionary,
  plot_style,
  model_block,
  model_block_end,
  paper_block,
  paper_block_end,
  first_layer = 0x40
};

void begin_table(DxfTags& tags, std::string_view name, unsigned handle, int entries) {
  tags.text(0, "TABLE").text(2, name).handle(handle).owner(0).text(100, "AcDbSymbolTable").number(70, entries);
}

void begin_entry(DxfTags& tags, std::string_view type, unsigned handle, unsigned table, std::string_view subclass,
                 std::string_view name) {
  tags.text(0, type).handle(handle, type == "DIMSTYLE" ? 105 : 5).owner(table);
  tags.text(100, "AcDbSymbolTableRecord").text(100, subclass).text(2, name).number(70, 0);
}

void append_viewport(DxfTags& tags, const Bounds& extents) {
  tags.point(10, {0, 0}).point(11, {1, 1}).point(12, extents.centre());
  tags.number(40, extents.height() > 0 ? extents.height() : 1.0).number(41, 1.0);
}

void append_line_types(DxfTags& tags) {
  begin_table(tags, "LTYPE", ltype_table, 3);
  const std::pair<unsigned, std::string_view> line_types[] = {
      {by_block, "ByBlock"}, {by_layer, "ByLayer"}, {continuous, "Continuous"}};
  for (const auto& [handle, name] : line_types) {
    begin_entry(tags, "LTYPE", handle, ltype_table, "AcDbLinetypeTableRecord", name);
    tags.text(3, "").number(72, 65).number(73, 0).number(40, 0.0);
  }
  tags.text(0, "ENDTAB");
}

void append_layers(DxfTags& tags, const std::vector<DxfLayer>& layers) {
  begin_table(tags, "LAYER", layer_table, 1 + static_cast<int>(layers.size()));
  const auto append_layer = [&](unsigned handle, std::string_view name, int colour) {
    begin_entry(tags, "LAYER", handle, layer_table, "AcDbLayerTableRecord", name);
    tags.number(62, colour).text(6, "Continuous").handle(plot_style, 390);
  };
  append_layer(layer_zero, "0", 7);
  for (unsigned i = 0; i < layers.size(); ++i) append_layer(first_layer + i, layers[i].name, layers[i].colour);
  tags.text(0, "ENDTAB");
}

void append_block_records(DxfTags& tags) {
  begin_table(tags, "BLOCK_RECORD", record_table, 2);
  const std::pair<unsigned, std::string_view> spaces[] = {{DxfTags::model_space, "*Model_Space"},
                                                          {DxfTags::paper_space, "*Paper_Space"}};
  for (const auto& [handle, name] : spaces) {
    tags.text(0, "BLOCK_RECORD").handle(handle).owner(record_table);
    tags.text(100, "AcDbSymbolTableRecord").text(100, "AcDbBlockTableRecord").text(2, name).handle(0, 340);
  }
  tags.text(0, "ENDTAB");
}

void append_tables_r2000(DxfTags& tags, const std::vector<DxfLayer>& layers, const Bounds& extents) {
  tags.text(0, "SECTION").text(2, "TABLES");
  begin_table(tags, "VPORT", vport_table, 1);
  begin_entry(tags, "VPORT", vport, vport_table, "AcDbViewportTableRecord", "*Active");
  append_viewport(tags, extents);
  tags.text(0, "ENDTAB");
  append_line_types(tags);
  append_layers(tags, layers);
  begin_table(tags, "STYLE", style_table, 1);
  begin_entry(tags, "STYLE", style, style_table, "AcDbTextStyleTableRecord", "Standard");
  tags.number(40, 0.0).number(41, 1.0).number(50, 0.0).number(71, 0).number(42, 2.5).text(3, "txt").text(4, "");
  tags.text(0, "ENDTAB");
  begin_table(tags, "VIEW", view_table, 0);
  tags.text(0, "ENDTAB");
  begin_table(tags, "UCS", ucs_table, 0);
  tags.text(0, "ENDTAB");
  begin_table(tags, "APPID", appid_table, 1);
  begin_entry(tags, "APPID", appid, appid_table, "AcDbRegAppTableRecord", "ACAD");
  tags.text(0, "ENDTAB");
  begin_table(tags, "DIMSTYLE", dimstyle_table, 1);
  tags.text(100, "AcDbDimStyleTable").number(71, 0);
  begin_entry(tags, "DIMSTYLE", dimstyle, dimstyle_table, "AcDbDimStyleTableRecord", "Standard");
  tags.text(0, "ENDTAB");
  append_block_records(tags);
  tags.text(0, "ENDSEC");
}

void append_block(DxfTags& tags, std::string_view name, unsigned record, unsigned begin, unsigned end) {
  tags.text(0, "BLOCK").handle(begin).owner(record).text(100, "AcDbEntity").text(8, "0").text(100, "AcDbBlockBegin");
  tags.text(2, name).number(70, 0).point(10, {0, 0}, true).text(3, name).text(1, "");
  tags.text(0, "ENDBLK").handle(end).owner(record).text(100, "AcDbEntity").text(8, "0").text(100, "AcDbBlockEnd");
}

}  // namespace

void append_head_r12(DxfTags& tags, const std::vector<DxfLayer>& layers, const Bounds& extents) {
  append_header(tags, "AC1009", extents, false);
  tags.text(0, "SECTION").text(2, "TABLES");
  tags.text(0, "TABLE").text(2, "LTYPE").number(70, 1);
  tags.text(0, "LTYPE")
      .text(2, "CONTINUOUS")
      .number(70, 0)
      .text(3, "Solid line")
      .number(72, 65)
      .number(73, 0)
      .number(40, 0.0);
  tags.text(0, "ENDTAB").text(0, "TABLE").text(2, "LAYER").number(70, 1 + static_cast<int>(layers.size()));
  const auto append_layer = [&](std::string_view name, int colour) {
    tags.text(0, "LAYER").text(2, name).number(70, 0).number(62, colour).text(6, "CONTINUOUS");
  };
  append_layer("0", 7);
  for (const DxfLayer& layer : layers) append_layer(layer.name, layer.colour);
  tags.text(0, "ENDTAB").text(0, "ENDSEC");
}

void append_head_r2000(DxfTags& tags, const std::vector<DxfLayer>& layers, const Bounds& extents) {
  if (layers.size() > DxfTags::first_free - first_layer) throw std::logic_error("more layers than have handles");
  append_header(tags, "AC1015", extents, true);
  tags.text(0, "SECTION").text(2, "CLASSES").text(0, "ENDSEC");
  append_tables_r2000(tags, layers, extents);
  tags.text(0, "SECTION").text(2, "BLOCKS");
  append_block(tags, "*Model_Space", DxfTags::model_space, model_block, model_block_end);
  append_block(tags, "*Paper_Space", DxfTags::paper_space, paper_block, paper_block_end);
  tags.text(0, "ENDSEC");
}

void append_objects_r2000(DxfTags& tags) {
  tags.text(0, "SECTION").text(2, "OBJECTS");
  tags.text(0, "DICTIONARY").handle(root_dictionary).owner(0).text(100, "AcDbDictionary").number(281, 1);
  tags.text(3, "ACAD_GROUP").handle(group_dictionary, 350);
  tags.text(3, "ACAD_PLOTSTYLENAME").handle(plot_style_dictionary, 350);
  tags.text(0, "DICTIONARY").handle(group_dictionary).owner(root_dictionary).text(100, "AcDbDictionary").number(281, 1);
  tags.text(0, "ACDBDICTIONARYWDFLT").handle(plot_style_dictionary).owner(root_dictionary);
  tags.text(100, "AcDbDictionary").number(281, 1).text(3, "Normal").handle(plot_style, 350);
  tags.text(100, "AcDbDictionaryWithDefault").handle(plot_style, 340);
  tags.text(0, "ACDBPLACEHOLDER").handle(plot_style).owner(plot_style_dictionary);
  tags.text(0, "ENDSEC");
}

}  // namespace ordinatio::inline write
