#include "cleaning/entities.h"
#include "base/utf8.h"

#include <unicode/uchar.h>

#include <algorithm>
#include <string>

namespace ordinatio::inline cleaning {
namespace {

struct EntityRun {
  char16_t first;
  std::string_view names;  // of this character and those after it
};
// HTML 4.01 section 24 (Latin-1, symbols, special characters) and XML 1.0 section 4.6 (apos).
// clang-format off
constexpr EntityRun entity_runs[] = {
    {0x0022, "quot"}, {0x0026, "amp apos"}, {0x003C, "lt"}, {0x003E, "gt"},
    {0x00A0, "nbsp iexcl cent pound curren yen brvbar sect uml copy ordf laquo not shy reg macr deg plusmn sup2 sup3 "
             "acute micro para middot cedil sup1 ordm raquo frac14 frac12 frac34 iquest"},
    {0x00C0, "Agrave Aacute Acirc Atilde Auml Aring AElig Ccedil Egrave Eacute Ecirc Euml Igrave Iacute Icirc Iuml "
             "ETH Ntilde Ograve Oacute Ocirc Otilde Ouml times Oslash Ugrave Uacute Ucirc Uuml Yacute THORN szlig"},
    {0x00E0, "agrave aacute acirc atilde auml aring aelig ccedil egrave eacute ecirc euml igrave iacute icirc iuml "
             "eth ntilde ograve oacute ocirc otilde ouml divide oslash ugrave uacute ucirc uuml yacute thorn yuml"},
    {0x0152, "OElig oelig"}, {0x0160, "Scaron scaron"}, {0x0178, "Yuml"}, {0x0192, "fnof"},
    {0x02C6, "circ"}, {0x02DC, "tilde"},
    {0x0391, "Alpha Beta Gamma Delta Epsilon Zeta Eta Theta Iota Kappa Lambda Mu Nu Xi Omicron Pi Rho"},
    {0x03A3, "Sigma Tau Upsilon Phi Chi Psi Omega"},
    {0x03B1, "alpha beta gamma delta epsilon zeta eta theta iota kappa lambda mu nu xi omicron pi rho sigmaf sigma "
             "tau upsilon phi chi psi omega"},
    {0x03D1, "thetasym upsih"}, {0x03D6, "piv"},
    {0x2002, "ensp emsp"}, {0x2009, "thinsp"}, {0x200C, "zwnj zwj lrm rlm"}, {0x2013, "ndash mdash"},
    {0x2018, "lsquo rsquo sbquo"}, {0x201C, "ldquo rdquo bdquo"}, {0x2020, "dagger Dagger bull"},
    {0x2026, "hellip"}, {0x2030, "permil"}, {0x2032, "prime Prime"}, {0x2039, "lsaquo rsaquo"},
    {0x203E, "oline"}, {0x2044, "frasl"}, {0x20AC, "euro"},
    {0x2111, "image"}, {0x2118, "weierp"}, {0x211C, "real"}, {0x2122, "trade"}, {0x2135, "alefsym"},
    {0x2190, "larr uarr rarr darr harr"}, {0x21B5, "crarr"}, {0x21D0, "lArr uArr rArr dArr hArr"},
    {0x2200, "forall"}, {0x2202, "part exist"}, {0x2205, "empty"}, {0x2207, "nabla isin notin"},
    {0x220B, "ni"}, {0x220F, "prod"}, {0x2211, "sum minus"}, {0x2217, "lowast"}, {0x221A, "radic"},
    {0x221D, "prop infin"}, {0x2220, "ang"}, {0x2227, "and or cap cup int"}, {0x2234, "there4"},
    {0x223C, "sim"}, {0x2245, "cong"}, {0x2248, "asymp"}, {0x2260, "ne equiv"}, {0x2264, "le ge"},
    {0x2282, "sub sup nsub"}, {0x2286, "sube supe"}, {0x2295, "oplus"}, {0x2297, "otimes"}, {0x22A5, "perp"},
    {0x22C5, "sdot"}, {0x2308, "lceil rceil lfloor rfloor"}, {0x2329, "lang rang"},
    {0x25CA, "loz"}, {0x2660, "spades"}, {0x2663, "clubs"}, {0x2665, "hearts diams"},
};
// clang-format on

constexpr std::size_t longest_entity = 8;      // thetasym
constexpr std::size_t longest_reference = 32;  // letters; a longer one is no reference, so a message stays short
constexpr char32_t no_character = 0x110000;    // also what a number too large for Unicode is counted as

bool is_ascii_digit(char32_t c) { return c >= '0' && c <= '9'; }
bool is_name_letter(char32_t c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

int hex_value(char32_t c) {
  if (is_ascii_digit(c)) return static_cast<int>(c - '0');
  const char32_t lower = c | 0x20;
  return lower >= 'a' && lower <= 'f' ? static_cast<int>(lower - 'a') + 10 : -1;
}

/// "&eacute;" or "&#233;" or "&#xE9;", with or without the semicolon.
struct Reference {
  std::string text;
  std::size_t length = 0;  // in letters
  bool closed = false;
  bool numeric = false;
  std::optional<char32_t> character;  // nothing: no such name
};

/// `letters` begins with "&#".
Reference read_number(std::span<const Letter> letters) {
  Reference reference;
  reference.length = 2;
  reference.numeric = true;
  std::size_t& at = reference.length;
  const bool hex = at < letters.size() && (letters[at].character | 0x20) == 'x';
  if (hex) ++at;
  const std::size_t first = at;
  char32_t value = 0;
  for (; at < std::min(letters.size(), longest_reference); ++at) {
    const int digit = hex_value(letters[at].character);
    if (digit < 0 || (!hex && digit > 9)) break;
    value = std::min(static_cast<char32_t>(value * (hex ? 16U : 10U) + static_cast<unsigned>(digit)), no_character);
  }
  if (at > first) reference.character = value;
  return reference;
}

/// `letters` begins with "&".
Reference read_name(std::span<const Letter> letters) {
  std::size_t at = 1;
  std::string name;
  while (at < std::min(letters.size(), longest_reference) &&
         (is_name_letter(letters[at].character) || is_ascii_digit(letters[at].character)))
    name += static_cast<char>(letters[at++].character);
  const bool is_name = !name.empty() && is_name_letter(static_cast<unsigned char>(name[0]));
  Reference reference;
  reference.length = at;
  if (is_name) reference.character = named_character(name);
  return reference;
}

/// Nothing where "&" begins no reference, as in "Tom & Anna" and "&;".
std::optional<Reference> reference_at(std::span<const Letter> letters) {
  if (letters.empty() || letters[0].character != '&') return std::nullopt;
  const bool number = letters.size() > 1 && letters[1].character == '#';
  Reference reference = number ? read_number(letters) : read_name(letters);
  reference.closed = reference.length < letters.size() && letters[reference.length].character == ';';
  const bool bare = reference.length == 1 || !(number || is_name_letter(letters[1].character));
  if (bare || (number && !reference.character) || (!reference.closed && !reference.character)) return std::nullopt;
  if (reference.closed) ++reference.length;
  reference.text = write_letters(letters.first(reference.length));
  return reference;
}

/// Tab and line breaks may be typed plainly, so they may be referred to.
bool is_refused(char32_t c) {
  const bool control = c < 0x20 || (c >= 0x7F && c < 0xA0);
  return (control && c != '\t' && c != '\n' && c != '\r') || (c >= 0xD800 && c < 0xE000) || c >= no_character;
}

Objection refusal(const Reference& reference, std::size_t offset) {
  const char32_t character = *reference.character;
  Objection objection{offset, reference.text, "it stands for no letter", "Type the letter that was meant"};
  if (character >= no_character) return objection;
  objection.what += " (" + character_name(character) + ")";
  if (character >= 0x80 && character < 0xA0)
    objection.why += "; old web pages use the numbers 128 to 159 for letters of Windows-1252";
  return objection;
}

std::string decoding(const Reference& reference) {
  const char32_t character = *reference.character;
  if (!u_isgraph(static_cast<UChar32>(character))) return reference.text + " became " + character_name(character);
  std::string rule = reference.text + " became ";
  append_utf8(rule, character);
  return rule;
}

std::string left_as_typed(const Reference& reference) {
  return reference.character ? reference.text + " looks like an HTML entity without its semicolon: left as typed"
                             : reference.text + " is no HTML entity that is known: left as typed";
}

void warn_of_second_pass(const Letters& letters, Findings& findings) {
  for (std::size_t i = 0; i < letters.size(); ++i) {
    const auto reference = reference_at(std::span(letters).subspan(i));
    if (!reference || !reference->closed || !reference->character) continue;
    findings.push_back({letters[i].offset, CleaningNote::Weight::warning,
                        reference->text + " still stands there after decoding once: check what was meant"});
    return;
  }
}

}  // namespace

std::optional<char32_t> named_character(std::string_view name) {
  if (name.empty() || name.size() > longest_entity) return std::nullopt;
  for (const EntityRun& run : entity_runs) {
    char32_t character = run.first;
    for (std::size_t start = 0; start < run.names.size(); ++character) {
      const std::size_t end = std::min(run.names.find(' ', start), run.names.size());
      if (run.names.substr(start, end - start) == name) return character;
      start = end + 1;
    }
  }
  return std::nullopt;
}

std::optional<Objection> decode_entities(Letters& letters, Findings& findings) {
  Letters decoded;
  decoded.reserve(letters.size());
  for (std::size_t i = 0; i < letters.size();) {
    const std::size_t offset = letters[i].offset;
    const auto reference = reference_at(std::span(letters).subspan(i));
    if (reference && reference->closed && reference->character) {
      if (is_refused(*reference->character)) return refusal(*reference, offset);
      findings.push_back({offset, CleaningNote::Weight::note, decoding(*reference)});
      decoded.push_back({*reference->character, offset});
      i += reference->length;
      continue;
    }
    if (reference) findings.push_back({offset, CleaningNote::Weight::warning, left_as_typed(*reference)});
    decoded.push_back(letters[i++]);
  }
  letters = std::move(decoded);
  if (!findings.empty()) warn_of_second_pass(letters, findings);
  return std::nullopt;
}

}  // namespace ordinatio::inline cleaning
