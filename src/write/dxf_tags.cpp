#include "write/dxf_tags.h"

#include <charconv>

namespace ordinatio::inline write {
namespace {

constexpr int dxf_places = 4;  // 0.0001 mm
constexpr std::string_view line_end = "\r\n";

void append_hex(std::string& out, unsigned value, std::size_t least_digits = 1) {
  char digits[8];
  const char* end = std::to_chars(digits, digits + sizeof digits, value, 16).ptr;
  const auto count = static_cast<std::size_t>(end - digits);
  out.append(least_digits > count ? least_digits - count : 0, '0');
  for (const char* digit = digits; digit != end; ++digit)
    out += *digit >= 'a' ? static_cast<char>(*digit - 32) : *digit;
}

}  // namespace

void DxfTags::code(int code) {
  char digits[8];
  out_.append(digits, std::to_chars(digits, digits + sizeof digits, code).ptr);
  out_ += line_end;
}

DxfTags& DxfTags::text(int group, std::string_view value) {
  code(group);
  out_ += value;
  out_ += line_end;
  return *this;
}

DxfTags& DxfTags::number(int group, int value) { return text(group, std::to_string(value)); }

DxfTags& DxfTags::number(int group, double value) {
  code(group);
  append_fixed(out_, value, dxf_places);
  out_ += line_end;
  return *this;
}

DxfTags& DxfTags::point(int group, Point p, bool with_z) {
  number(group, p.x).number(group + 10, p.y);
  return with_z ? number(group + 20, 0.0) : *this;
}

DxfTags& DxfTags::point_after(std::string_view head, Point p, std::string_view between) {
  out_ += head;
  append_fixed(out_, p.x, dxf_places);
  out_ += between;
  append_fixed(out_, p.y, dxf_places);
  out_ += line_end;
  return *this;
}

DxfTags& DxfTags::handle(unsigned value, int group) {
  code(group);
  append_hex(out_, value);
  out_ += line_end;
  return *this;
}

DxfTags& DxfTags::hand_seed() {
  text(9, "$HANDSEED");
  code(5);
  hand_seed_at_ = out_.size();
  out_ += "00000000";
  out_ += line_end;
  return *this;
}

std::string DxfTags::take() && {
  if (hand_seed_at_ > 0) {
    std::string seed;
    append_hex(seed, next_handle_, 8);
    out_.replace(hand_seed_at_, 8, seed);
  }
  return std::move(out_);
}

}  // namespace ordinatio::inline write
