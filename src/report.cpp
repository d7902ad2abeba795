#include "report.h"

#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <map>
#include <nlohmann/json.hpp>

#include "alike.h"
#include "base/account.h"
#include "base/harmless.h"
#include "base/phrase.h"
#include "bed/item_number.h"

namespace ordinatio {
namespace {

constexpr std::size_t shown_at_most = 12;  // of a list on the terminal; --json has all

std::string bold(const std::string& text, bool lively) { return lively ? "\033[1m" + text + "\033[0m" : text; }

/// The list's lines, pieces alike in one, and how many more there are.
std::string listed(const std::vector<SaidOf>& list) {
  const std::vector<std::string> lines = alike_together(list);
  std::string text;
  for (std::size_t i = 0; i < lines.size() && i < shown_at_most; ++i) text += "  " + lines[i] + "\n";
  if (lines.size() > shown_at_most) {
    text += "  and " + std::to_string(lines.size() - shown_at_most) + " more; --json shows all\n";
  }
  return text;
}

/// "8 files in out/orders."; one file is named.
std::string files_text(const std::vector<std::filesystem::path>& files) {
  std::map<std::string, std::vector<std::string>> folders;
  for (const auto& file : files) {
    const std::string folder = file.parent_path().lexically_normal().string();
    folders[folder.empty() || folder == "." ? "this folder" : folder].push_back(file.filename().string());
  }
  std::string text;
  for (const auto& [folder, names] : folders) {
    text += (text.empty() ? "" : ", ") + counted(names.size(), "file") + " in " + harmless(folder);
    if (files.size() == 1) text += ": " + harmless(names.front());
  }
  return text + ".\n";
}

}  // namespace

std::string account_as_text(const Account& account, std::string_view kind, bool lively) {
  std::string told;
  for (const std::string& line : alike_together(said_in(account.told))) told += line + "\n";
  const std::pair<std::string_view, std::string_view> kinds[] = {{"face", " shown"},       {"design", " shown"},
                                                                 {"piece", " shown"},      {"pocket", " on the board"},
                                                                 {"cell", " on the card"}, {"blank", " planned"}};
  const auto known = std::ranges::find(kinds, kind, &std::pair<std::string_view, std::string_view>::first);
  const bool is_item = known == std::end(kinds);
  std::string text = counted(account.items_set, is_item ? "item" : kind);
  text = bold(text + std::string(is_item ? " set" : known->second), lively);
  if (kind == "sheet") text += " on " + counted(account.sheets, "sheet");
  text += ", " + std::to_string(account.held.size()) + " held.\n";
  const bool nothing_made = account.sheets == 0 && account.items_set == 0 && account.held.empty();
  if (kind.empty() || (nothing_made && !told.empty())) text.clear();
  text = told + text;
  if (!account.smallest_item.empty()) {
    const std::string& item = account.smallest_item;
    text += "Smallest lettering: " + mm_text(account.smallest_cap_height) + " cap height, " +
            harmless(account.smallest_is_numbered ? with_check(item) : item) + ".\n";
  }
  if (!account.held.empty()) {
    text += bold("Held:", lively) + "\n";
    text += listed(said_of(account.held));
  }
  if (!account.warnings.empty()) text += bold("Worth a look:", lively) + "\n" + listed(said_in(account.warnings));
  if (!account.notes.empty()) text += bold("Noted:", lively) + "\n" + listed(said_in(account.notes));
  if (!account.files.empty()) text += files_text(account.files);
  return text;
}

std::string account_as_json(const Account& account) {
  nlohmann::ordered_json held = nlohmann::ordered_json::array(), files = nlohmann::ordered_json::array();
  for (const HeldItem& item : account.held) {
    held.push_back({{"id", item.id},
                    {"what", item.fault.what},
                    {"where", item.fault.where},
                    {"why", item.fault.why},
                    {"mend", item.fault.mend}});
  }
  for (const auto& file : account.files) files.push_back(file.string());
  nlohmann::ordered_json json{{"sheets", account.sheets},
                              {"items_set", account.items_set},
                              {"held", held},
                              {"warnings", account.warnings},
                              {"notes", account.notes},
                              {"smallest_cap_height", account.smallest_cap_height},
                              {"smallest_item", account.smallest_item},
                              {"files", files}};
  if (!account.told.empty()) json["told"] = account.told;
  return with_escaped_marks(json.dump(1, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n");
}

bool is_lively(int descriptor) {
  const char* no_color = std::getenv("NO_COLOR");
  return ::isatty(descriptor) == 1 && (no_color == nullptr || *no_color == '\0');
}

Progress progress_line(std::string_view verb) {
  if (::isatty(STDERR_FILENO) != 1) return {};
  return [verb = std::string(verb)](std::size_t done, std::size_t all) {
    std::cerr << '\r' << verb << ' ' << done << " of " << all << (done == all ? "\n" : "") << std::flush;
  };
}

}  // namespace ordinatio
