#include "help_page.h"

#include <algorithm>
#include <sstream>

#include "base/utf8.h"

namespace ordinatio {
namespace {

constexpr std::size_t page_width = 80;   // of the terminals that have been the measure since the first
constexpr std::size_t widest_head = 22;  // a longer one has its words on the line below
constexpr std::size_t indent = 2;

/// Words filled into lines that begin at column `from`; the first continues a line that has `at` columns.
void append_filled(std::string& page, std::string_view text, std::size_t from, std::size_t at) {
  page.append(from - at, ' ');
  std::size_t column = from;
  std::istringstream words{std::string(text)};
  for (std::string word; words >> word;) {
    const std::size_t wide = count_characters(word);
    if (column > from && column + 1 + wide > page_width) {
      page += '\n';
      page.append(from, ' ');
      column = from;
    }
    if (column > from) page += ' ', ++column;
    page += word;
    column += wide;
  }
  page += '\n';
}

struct HelpRow {
  std::string head, about;
};

void append_rows(std::string& page, const std::vector<HelpRow>& rows) {
  std::size_t widest = 0;
  for (const HelpRow& row : rows) {
    if (count_characters(row.head) <= widest_head) widest = std::max(widest, count_characters(row.head));
  }
  const std::size_t from = indent + widest + 2;
  for (const HelpRow& row : rows) {
    page.append(indent, ' ');
    page += row.head;
    std::size_t at = indent + count_characters(row.head);
    if (at + 2 > from) page += '\n', at = 0;
    append_filled(page, row.about, from, at);
  }
}

void append_options(std::string& page, const char* heading, const std::vector<OptionWords>& options) {
  if (options.empty()) return;
  page += std::string("\n") + heading + '\n';
  std::vector<HelpRow> rows;
  rows.reserve(options.size());
  for (const OptionWords& option : options) rows.push_back({heading_of(option), option.about});
  append_rows(page, rows);
}

/// An example is copied from the page: it is one line, however long.
void append_examples(std::string& page, const std::vector<CommandExample>& examples) {
  for (const CommandExample& example : examples) {
    if (example.command.empty()) {
      page += '\n' + example.about + '\n';
      continue;
    }
    page += "  " + example.command + '\n';
    if (!example.about.empty()) append_filled(page, example.about, 6, 0);
  }
}

void append_commands(std::string& page, const ProgramWords& program) {
  std::vector<std::string> groups;
  for (const CommandWords& command : program.commands) {
    if (std::ranges::find(groups, command.group) == groups.end()) groups.push_back(command.group);
  }
  for (const std::string& group : groups) {
    page += '\n' + group + '\n';
    std::vector<HelpRow> rows;
    for (const CommandWords& command : program.commands) {
      if (command.group == group) rows.push_back({command.name, command.about});
    }
    append_rows(page, rows);
  }
}

}  // namespace

std::string one_of(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == words.size() ? " or " : ", ") + words[i];
  }
  return text;
}

std::string heading_of(const OptionWords& option) {
  std::string text;
  for (const std::string& name : option.names) text += (text.empty() ? "" : ", ") + name;
  if (option.value.empty() || option.names.front().front() != '-') return text;
  return text + ' ' + (option.choices.empty() ? option.value : one_of(option.choices)) +
         (option.may_repeat ? " …" : "");
}

std::string usage_of(const ProgramWords& program, const CommandWords& command) {
  std::string usage = program.name + ' ' + command.name;
  for (const OptionWords& place : command.places) {
    const std::string& name = place.names.front();
    const std::string all = place.may_repeat ? name + " …" : name;
    usage += ' ' + (place.is_required ? all : '[' + all + ']');
  }
  for (const OptionWords& option : command.options) {
    if (option.is_required) usage += ' ' + heading_of(option);
  }
  return usage + " [options]";
}

std::string help_page(const ProgramWords& program, const CommandWords& command) {
  std::string page = command.about + ".\n\n  " + usage_of(program, command) + '\n';
  std::vector<HelpRow> rows;
  rows.reserve(command.places.size());
  for (const OptionWords& place : command.places) rows.push_back({heading_of(place), place.about});
  if (!rows.empty()) page += '\n', append_rows(page, rows);
  append_options(page, "Options", command.options);
  page += command.examples.size() > 1 ? "\nExamples\n" : "\nExample\n";
  append_examples(page, command.examples);
  page += '\n';
  append_filled(page, std::string("Exit codes: ") + exit_codes, 0, 0);
  return page;
}

std::string help_page(const ProgramWords& program) {
  std::string page;
  append_filled(page, program.about, 0, 0);
  page += "\n  " + program.name + " COMMAND …\n  " + program.name + " COMMAND --help\n";
  append_commands(page, program);
  append_options(page, "Options", program.options);
  append_examples(page, program.examples);
  for (const std::string& paragraph : program.closing) page += '\n', append_filled(page, paragraph, 0, 0);
  page += '\n';
  append_filled(page, std::string("Exit codes: ") + exit_codes, 0, 0);
  return page;
}

}  // namespace ordinatio
