#include <unicode/ucnv.h>

#include <algorithm>
#include <array>
#include <memory>
#include <stdexcept>

#include "base/phrase.h"
#include "csv/csv.h"
#include "csv/encoding_guess.h"
#include "csv/shown.h"

namespace ordinatio::inline csv {
namespace {

constexpr std::string_view replacement = "\uFFFD";  // what ICU's converters put where bytes mean nothing

/// Byte order marks (Unicode 15.0, table 2-4).
struct Mark {
  std::string_view bytes, encoding;
};
constexpr std::array<Mark, 3> marks{{{"\xEF\xBB\xBF", "UTF-8"}, {"\xFF\xFE", "UTF-16LE"}, {"\xFE\xFF", "UTF-16BE"}}};

const Mark* find_mark(std::string_view bytes) {
  const auto found =
      std::find_if(marks.begin(), marks.end(), [bytes](const Mark& mark) { return bytes.starts_with(mark.bytes); });
  return found == marks.end() ? nullptr : &*found;
}

/// UTF-16 without a mark: every ASCII character brings a NUL, all of them behind or all before them.
std::string_view unmarked_utf16(std::string_view bytes) {
  constexpr std::size_t fewest =
      8;  // NULs by which letters beyond ASCII at the head are told, too: a header has as many
  const std::string_view head = bytes.substr(0, 4);
  std::string nuls;
  for (const char c : head) nuls += c == '\0' ? '0' : 'x';
  if (nuls == "x0x0") return "UTF-16LE";
  if (nuls == "0x0x") return "UTF-16BE";
  std::size_t before = 0, behind = 0;
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    if (bytes[i] == '\0') ++(i % 2 == 0 ? before : behind);
  }
  if (before == 0 && behind >= fewest) return "UTF-16LE";
  return behind == 0 && before >= fewest ? "UTF-16BE" : "";
}

/// Bytes that are no orders in any encoding.
MaybeFault not_text(std::string_view bytes, const std::string& file) {
  // PKWARE APPNOTE, 4.3.7: a local file header. Workbooks of spreadsheets are such archives.
  if (bytes.starts_with("PK\x03\x04")) {
    return Fault{"this is no text", file, "it is a zip archive, perhaps a spreadsheet's workbook",
                 "Save the sheet as CSV and give that file"};
  }
  if (bytes.starts_with(std::string_view("\xFF\xFE\0\0", 4)) ||
      bytes.starts_with(std::string_view("\0\0\xFE\xFF", 4))) {
    return Fault{"this text is not read", file, "it is UTF-32", "Save it as UTF-8"};
  }
  return std::nullopt;
}

struct CloseConverter {
  void operator()(UConverter* converter) const { ucnv_close(converter); }
};
using Converter = std::unique_ptr<UConverter, CloseConverter>;

/// Nothing where ICU knows no such encoding.
Converter open_converter(const std::string& encoding) {
  UErrorCode status = U_ZERO_ERROR;
  return Converter(ucnv_open(encoding.c_str(), &status));
}

/// The name by which the Internet registry lists an encoding: "UTF-8" for "utf8".
std::string registered_name(const std::string& encoding) {
  UErrorCode status = U_ZERO_ERROR;
  const char* name = ucnv_getStandardName(encoding.c_str(), "IANA", &status);
  return name == nullptr ? encoding : name;
}

std::string convert(Converter from, std::string_view bytes) {
  const Converter to = open_converter("UTF-8");
  if (!from || !to) throw std::runtime_error("ICU has no converter for an encoding that it knows");
  std::array<UChar, 4096> pivot{};
  std::array<char, 16384> part{};
  UChar *pivot_from = pivot.data(), *pivot_to = pivot.data();
  const char *source = bytes.data(), *source_end = source + bytes.size();
  std::string text;
  if (bytes.empty()) return text;  // ICU takes no pointer to nothing
  text.reserve(bytes.size());
  UErrorCode status = U_BUFFER_OVERFLOW_ERROR;
  for (UBool first = true; status == U_BUFFER_OVERFLOW_ERROR; first = false) {
    status = U_ZERO_ERROR;
    char* target = part.data();
    ucnv_convertEx(to.get(), from.get(), &target, part.data() + part.size(), &source, source_end, pivot.data(),
                   &pivot_from, &pivot_to, pivot.data() + pivot.size(), first, true, &status);
    text.append(part.data(), target);
  }
  if (U_FAILURE(status)) throw std::runtime_error(std::string("ICU cannot convert: ") + u_errorName(status));
  return text;
}

/// Windows-1252 leaves five bytes free (81 8D 8F 90 9D), and others do, too. ICU makes C1 controls of them; they stand for
/// no letter.
std::string replace_c1_controls(const std::string& text) {
  std::string clean;
  clean.reserve(text.size());
  for (std::size_t at = 0; at < text.size(); ++at) {
    const bool c1 = text[at] == '\xC2' && static_cast<unsigned char>(text[at + 1]) < 0xA0;
    if (c1) ++at;
    clean += c1 ? replacement : std::string_view(text).substr(at, 1);
  }
  return clean;
}

std::ptrdiff_t count_replacements(std::string_view text) {
  std::ptrdiff_t count = 0;
  for (std::size_t at = text.find(replacement); at != std::string_view::npos; ++count) {
    at = text.find(replacement, at + replacement.size());
  }
  return count;
}

/// How many characters beyond ASCII there are as UTF-8, and how many bytes are none.
struct Utf8Count {
  std::ptrdiff_t good = 0, bad = 0;
};
Utf8Count count_utf8(std::string_view bytes, std::string_view as_utf8) {
  const std::ptrdiff_t bad = count_replacements(as_utf8) - count_replacements(bytes);
  const std::ptrdiff_t beyond_ascii = std::count_if(as_utf8.begin(), as_utf8.end(), [](char c) {
    return static_cast<unsigned char>(c) >= 0xC0;  // a first byte
  });
  return {beyond_ascii - bad, bad};
}

std::string told_of_utf8(const Utf8Count& count) {
  if (count.bad > 0) {
    return ", but " + counted(static_cast<std::size_t>(count.bad), "byte of it is", "bytes of it are") + " none";
  }
  return count.good > 0 ? ", which all its bytes fit" : "; all of it is ASCII";
}

/// `"Hélène", "Zoë" and 40 more`
std::string list_words(const std::vector<std::string>& words) {
  constexpr std::size_t listed = 12;
  std::string list;
  for (std::size_t i = 0; i < std::min(words.size(), listed); ++i) list += (i == 0 ? "" : ", ") + shown(words[i]);
  return words.size() > listed ? list + " and " + std::to_string(words.size() - listed) + " more" : list;
}

/// A file that is in one of the encodings of one byte a letter, which its bytes do not prove.
DecodedText read_by_guess(std::string_view bytes) {
  EncodingGuess guess = guess_encoding(bytes);
  DecodedText text;
  text.encoding = guess.encoding;
  text.text = replace_c1_controls(convert(open_converter(guess.encoding), bytes));
  text.told = ", which is a guess" + (guess.detected.empty() ? "" : " (ICU's detector: " + guess.detected + ")");
  text.look_at = "read as " + guess.encoding + ", which its bytes do not prove. Look at " + list_words(guess.words) +
                 "; if they read right, write encoding = \"" + guess.encoding +
                 "\" under [orders] in shop.toml; else write the right one, or export the file as UTF-8";
  for (auto& [word, why] : guess.doubtful) {
    text.doubtful.emplace(word, Fault{shown(word) + " is perhaps another word", "",
                                      "its bytes are " + why + ", and a file does not say in which it is",
                                      "Set encoding = \"" + guess.encoding +
                                          "\" under [orders] in shop.toml if the first is right, else the encoding of "
                                          "the one that is; or export the orders as UTF-8"});
  }
  return text;
}

/// Good sequences of UTF-8 are hardly ever found in a text of another encoding: one that has as many of them as of bad
/// bytes is UTF-8 with damage in some rows, which are held; reading the whole otherwise would spoil every accent.
Result<DecodedText> sniff(std::string_view bytes, const std::string& file) {
  if (const std::string_view encoding = unmarked_utf16(bytes); !encoding.empty()) {
    return Fault{"the encoding is not certain", file,
                 "this looks like " + std::string(encoding) + ", but it has no byte order mark",
                 "Set encoding = \"" + std::string(encoding) + "\" in shop.toml, or save the file as UTF-8"};
  }
  std::string as_utf8 = convert(open_converter("UTF-8"), bytes);
  const Utf8Count count = count_utf8(bytes, as_utf8);
  if (count.good >= count.bad) return DecodedText{std::move(as_utf8), "UTF-8", told_of_utf8(count), {}, {}};
  return read_by_guess(bytes);
}

Result<DecodedText> decode_as(const std::string& encoding, const Mark* mark, std::string_view bytes,
                              const std::string& file) {
  Converter converter = open_converter(encoding);
  if (!converter) {
    return Fault{"unknown encoding \"" + encoding + "\"", file, "",
                 "Set encoding to \"UTF-8\", \"UTF-16LE\", \"UTF-16BE\", \"windows-1252\", \"windows-1250\" or "
                 "\"macintosh\", or leave it out of shop.toml"};
  }
  const std::string name = registered_name(encoding);
  if (mark != nullptr && !mark->encoding.starts_with(name)) {  // "UTF-16" stands for both
    return Fault{"the encoding is not " + name, file,
                 "the file begins with the byte order mark of " + std::string(mark->encoding),
                 "Leave encoding out of shop.toml, or export the orders again"};
  }
  if (mark != nullptr)
    converter = open_converter(std::string(mark->encoding));  // "UTF-16" alone takes the big end first
  const bool one_byte = ucnv_getMaxCharSize(converter.get()) == 1;
  std::string text = convert(std::move(converter), bytes);
  return DecodedText{one_byte ? replace_c1_controls(text) : std::move(text), name, ", as set in shop.toml", {}, {}};
}

}  // namespace

Result<DecodedText> decode_text(std::string_view bytes, std::string_view encoding, const std::string& file_name) {
  if (MaybeFault fault = not_text(bytes, file_name)) return *fault;
  const Mark* mark = find_mark(bytes);
  if (mark == nullptr && encoding.empty()) return sniff(bytes, file_name);
  if (mark == nullptr) return decode_as(std::string(encoding), mark, bytes, file_name);

  auto decoded = decode_as(std::string(encoding.empty() ? mark->encoding : encoding), mark,
                           bytes.substr(mark->bytes.size()), file_name);
  if (!decoded.ok()) return decoded;
  decoded->encoding = mark->encoding == "UTF-8" ? "UTF-8 with BOM" : std::string(mark->encoding);
  if (encoding.empty()) decoded->told = ", as its byte order mark says";
  return decoded;
}

}  // namespace ordinatio::inline csv
