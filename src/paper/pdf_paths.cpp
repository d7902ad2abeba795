#include "paper/pdf_paths.h"

#define POINTERHOLDER_TRANSITION 4  // only std::shared_ptr, as the library asks its users to say

#include <zlib.h>

#include <stdexcept>

// Clang 14 takes qpdf 11.3's JSON.hh for ill-formed C++20 (a vector of a class within that class). It is not used here:
// a name in its place is enough.
#define JSON_HH
class JSON;
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFWriter.hh>

#include "base/base.h"
#include "base/digits.h"

namespace ordinatio::inline paper {
namespace {

constexpr double units_per_mm = 1e4;
// Points are 25.4/72 mm. In two steps: readers may keep no more than five decimals of a number (ISO 32000-1, annex C.2).
constexpr const char* to_units =
    "q\n2.83464566929 0 0 2.83464566929 0 0 cm\n0.01 0 0 0.01 0 0 cm\n0.01 0 0 0.01 0 0 cm\n";

/// In zlib's fastest way: a tenth larger than in its usual one, in a third of the time.
std::string deflated(const std::string& bytes) {
  uLongf size = compressBound(static_cast<uLong>(bytes.size()));
  std::string packed(size, '\0');
  const int status = compress2(reinterpret_cast<Bytef*>(packed.data()), &size,
                               reinterpret_cast<const Bytef*>(bytes.data()), static_cast<uLong>(bytes.size()), 1);
  if (status != Z_OK) throw std::runtime_error("a page's content could not be packed");
  packed.resize(size);
  return packed;
}

}  // namespace

void PathContent::append(double mm) {
  append_number(out_, mm * units_per_mm, 0);
  out_ += ' ';
}

void PathContent::append(Point p) {
  char text[2 * (most_digits + 1)];
  char* at = put_number(text, p.x * units_per_mm, 0);
  *at++ = ' ';
  at = put_number(at, p.y * units_per_mm, 0);
  *at++ = ' ';
  out_.append(text, at);
}

void PathContent::append_path(const Path& path) {
  const Point* next = path.points().data();
  Point here;
  for (const Path::Verb verb : path.verbs()) {
    switch (verb) {
      case Path::Verb::move:
        append(here = *next++);
        out_ += "m\n";
        break;
      case Path::Verb::line:
        append(here = *next++);
        out_ += "l\n";
        break;
      case Path::Verb::quad:
        append(here + 2.0 / 3 * (next[0] - here));
        append(next[1] + 2.0 / 3 * (next[0] - next[1]));
        append(here = next[1]);
        out_ += "c\n";
        next += 2;
        break;
      case Path::Verb::cubic:
        append(next[0]);
        append(next[1]);
        append(here = next[2]);
        out_ += "c\n";
        next += 3;
        break;
      case Path::Verb::close:
        out_ += "h\n";
    }
  }
}

void PathContent::append_colour(Colour colour, const char* name) {
  for (const std::uint8_t channel : {colour.red, colour.green, colour.blue}) {
    append_number(out_, channel / 255.0, 6);
    out_ += ' ';
  }
  out_ += name;
}

void PathContent::fill(const Path& path, Colour colour) {
  append_colour(colour, "rg\n");
  append_path(path);
  out_ += "f\n";
}

void PathContent::stroke(const Path& path, const Pen& pen) {
  append_colour(pen.colour, "RG\n");
  append(pen.width);
  out_ += "w\n[";
  for (const double dash : pen.dashes) append(dash);
  out_ += "] 0 d\n";
  append_path(path);
  out_ += "S\n";
}

std::string PathContent::bytes() const {
  // Of no element: it is a picture, and its words stand beside it.
  return "/Artifact BMC\n" + (to_units + out_) + "Q\nEMC\n";
}

std::string with_paths(const std::string& pdf, std::span<const PathContent> pages) {
  QPDF document;
  document.processMemoryFile("the words", pdf.data(), pdf.size());
  std::vector<QPDFObjectHandle> found = document.getAllPages();
  for (std::size_t i = 0; i < pages.size(); ++i) {
    if (pages[i].empty()) continue;
    QPDFObjectHandle stream = QPDFObjectHandle::newStream(&document);
    stream.replaceStreamData(deflated(pages[i].bytes()), QPDFObjectHandle::newName("/FlateDecode"),
                             QPDFObjectHandle::newNull());
    found.at(i).addPageContents(stream, true);
  }
  QPDFObjectHandle root = document.getRoot();
  if (root.hasKey("/StructTreeRoot")) root.replaceKey("/MarkInfo", QPDFObjectHandle::parse("<< /Marked true >>"));
  root.replaceKey("/Lang", QPDFObjectHandle::newString("en"));
  root.replaceKey("/ViewerPreferences", QPDFObjectHandle::parse("<< /DisplayDocTitle true >>"));
  QPDFWriter writer(document);
  writer.setOutputMemory();
  writer.setDeterministicID(true);  // no clock
  writer.write();
  const auto bytes = writer.getBufferSharedPointer();
  return {reinterpret_cast<const char*>(bytes->getBuffer()), bytes->getSize()};
}

}  // namespace ordinatio::inline paper
