#include "check/svg_scanner.h"

#include <algorithm>
#include <array>
#include <cstring>

namespace ordinatio {
namespace {

bool is_blank(char c) { return c == ' ' || c == '\n' || c == '\r' || c == '\t'; }

bool is_name(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_' ||
         c == ':' || c == '.';
}

/// XML 1.0, section 4.6, and character references.
bool is_reference(std::string_view text) {
  constexpr std::array<std::string_view, 6> known{"&amp;", "&lt;", "&gt;", "&quot;", "&apos;", "&#"};
  return std::any_of(known.begin(), known.end(), [&](std::string_view name) { return text.starts_with(name); });
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

void SvgScanner::pass_text(std::string_view name) {
  if (!opens(name)) return;
  allow({});
  read_tag(Between::text);
  close(name);
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
  if (what == Between::blanks) {
    pass_blanks();
    if (at_ < text_.size() && text_[at_] != '<') {
      count_lines(at_);
      refuse("text stands between the elements");
    }
    return;
  }
  for (; at_ < text_.size() && text_[at_] != '<'; ++at_) {
    if (text_[at_] == '&' && !is_reference(text_.substr(at_))) refuse("an & in the text stands for nothing");
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

}  // namespace ordinatio
