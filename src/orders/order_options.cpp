#include "orders/order_options.h"

#include <unicode/uchar.h>
#include <unicode/utf8.h>

#include <algorithm>
#include <charconv>
#include <set>

#include "base/utf8.h"
#include "cleaning/entities.h"
#include "csv/shown.h"
#include "orders/order_rows.h"

namespace ordinatio::inline orders {
namespace {

/// A character as it stands in a cell, plainly or as an entity.
struct Sign {
  char32_t character = 0;
  std::size_t length = 1;  // bytes
  bool entity = false;
};

/// What `#233` or `eacute` stands for.
std::optional<char32_t> referenced(std::string_view name) {
  if (!name.starts_with('#')) return named_character(name);
  name.remove_prefix(1);
  const bool hexadecimal = name.starts_with('x') || name.starts_with('X');
  if (hexadecimal) name.remove_prefix(1);
  std::uint32_t number = 0;
  const auto [end, error] = std::from_chars(name.data(), name.data() + name.size(), number, hexadecimal ? 16 : 10);
  if (error != std::errc() || end != name.data() + name.size() || number > 0x10FFFF) return std::nullopt;
  return number;
}

Sign sign_at(std::string_view text, std::size_t at) {
  constexpr std::size_t longest_reference = 12;  // bytes: `&thetasym;`, `&#x10FFFF;`
  if (text[at] == '&') {
    const std::size_t length = text.substr(at, longest_reference).find(';');
    const auto character =
        length == std::string_view::npos ? std::nullopt : referenced(text.substr(at + 1, length - 1));
    if (character) return {*character, length + 1, true};
  }
  std::size_t next = at;
  const char32_t character = read_character(text, next).value_or(U'\uFFFD');
  return {character, next - at, false};
}

bool is_line_end(char32_t c) { return c == '\n' || c == '\r'; }
bool is_space(char32_t c) { return c == ' ' || c == '\t' || c == 0xA0 || c == 0x3000 || is_line_end(c); }
bool parts_options(const Sign& sign) {
  return !sign.entity && (sign.character == '|' || sign.character == ';' || sign.character == ',');
}
bool is_colon(const Sign& sign) { return sign.character == ':' && !sign.entity; }

/// Puts a character behind a key; spaces wait until something stands behind them.
void append_folded(std::u32string& key, char32_t character, bool& space_waits) {
  if (is_space(character)) {
    space_waits = !key.empty();
    return;
  }
  if (space_waits) key += U' ';
  space_waits = false;
  key += static_cast<char32_t>(u_foldCase(static_cast<UChar32>(character), U_FOLD_CASE_DEFAULT));
}

/// Goes over a cell and keeps what lies between one word and the next.
class Segments {
 public:
  std::vector<SegmentStart> find(std::string_view cell) {
    for (std::size_t at = 0; at < cell.size();) {
      const Sign sign = sign_at(cell, at);
      if (parts_options(sign)) {
        words_end_ = separator_ ? separator_end_ : words_end_;
        separator_ = sign.character, separator_end_ = at + 1;
        line_ended_ = false;
      } else if (!sign.entity && is_line_end(sign.character)) {
        line_ended_ = true;
      } else if (sign.entity || !is_space(sign.character)) {
        take_word(at, at + sign.length);
      }
      at += sign.length;
    }
    return std::move(starts_);
  }

 private:
  void take_word(std::size_t at, std::size_t end) {
    if (separator_ || line_ended_) {
      // A comma at the end of a line is the customer's; `;` and `|` there are the export's.
      const bool comma_stays = separator_ == U',' && line_ended_;
      starts_.push_back({at, comma_stays ? separator_end_ : words_end_, separator_ == U';' || separator_ == U'|'});
    }
    separator_.reset(), line_ended_ = false;
    words_end_ = end;
  }

  std::vector<SegmentStart> starts_;
  std::size_t words_end_ = 0;          // behind what is neither space nor the last separator
  std::optional<char32_t> separator_;  // the last one since then
  std::size_t separator_end_ = 0;
  bool line_ended_ = true;  // since that one; a cell's start is as good
};

bool is_of_words(const Sign& sign) {
  constexpr std::u32string_view joints = U"-'’/&";
  const auto code = static_cast<UChar32>(sign.character);
  return u_isalpha(code) || (U_GET_GC_MASK(code) & U_GC_M_MASK) != 0 ||
         joints.find(sign.character) != std::u32string_view::npos;
}

bool is_number(std::string_view word) {
  return !word.empty() && std::all_of(word.begin(), word.end(), [](char c) { return c >= '0' && c <= '9'; });
}

bool is_capital(char32_t character) {
  const auto code = static_cast<UChar32>(character);
  return u_isupper(code) || u_istitle(code);
}

/// `Oak box` of `Oak box: yes`: up to four words and perhaps a number, before a colon with nothing or a space behind
/// it. Empty where there is none.
std::string_view label_in_any_case(std::string_view cell, std::size_t at) {
  constexpr std::size_t most_words = 4;
  const std::size_t start = at;
  std::size_t words = 0;
  const auto skip_spaces = [&] {
    for (Sign sign; at < cell.size() && is_space((sign = sign_at(cell, at)).character); at += sign.length) {
      if (is_line_end(sign.character)) return;
    }
  };
  const auto skip = [&](auto holds) {
    const std::size_t begin = at;
    for (Sign sign; at < cell.size() && holds(sign = sign_at(cell, at)); at += sign.length) continue;
    return at > begin;
  };
  while (words < most_words && skip(is_of_words)) ++words, skip_spaces();
  if (skip([](const Sign& sign) { return sign.character >= '0' && sign.character <= '9'; })) skip_spaces();
  if (at == cell.size() || !is_colon(sign_at(cell, at))) return {};
  const bool ends = at + 1 == cell.size() || is_space(sign_at(cell, at + 1).character);
  return ends ? trimmed(cell.substr(start, at - start)) : std::string_view();
}

/// The same, the first word with a capital.
std::string_view seeming_label(std::string_view cell, std::size_t at) {
  return is_capital(sign_at(cell, at).character) ? label_in_any_case(cell, at) : std::string_view();
}

bool is_open_ended(std::string_view text) {
  Sign last;
  for (std::size_t at = 0; at < text.size(); at += last.length) last = sign_at(text, at);
  return parts_options(last);
}

}  // namespace

std::u32string label_key(std::string_view label) {
  std::u32string key;
  bool space_waits = false;
  for (std::size_t at = 0; at < label.size();) {
    const Sign sign = sign_at(label, at);
    append_folded(key, sign.character, space_waits);
    at += sign.length;
  }
  return key;
}

std::vector<SeemingLabel> seeming_labels(std::string_view cell) {
  std::vector<SeemingLabel> labels;
  for (const SegmentStart& start : Segments().find(cell)) {
    const std::string_view label = label_in_any_case(cell, start.at);
    if (label.empty()) continue;
    const std::size_t bare = label.find_last_not_of("0123456789");  // a label has letters
    if (bare == std::string_view::npos) continue;
    const bool begins = trimmed(cell.substr(0, start.at)).empty();
    labels.push_back({label_key(label.substr(0, bare + 1)), std::string(label), begins, start.hard});
  }
  return labels;
}

OptionsReader::OptionsReader(const OptionLabels& labels, const std::vector<std::string>& choices) {
  const std::pair<const std::vector<std::string>*, Kind> lists[] = {
      {&labels.text, Kind::text}, {&labels.note, Kind::note},   {&labels.design, Kind::design},
      {&choices, Kind::choice},   {&labels.other, Kind::other}, {&labels.words, Kind::word}};
  for (const auto& [list, kind] : lists) {
    for (const std::string& label : *list) {
      const std::u32string key = label_key(label);
      longest_ = std::max(longest_, key.size());
      kinds_.emplace(key, kind);
    }
  }
  if (labels.used()) first_text_ = labels.text.front();
}

std::optional<OptionsReader::Entry> OptionsReader::label_at(std::string_view cell, std::size_t at) const {
  constexpr std::size_t number_room = 5;  // a space and up to four digits
  std::u32string key;
  bool space_waits = false;
  std::size_t end = at;
  for (Sign sign; end < cell.size() && !is_colon(sign = sign_at(cell, end)); end += sign.length) {
    if (is_line_end(sign.character) || key.size() > longest_ + number_room) return std::nullopt;
    append_folded(key, sign.character, space_waits);
  }
  if (end == cell.size()) return std::nullopt;
  const std::string_view label = trimmed(cell.substr(at, end - at));
  Entry entry{Kind::other, {}, std::string(label), std::nullopt, end + 1, cell.size()};
  auto known = kinds_.find(key);
  if (known == kinds_.end()) {
    const std::size_t gap = key.rfind(U' ');
    const std::size_t digits = gap == std::u32string::npos ? 0 : key.size() - gap - 1;
    if (digits == 0 || digits >= number_room || digits > label.size()) return std::nullopt;
    const std::string_view number = label.substr(label.size() - digits);
    if (!is_number(number)) return std::nullopt;
    known = kinds_.find(key.substr(0, gap));
    std::size_t value = 0;
    std::from_chars(number.data(), number.data() + number.size(), value);
    entry.number = value;
  }
  if (known == kinds_.end()) return std::nullopt;
  entry.kind = known->second, entry.key = known->first;
  return entry;
}

Fault OptionsReader::unknown_label(std::string_view label) {
  return {
      shown(label) + " looks like an option that shop.toml does not name", "",
      "what stands there may be part of another option, or an option of its own",
      "Name it in shop.toml under [orders.labels]: in other, if it is to be passed over, or in words, if it is to be "
      "engraved as it stands"};
}

Result<std::vector<OptionsReader::Entry>> OptionsReader::find_entries(std::string_view cell) const {
  std::vector<Entry> entries;
  std::size_t words_before = 0;  // bytes
  for (const SegmentStart& start : Segments().find(cell)) {
    if (!entries.empty() && start.at < entries.back().begin) continue;  // inside a label that holds a comma
    std::optional<Entry> entry = label_at(cell, start.at);
    if (entry && entry->kind != Kind::word) {
      entries.empty() ? words_before = start.before : entries.back().end = std::max(start.before, entries.back().begin);
      entries.push_back(*std::move(entry));
    } else if (const auto label = seeming_label(cell, start.at); !entry && !label.empty()) {
      return unknown_label(label);
    }
  }
  if (entries.empty()) {
    return Fault{"no option is named in " + shown(cell), "",
                 "the words to engrave are looked for behind a label such as `" + first_text_ + ":`",
                 "Write the label before them, or name it in shop.toml under [orders.labels] text"};
  }
  const std::string_view before = trimmed(cell.substr(0, words_before));
  if (before.empty()) return entries;
  return Fault{"there are words before the first option: " + shown(before), "", "no label says what they are",
               "Write their label before them, or take them out"};
}

namespace {

/// A text with its label, on its way into order.
struct LabelledText {
  std::string label, text;
  std::optional<std::size_t> number;
};

MaybeFault check_texts(const std::vector<LabelledText>& texts, const std::string& wanted) {
  if (texts.empty()) {
    return Fault{"no text", "", "no option `" + wanted + ":` is in the cell",
                 "Write it there, or take the row out if the piece is to stay bare"};
  }
  std::set<std::u32string> numbered;
  for (const LabelledText& one : texts) {
    if (one.text.empty()) {
      return Fault{"no text", "", "nothing stands behind `" + one.label + ":`",
                   "Write the text, or take the row out if the piece is to stay bare"};
    }
    if (one.number && !numbered.insert(label_key(one.label)).second) {
      return Fault{"`" + one.label + ":` is there twice", "", "which text goes on which piece cannot be told",
                   "Number the texts from 1 on"};
    }
  }
  return std::nullopt;
}

}  // namespace

Result<Options> OptionsReader::read(std::string_view cell) const {
  const auto entries = find_entries(cell);
  if (!entries.ok()) return entries.fault();
  Options options;
  std::vector<LabelledText> texts;
  for (const Entry& entry : *entries) {
    std::string value(trimmed(cell.substr(entry.begin, entry.end - entry.begin)));
    if (entry.kind == Kind::text) {
      texts.push_back({entry.label, std::move(value), entry.number});
    } else if (value.empty()) {
      continue;
    } else if (entry.kind == Kind::note) {
      options.notes.push_back(std::move(value));
    } else if (entry.kind == Kind::choice) {
      options.choices.emplace_back(entry.key, std::move(value));
    } else if (entry.kind == Kind::design) {
      options.designs.push_back(std::move(value));
    }
  }
  if (auto fault = check_texts(texts, first_text_)) return *std::move(fault);
  const auto number = [](const LabelledText& text) { return text.number.value_or(1); };
  std::stable_sort(texts.begin(), texts.end(), [&](const auto& a, const auto& b) { return number(a) < number(b); });
  for (LabelledText& text : texts) {
    options.open_ended = options.open_ended || is_open_ended(text.text);
    options.texts.push_back(std::move(text.text));
  }
  return options;
}

}  // namespace ordinatio::inline orders
