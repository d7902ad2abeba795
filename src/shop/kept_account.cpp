#include "shop/kept_account.h"

#include <nlohmann/json.hpp>

#include "base/account.h"
#include "bed/item_number.h"
#include "shop/ledger_access.h"

namespace ordinatio::inline shop {
namespace {

using Json = nlohmann::ordered_json;

Json as_json(const HeldItem& held) {
  const auto& [id, fault, is_item] = held;
  const auto& [what, where, why, mend, cause] = fault;
  return {{"id", id}, {"what", what}, {"where", where}, {"why", why}, {"mend", mend}, {"is_item", is_item}};
}

HeldItem held_in(const Json& json) {
  Fault fault{json.at("what"), json.at("where"), json.at("why"), json.at("mend")};
  return {json.at("id"), std::move(fault), json.at("is_item")};
}

std::string folder_of_workshop(const Shop& shop, const std::filesystem::path& file) {
  return (std::filesystem::path(folder_in_ledger(shop, file.parent_path())) / file.filename()).string();
}

}  // namespace

std::string text_to_keep(const Account& account, const Shop& shop) {
  // Every part by its name, so that one which is added later does not compile until it is kept, too.
  const auto& [told, files, sheets, items_set, held, warnings, notes, cap_height, smallest, is_numbered, entries] =
      account;
  Json all_held = Json::array(), all_files = Json::array();
  for (const HeldItem& item : held) all_held.push_back(as_json(item));
  for (const auto& file : files) all_files.push_back(folder_of_workshop(shop, file));
  const Json json{{"told", told},
                  {"files", all_files},
                  {"sheets", sheets},
                  {"items_set", items_set},
                  {"held", all_held},
                  {"warnings", warnings},
                  {"notes", notes},
                  {"smallest_cap_height", cap_height},
                  {"smallest_item", smallest},
                  {"smallest_is_numbered", is_numbered}};
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Account kept_account(const std::string& text, const Shop& shop) {
  Account account;
  try {
    const Json json = Json::parse(text);
    account.told = json.at("told");
    for (const std::string file : json.at("files")) account.files.push_back(shop.folder / file);
    account.sheets = json.at("sheets"), account.items_set = json.at("items_set");
    for (const Json& held : json.at("held")) account.held.push_back(held_in(held));
    account.warnings = json.at("warnings"), account.notes = json.at("notes");
    account.smallest_cap_height = json.at("smallest_cap_height");
    account.smallest_item = json.at("smallest_item");
    account.smallest_is_numbered = json.at("smallest_is_numbered");
  } catch (const Json::exception&) {  // a ledger of before accounts were kept
    account = {};
    account.told.emplace_back("Its account was not kept: ordinatio list and ordinatio history say how things are");
  }
  return account;
}

std::vector<std::string> told_late(const std::string& cause, const Account& account) {
  std::vector<std::string> lines{"The command \"" + cause + "\" was cut off before its account was read. It was done:"};
  const auto add = [&](const std::string& line) { lines.push_back("  " + line); };
  for (const std::string& line : account.told) add(line);
  for (const HeldItem& held : account.held) {
    add("held: " + (held.is_item ? with_check(held.id) : held.id) + "  " + describe(held.fault));
  }
  for (const std::string& line : account.warnings) add("worth a look: " + line);
  for (const std::string& line : account.notes) add("noted: " + line);
  for (const auto& file : account.files) add("file: " + file.string());
  return lines;
}

}  // namespace ordinatio::inline shop
