#include "check/svg_scanner.h"

#include <algorithm>
#include <cstring>
#include <iterator>
#include <utility>

namespace ordinatio::inline check {
namespace {

bool is_blank(char c) { return c == ' ' || c == '\n' || c == '\r' || c == '\t'; }

bool is_name(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_' ||
         c == ':' || c == '.';
}

/// XML 1.0, section 4.6; of no more use are made in a file of ours.
constexpr std::pair<std::string_view, char> entities[] = {
    {"&amp;", '&'}, {"&lt;", '<'}, {"&gt;", '>'}, {"&quot;", '"'}, {"&apos;", '\''}};

/// Bytes of the UTF-8 sequence that begins here (RFC 3629); 0 when it is not well formed, or no character of XML 1.0.
std::size_t character_length(std::string_view text) {
  const auto at = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U; };
  const auto follows = [&](std::size_t i) { return (at(i) & 0xC0U) == 0x80U; };
  const unsigned lead = at(0);
  if (lead < 0x80) return lead >= 0x20 || lead == '\t' || lead == '\n' || lead == '\r' ? 1 : 0;
  if (lead >= 0xC2 && lead <= 0xDF) return follows(1) ? 2 : 0;
  if (lead >= 0xE0 && lead <= 0xEF) {
    const bool overlong = lead == 0xE0 && at(1) < 0xA0, surrogate = lead == 0xED && at(1) > 0x9F;
    const bool not_xml = lead == 0xEF && at(1) == 0xBF && at(2) >= 0xBE;  // U+FFFE, U+FFFF
    return follows(1) && follows(2) && !overlong && !surrogate && !not_xml ? 3 : 0;
  }
  if (lead >= 0xF0 && lead <= 0xF4) {
    const bool overlong = lead == 0xF0 && at(1) < 0x90, beyond = lead == 0xF4 && at(1) > 0x8F;
    return follows(1) && follows(2) && follows(3) && !overlong && !beyond ? 4 : 0;
  }
  return 0;
}

}  // namespace

SvgScanner::SvgScanner(std::string_view text) : text_(text) {
  if (text_.starts_with("<?xml ")) {
    const std::size_t end = text_.find("?>");
    if (end == std::string_view::npos) refuse("the XML declaration does not end");
    at_ = end + 2;
  }
  read_tag(Between::blanks);
}

void SvgScanner::refuse(const std::string& what) const { throw Difference{what, tag_.line}; }

void SvgScanner::next() { read_tag(Between::blanks); }

bool SvgScanner::opens(std::string_view name) const {
  return !ended_ && tag_.kind == SvgTag::Kind::opening && tag_.name == name;
}

void SvgScanner::close(std::string_view name) {
  if (ended_) refuse("the file ends inside <" + std::string(name) + ">");
  if (tag_.kind != SvgTag::Kind::closing || tag_.name != name) {
    refuse("<" + std::string(tag_.name) + "> stands where </" + std::string(name) + "> should");
  }
  next();
}

std::optional<std::string> SvgScanner::take_text(std::string_view name) {
  if (!opens(name)) return std::nullopt;
  allow({});
  const std::size_t start = at_;
  read_tag(Between::text);
  std::string text = resolved(text_.substr(start, text_.find('<', start) - start));
  close(name);
  return text;
}

std::string SvgScanner::resolved(std::string_view text) const {
  std::string out;
  while (!text.empty()) {
    if (text.front() == '&') {
      const auto found =
          std::ranges::find_if(entities, [&](const auto& entity) { return text.starts_with(entity.first); });
      if (found == std::end(entities)) refuse("an & in the text stands for nothing");
      out += found->second;
      text.remove_prefix(found->first.size());
    } else {
      const std::size_t length = character_length(text);
      if (length == 0) refuse("the text holds what no XML file may: it is not UTF-8, or a control character");
      out += text.substr(0, length);
      text.remove_prefix(length);
    }
  }
  return out;
}

std::string_view SvgScanner::value(std::string_view name) const {
  for (const SvgAttribute& attribute : tag_.attributes) {
    if (attribute.name == name) return attribute.value;
  }
  refuse("<" + std::string(tag_.name) + "> has no " + std::string(name));
}

void SvgScanner::allow(std::initializer_list<std::string_view> names) const {
  for (const SvgAttribute& attribute : tag_.attributes) {
    if (std::find(names.begin(), names.end(), attribute.name) == names.end()) {
      refuse("<" + std::string(tag_.name) +
             "> has an attribute that plain files do not have: " + std::string(attribute.name));
    }
  }
}

void SvgScanner::read_tag(Between before) {
  pass_until_tag(before);
  count_lines(at_);
  if (at_ == text_.size()) {
    ended_ = true;
    return;
  }
  ++at_;  // <
  const bool closing = at_ < text_.size() && text_[at_] == '/';
  if (closing) ++at_;
  tag_.kind = closing ? SvgTag::Kind::closing : SvgTag::Kind::opening;
  tag_.name = read_name();
  tag_.attributes.clear();
  read_attributes();
  if (!closing && at_ < text_.size() && text_[at_] == '/') {
    tag_.kind = SvgTag::Kind::empty;
    ++at_;
  }
  if (at_ == text_.size() || text_[at_] != '>' || (closing && !tag_.attributes.empty())) {
    refuse("a tag is not well formed");
  }
  ++at_;
}

void SvgScanner::pass_until_tag(Between what) {
  if (what == Between::text) {
    at_ = std::min(text_.find('<', at_), text_.size());
    return;
  }
  pass_blanks();
  if (at_ < text_.size() && text_[at_] != '<') {
    count_lines(at_);
    refuse("text stands between the elements");
  }
}

void SvgScanner::read_attributes() {
  while (true) {
    const std::size_t before = at_;
    pass_blanks();
    if (at_ == text_.size() || !is_name(text_[at_])) return;
    if (at_ == before) refuse("a tag is not well formed");
    const std::string_view name = read_name();
    if (!text_.substr(at_).starts_with("=\"")) refuse("an attribute is not well formed");
    const std::size_t start = at_ + 2, end = text_.find('"', start);
    if (end == std::string_view::npos) refuse("an attribute does not end");
    for (const SvgAttribute& other : tag_.attributes) {
      if (other.name == name) refuse("an attribute is given twice");
    }
    tag_.attributes.push_back({name, text_.substr(start, end - start)});
    at_ = end + 1;
  }
}

std::string_view SvgScanner::read_name() {
  const std::size_t start = at_;
  while (at_ < text_.size() && is_name(text_[at_])) ++at_;
  if (at_ == start) refuse("markup that plain files do not have");
  return text_.substr(start, at_ - start);
}

void SvgScanner::pass_blanks() {
  while (at_ < text_.size() && is_blank(text_[at_])) ++at_;
}

void SvgScanner::count_lines(std::size_t to) {
  while (counted_ < to) {
    const void* found = std::memchr(text_.data() + counted_, '\n', to - counted_);
    if (found == nullptr) break;
    counted_ = static_cast<std::size_t>(static_cast<const char*>(found) - text_.data()) + 1;
    ++tag_.line;
  }
  counted_ = std::max(counted_, to);
}

}  // namespace ordinatio::inline check
