// Proves the structural checker, and the check that the program runs on its own files: sound R12 and R2000 files pass
// both; each damaged one is caught by those named beside it. Sources of the format's rules: dxf_structure.h; the damages are
// our own (own measurement).
#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>

#include "../unit/check/one_file.h"
#include "../unit/check/sheet_by_hand.h"
#include "check/check.h"
#include "dxf_structure.h"
#include "write/write.h"

using namespace ordinatio;

namespace {

enum class Version { r12, r2000, both };
enum class CaughtBy { structure, check, both };

/// `damage` returns the damaged text; a mutation that changes nothing is a slip in this table.
struct Mutation {
  const char* name;
  Version version;
  CaughtBy caught_by;
  std::function<std::string(std::string)> damage;
};

std::string with_crlf(const std::string& lines) {
  std::string text;
  for (const char c : lines) text += c == '\n' ? "\r\n" : std::string(1, c);
  return text;
}

/// Replaces the first occurrence; both are given with LF, the file has CR LF.
std::function<std::string(std::string)> first(const std::string& from, const std::string& to) {
  return [=](std::string text) {
    const std::string old = with_crlf(from);
    const std::size_t at = text.find(old);
    return at == std::string::npos ? text : text.replace(at, old.size(), with_crlf(to));
  };
}

std::function<std::string(std::string)> every(const std::string& from, const std::string& to) {
  return [=](std::string text) {
    const std::string old = with_crlf(from), fresh = with_crlf(to);
    for (std::size_t at = 0; (at = text.find(old, at)) != std::string::npos; at += fresh.size()) {
      text.replace(at, old.size(), fresh);
    }
    return text;
  };
}

/// Cuts out everything from `from` up to, not with, the next `to`.
std::function<std::string(std::string)> cut(const std::string& from, const std::string& to) {
  return [=](std::string text) {
    const std::size_t start = text.find(with_crlf(from));
    if (start == std::string::npos) return text;
    const std::size_t end = text.find(with_crlf(to), start + from.size());
    return text.erase(start, end == std::string::npos ? end : end - start);
  };
}

std::string without_cr(std::string text) {
  std::erase(text, '\r');
  return text;
}

/// Writes the sheet with all its parts moved: a sound file of another drawing.
std::string written_moved(const Transform& by, DxfVersion version) {
  Sheet sheet = sheet_by_hand();
  for (SheetPart& part : sheet.parts) part.path = transformed(part.path, by);
  return write_dxf(sheet, {version, curve_tolerance});
}

std::string written(DxfVersion version) { return write_dxf(sheet_by_hand(), {version, curve_tolerance}); }

/// The same, with one part's path changed.
std::string written_changed(DxfVersion version, std::size_t part, const std::function<Path(const Path&)>& change) {
  Sheet sheet = sheet_by_hand();
  sheet.parts[part].path = change(sheet.parts[part].path);
  return write_dxf(sheet, {version, curve_tolerance});
}

DxfVersion version_of(const std::string& text) {
  return text.find("AC1015") != std::string::npos ? DxfVersion::r2000 : DxfVersion::r12;
}

std::function<std::string(std::string)> moved_by(const Transform& by) {
  return [=](const std::string& text) { return written_moved(by, version_of(text)); };
}

Path without_closing(const Path& path) {
  Path open;
  open.move_to(path.points()[0]);
  for (std::size_t i = 1; i < path.points().size(); ++i) open.line_to(path.points()[i]);
  return open;
}

const Version r12 = Version::r12, r2000 = Version::r2000, both_versions = Version::both;
const CaughtBy structure = CaughtBy::structure, check = CaughtBy::check, both = CaughtBy::both;

const Mutation mutations[] = {
    // ---- the text ----
    {"line ends of LF alone", both_versions, structure, without_cr},
    {"cut off in the middle", both_versions, both, [](std::string text) { return text.substr(0, text.size() / 2); }},
    {"cut off before EOF", both_versions, both, first("0\nEOF\n", "")},
    {"something after EOF", both_versions, both, [](std::string text) { return text + "0\r\nEOF\r\n"; }},
    {"a byte-order mark", both_versions, both, [](const std::string& text) { return "\xEF\xBB\xBF" + text; }},
    {"a decimal comma", both_versions, both, first("10\n16.0000\n", "10\n16,0000\n")},
    {"an exponent", both_versions, both, first("10\n16.0000\n", "10\n1.6000e1\n")},
    {"a number that is none", both_versions, both, first("10\n16.0000\n", "10\nnan\n")},
    {"an infinite number", both_versions, both, first("10\n16.0000\n", "10\ninf\n")},
    {"fewer places than four", both_versions, structure, first("10\n16.0000\n", "10\n16.0\n")},
    {"a group code that is none", both_versions, both, first("10\n16.0000\n", "1x\n16.0000\n")},
    {"a value left out", both_versions, both, first("10\n16.0000\n", "10\n")},
    // ---- the header ----
    {"inches", both_versions, both, first("$INSUNITS\n70\n4\n", "$INSUNITS\n70\n1\n")},
    {"imperial", both_versions, both, first("$MEASUREMENT\n70\n1\n", "$MEASUREMENT\n70\n0\n")},
    {"units not set", both_versions, both, first("9\n$INSUNITS\n70\n4\n", "")},
    {"feet and inches", both_versions, both, first("$LUNITS\n70\n2\n", "$LUNITS\n70\n4\n")},
    {"extents that are not true", both_versions, both, first("$EXTMIN\n10\n10.0000\n", "$EXTMIN\n10\n0.0000\n")},
    {"extents left out", both_versions, both, cut("9\n$EXTMAX\n", "9\n")},
    {"another version", both_versions, both, first("$ACADVER\n1\nAC10", "$ACADVER\n1\nAC20")},
    {"no header", both_versions, both, cut("0\nSECTION\n2\nHEADER\n", "0\nSECTION\n2\nTABLES\n")},
    // ---- layers ----
    {"layers not declared", r12, both, cut("0\nTABLE\n2\nLAYER\n", "0\nTABLE\n")},
    {"one layer not declared", r12, both, cut("0\nLAYER\n2\nSCORE\n", "0\nLAYER\n")},
    {"one layer not declared", r2000, both, cut("0\nLAYER\n5\n41\n", "0\nLAYER\n")},
    {"a layer in lower case", both_versions, both, every("ENGRAVE\n", "engrave\n")},
    {"a layer with a customer's name", both_versions, both, every("ENGRAVE\n", "Zo\xC3\xAB\n")},
    {"a layer of 32 letters", both_versions, both, every("\nENGRAVE\n", "\nABCDEFGHIJKLMNOPQRSTUVWXYZ012345\n")},
    {"a layer without a colour", r12, both, first("2\nENGRAVE\n70\n0\n62\n", "2\nENGRAVE\n70\n0\n60\n")},
    {"a line type not declared", both_versions, structure, cut("0\nLTYPE\n", "0\nENDTAB\n")},
    {"a table that does not end", both_versions, structure,
     first("0\nENDTAB\n0\nTABLE\n2\nLAYER\n", "0\nTABLE\n2\nLAYER\n")},
    // ---- polylines ----
    {"SEQEND left out", r12, both, first("0\nSEQEND\n8\nENGRAVE\n", "")},
    {"the last SEQEND left out", r12, both, first("0\nSEQEND\n8\nGUIDE\n", "")},
    {"no word that vertices follow", r12, structure, first("66\n1\n", "")},
    {"a closing vertex said twice", r12, both,
     first("0\nSEQEND\n8\nSCORE\n", "0\nVERTEX\n8\nSCORE\n10\n134.0000\n20\n16.0000\n0\nSEQEND\n8\nSCORE\n")},
    {"a closing vertex said twice", r2000, both,
     first(
         "8\nSCORE\n100\nAcDbPolyline\n90\n4\n70\n1\n",
         "8\nSCORE\n100\nAcDbPolyline\n90\n5\n70\n1\n10\n134.0000\n20\n16.0000\n10\n134.0000\n20\n64.0000\n10\n106."
         "0000\n"
         "20\n64.0000\n10\n106.0000\n20\n16.0000\n10\n134.0000\n20\n16.0000\n0\nLWPOLYLINE\n8\nSCORE\n90\n4\n70\n1\n")},
    {"a bulge", both_versions, both, first("10\n16.0000\n20\n16.0000\n", "10\n16.0000\n20\n16.0000\n42\n0.5000\n")},
    {"a vertex on another layer", r12, both, first("0\nVERTEX\n8\nENGRAVE\n", "0\nVERTEX\n8\nSCORE\n")},
    {"a contour left open", r12, check,
     first("8\nSCORE\n66\n1\n10\n0.0000\n20\n0.0000\n30\n0.0000\n70\n1\n",
           "8\nSCORE\n66\n1\n10\n0.0000\n20\n0.0000\n30\n0.0000\n70\n0\n")},
    {"a contour left open", r2000, check,
     first("8\nSCORE\n100\nAcDbPolyline\n90\n4\n70\n1\n", "8\nSCORE\n100\nAcDbPolyline\n90\n4\n70\n0\n")},
    {"a vertex too few", r2000, both,
     first("8\nSCORE\n100\nAcDbPolyline\n90\n4\n", "8\nSCORE\n100\nAcDbPolyline\n90\n5\n")},
    {"an entity of another kind", both_versions, both,
     first("2\nENTITIES\n", "2\nENTITIES\n0\nLINE\n8\nENGRAVE\n10\n16.0000\n20\n16.0000\n11\n20.0000\n21\n20.0000\n")},
    {"entities of the other version", r12, both, every("\nVERTEX\n", "\nLWPOLYLINE\n")},
    // ---- the drawing ----
    {"mirrored", both_versions, check, moved_by({-1, 0, 0, 1, 200, 0})},
    {"upside down", both_versions, check, moved_by({1, 0, 0, -1, 0, 120})},
    {"turned by a quarter", both_versions, check, moved_by({0, 1, -1, 0, 120, 0})},
    {"25.4 times too large", both_versions, check, moved_by(scale_by(25.4))},
    {"25.4 times too small", both_versions, check, moved_by(scale_by(1 / 25.4))},
    {"in pixels", both_versions, check, moved_by(scale_by(96 / 25.4))},
    {"moved by 0.05 mm", both_versions, check, moved_by(shift_by({0.05, 0}))},
    {"a curve cut to two chords", both_versions, check,
     [](const std::string& text) {
       return write_dxf(sheet_by_hand(), {version_of(text), 5});
     }},
    {"a contour left open", both_versions, check,
     [](const std::string& text) { return written_changed(version_of(text), 4, without_closing); }},
    {"a hole turned round", both_versions, check,
     [](const std::string& text) { return written_changed(version_of(text), 0, reversed); }},
    {"an item's polyline left out", r12, check,
     [](std::string text) {
       const std::string begin = with_crlf("0\nPOLYLINE\n8\nSCORE\n"), end = with_crlf("0\nSEQEND\n8\nSCORE\n");
       const std::size_t from = text.find(begin);
       return text.erase(from, text.find(end) + end.size() - from);
     }},
    // ---- R2000 ----
    {"OBJECTS left out", r2000, both, cut("0\nSECTION\n2\nOBJECTS\n", "0\nEOF\n")},
    {"CLASSES left out", r2000, structure, cut("0\nSECTION\n2\nCLASSES\n", "0\nSECTION\n2\nTABLES\n")},
    {"BLOCKS left out", r2000, structure, cut("0\nSECTION\n2\nBLOCKS\n", "0\nSECTION\n2\nENTITIES\n")},
    {"table BLOCK_RECORD left out", r2000, structure, cut("0\nTABLE\n2\nBLOCK_RECORD\n", "0\nENDSEC\n")},
    {"table APPID left out", r2000, structure, cut("0\nTABLE\n2\nAPPID\n", "0\nTABLE\n2\nDIMSTYLE\n")},
    {"line type ByBlock left out", r2000, structure, cut("0\nLTYPE\n5\nB\n", "0\nLTYPE\n5\nC\n")},
    {"*Paper_Space under another name", r2000, structure, every("*Paper_Space\n", "*Paper_Spice\n")},
    {"a handle twice", r2000, structure, first("5\n101\n", "5\n100\n")},
    {"a handle left out", r2000, structure, first("0\nLWPOLYLINE\n5\n100\n", "0\nLWPOLYLINE\n")},
    {"a handle that is no hex", r2000, structure, first("5\n101\n", "5\n10G\n")},
    {"an owner that is not there", r2000, structure, first("5\n101\n330\n1F\n", "5\n101\n330\nFFF\n")},
    {"an entity in paper space", r2000, structure, first("5\n101\n330\n1F\n", "5\n101\n330\n1E\n")},
    {"$HANDSEED below a handle", r2000, structure, cut("9\n$HANDSEED\n", "9\n$INSBASE\n")},
    {"the dimension style's handle in group 5", r2000, structure, first("0\nDIMSTYLE\n105\n", "0\nDIMSTYLE\n5\n")},
    {"the root dictionary not first", r2000, structure,
     first("2\nOBJECTS\n", "2\nOBJECTS\n0\nACDBPLACEHOLDER\n5\nFE\n330\n12\n")},
    {"ACAD_GROUP left out", r2000, structure, first("3\nACAD_GROUP\n", "3\nACAD_GROUPS\n")},
    {"a class marker left out", r2000, structure, first("100\nAcDbPolyline\n", "")},
};

std::string joined(const std::vector<std::string>& faults) {
  std::string text;
  for (const std::string& fault : faults) text += fault + "; ";
  return text;
}

void require_caught(const Mutation& mutation, DxfVersion version) {
  const std::string sound = written(version), damaged_text = mutation.damage(sound);
  const std::vector<std::string> unsound = outside::dxf_structure_faults(damaged_text);
  const MaybeFault fault = check_dxf(damaged_text, sheet_by_hand());
  INFO(mutation.name << (version == DxfVersion::r12 ? ", R12" : ", R2000") << "\nstructure: " << joined(unsound)
                     << "\ncheck: " << (fault ? describe(*fault) : ""));
  const bool is_changed = damaged_text != sound;  // the texts are too long to be shown
  CHECK(is_changed);
  CHECK(unsound.empty() == (mutation.caught_by == check));
  CHECK(fault.has_value() == (mutation.caught_by != structure));
}

}  // namespace

TEST_CASE("sound DXF files pass the structural checker and the program's own check") {
  for (const DxfVersion version : {DxfVersion::r12, DxfVersion::r2000}) {
    const std::string text = written(version);
    const MaybeFault fault = check_dxf(text, sheet_by_hand());
    INFO(joined(outside::dxf_structure_faults(text)) << (fault ? describe(*fault) : ""));
    CHECK(outside::dxf_structure_faults(text).empty());
    CHECK_FALSE(fault);
  }
}

TEST_CASE("each damaged DXF file is caught") {
  for (const Mutation& mutation : mutations) {
    if (mutation.version != Version::r2000) require_caught(mutation, DxfVersion::r12);
    if (mutation.version != Version::r12) require_caught(mutation, DxfVersion::r2000);
  }
}
