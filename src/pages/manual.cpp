#include <sstream>

#include "base/utf8.h"
#include "help_page.h"
#include "pages/pages.h"

namespace ordinatio::inline pages {
namespace {

/// The character that begins at byte `at`, which moves to its last one, by its number as groff reads it: "\[u2014]".
std::string groff_character(const std::string& text, std::size_t& at) {
  const std::uint32_t code = next_character(text, at);
  --at;
  std::string digits;
  for (int shift = code > 0xFFFF ? 16 : 12; shift >= 0; shift -= 4) {
    digits += "0123456789ABCDEF"[code >> static_cast<unsigned>(shift) & 0xFU];
  }
  return "\\[u" + digits + ']';
}

enum class Hyphens { of_words, of_code };

/// A text that is read as it stands, wherever in a line it is put. of_code: hyphens are those that are typed.
std::string escaped(const std::string& text, Hyphens hyphens) {
  std::string out;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const char c = text[at];
    if (static_cast<unsigned char>(c) >= 0x80) {
      out += groff_character(text, at);
    } else if (c == '\\') {
      out += "\\e";
    } else if (c == '-') {
      out += hyphens == Hyphens::of_code ? "\\-" : "-";
    } else if (c == '\'') {
      out += "\\(aq";
    } else if (c == '"') {
      out += "\\(dq";
    } else if (c == '.' && at == 0) {
      out += "\\&.";
    } else {
      out += c;
    }
  }
  return out;
}

std::string code(const std::string& text) { return escaped(text, Hyphens::of_code); }

/// Options in the text are typed, too: " --sheet".
std::string prose(const std::string& text) {
  std::string out = escaped(text, Hyphens::of_words);
  for (std::size_t at = 0; (at = out.find("--", at)) != std::string::npos; at += 4) out.replace(at, 2, "\\-\\-");
  return out;
}

/// Lines that are not too long to be read as they are (mandoc's lint asks for 80). None begins with what groff takes for a
/// request.
std::string filled(const std::string& text) {
  constexpr std::size_t widest = 78;
  std::string out, line;
  std::istringstream words(text);
  for (std::string word; words >> word;) {
    if (!line.empty() && line.size() + 1 + word.size() > widest) {
      out += line + '\n';
      line.clear();
    }
    line += line.empty() ? (word.front() == '.' ? "\\&" : "") + word : ' ' + word;
  }
  return out + line + '\n';
}

std::string sentence(const std::string& text) { return filled(prose(text) + '.'); }
std::string paragraph(const std::string& text) { return filled(prose(text)); }

std::string bold(const std::string& text) { return "\\fB" + code(text) + "\\fR"; }
std::string italic(const std::string& text) { return "\\fI" + code(text) + "\\fR"; }

std::string heading(const OptionWords& option) {
  if (option.names.front().front() != '-') return italic(option.names.front());
  std::string text;
  for (const std::string& name : option.names) text += (text.empty() ? "" : ", ") + bold(name);
  if (option.value.empty()) return text;
  return text + ' ' + (option.choices.empty() ? italic(option.value) : prose(one_of(option.choices))) +
         (option.may_repeat ? prose(" …") : "");
}

void append_options(std::string& page, const std::vector<OptionWords>& options) {
  for (const OptionWords& option : options) page += ".TP\n" + heading(option) + '\n' + sentence(option.about);
}

void append_examples(std::string& page, const std::vector<CommandExample>& examples) {
  page += ".SH EXAMPLES\n";
  for (const CommandExample& example : examples) {
    if (example.command.empty()) {
      page += ".SS " + prose(example.about) + '\n';
    } else {
      page += ".TP\n" + bold(example.command) + '\n' + sentence(example.about);
    }
  }
}

/// "Turn a day's orders" → "turn a day's orders", as the list of all manual pages has it.
std::string with_small_letter(std::string text) {
  if (text[0] >= 'A' && text[0] <= 'Z' && !(text[1] >= 'A' && text[1] <= 'Z'))
    text[0] = static_cast<char>(text[0] + 32);
  return text;
}

std::string in_capitals(std::string text) {
  for (char& c : text) c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 32) : c;
  return text;
}

std::string head_of(const std::string& name, const std::string& about, const Edition& edition) {
  return ".TH " + code(in_capitals(name)) + " 1 \"" + edition.date + "\" \"Ordinatio " + edition.version +
         "\" \"Ordinatio\"\n.nh\n.ad l\n.SH NAME\n" + code(name) + " \\- " + prose(with_small_letter(about)) + '\n';
}

void append_exit_codes(std::string& page) { page += ".SH EXIT STATUS\n" + paragraph(exit_codes); }

}  // namespace

std::string command_manual(const ProgramWords& program, const CommandWords& command, const Edition& edition) {
  const std::string name = program.name + '-' + command.name;
  std::string page = head_of(name, command.about, edition);
  page += ".SH SYNOPSIS\n" + bold(program.name + ' ' + command.name);
  const std::string usage = usage_of(program, command);
  page += code(usage.substr(program.name.size() + 1 + command.name.size())) + '\n';
  page += ".SH DESCRIPTION\n" + sentence(command.about);
  append_options(page, command.places);
  page += ".SH OPTIONS\n";
  append_options(page, command.options);
  append_examples(page, command.examples);
  append_exit_codes(page);
  page += ".SH SEE ALSO\n" + bold(program.name) + "(1)\n";
  return page;
}

std::string program_manual(const ProgramWords& program, const Edition& edition) {
  std::string page =
      head_of(program.name, "set a day's orders on their pieces, and lay them on sheets to engrave", edition);
  page += ".SH SYNOPSIS\n" + bold(program.name) + " \\fICOMMAND\\fR \\[u2026]\n";
  page += ".SH DESCRIPTION\n" + paragraph(program.about);
  for (const std::string& text : program.closing) page += ".PP\n" + paragraph(text);
  page += ".SH COMMANDS\n";
  std::string group;
  for (const CommandWords& command : program.commands) {
    if (command.group != group) page += ".SS " + prose(group = command.group) + '\n';
    page += ".TP\n" + bold(program.name + '-' + command.name) + "(1)\n" + sentence(command.about);
  }
  page += ".SH OPTIONS\n";
  append_options(page, program.options);
  append_examples(page, program.examples);
  append_exit_codes(page);
  page +=
      ".SH FILES\n.TP\n\\fIshop.toml\\fR\nThe workshop: machine, jig, marks, the columns of its orders.\n"
      ".TP\n\\fItemplates/*.toml\\fR\nThe designs: what goes on a blank, and where.\n";
  page += ".SH SEE ALSO\n";
  for (const CommandWords& command : program.commands) {
    page += bold(program.name + '-' + command.name) + "(1)" + (&command == &program.commands.back() ? "\n" : ",\n");
  }
  return page;
}

}  // namespace ordinatio::inline pages
