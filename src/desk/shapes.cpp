#include "desk/shapes.h"

#include "bed/item_number.h"
#include "desk/pictures.h"

namespace ordinatio::inline desk {
namespace {

constexpr std::size_t list_limit = 10'000;  // of one ask: more than a year's items

bool is_plain(const Json& value) {
  const auto is_single = [](const Json& one) { return one.is_string() || one.is_number() || one.is_boolean(); };
  if (!value.is_array()) return is_single(value);
  return value.size() <= list_limit && std::ranges::all_of(value, [](const Json& one) { return one.is_string(); });
}

}  // namespace

std::string without_commands(std::string text) {
  static constexpr std::string_view program = "ordinatio ";
  for (std::size_t at; (at = text.find(program)) != std::string::npos;) {
    const std::size_t stop = text.find(". ", at), colon = text.rfind(": ", at);
    const bool is_named = colon != std::string::npos && colon + 2 == at;  // "Let it go: ordinatio release 1042-2"
    const std::size_t begin = is_named ? colon : text.rfind(". ", at) == std::string::npos ? 0 : text.rfind(". ", at);
    text.erase(begin, stop == std::string::npos ? std::string::npos : stop - begin);
  }
  return text.starts_with(". ") ? text.substr(2) : text;
}

Json shape_of(const HeldItem& held) {
  return {{"id", held.id}, {"shown", held.is_item ? with_check(held.id) : held.id}, {"fault", shape_of(held.fault)}};
}

Json shape_of(const Fault& fault) {
  return {{"what", fault.what}, {"where", fault.where}, {"why", fault.why}, {"mend", without_commands(fault.mend)}};
}

Json shape_of(const Account& account) {
  Json held = Json::array(), files = Json::array();
  for (const HeldItem& item : account.held) held.push_back(shape_of(item));
  for (const auto& file : account.files) files.push_back(file.filename().string());
  const auto for_page = [](const std::vector<std::string>& lines) {
    Json said = Json::array();
    for (const std::string& line : lines) said.push_back(without_commands(line));
    return said;
  };
  return {{"told", for_page(account.told)},   {"held", held},   {"warnings", for_page(account.warnings)},
          {"notes", for_page(account.notes)}, {"files", files}, {"sheets", account.sheets},
          {"items_set", account.items_set}};
}

Json shape_of(const Background::State& state) {
  Json work{{"kind", state.kind},
            {"running", state.is_running},
            {"stopped", state.was_stopped},
            {"done", state.done},
            {"all", state.all}};
  if (!state.end) return work;
  if (state.end->ok()) {
    work["account"] = shape_of(**state.end);
  } else {
    work["fault"] = shape_of(state.end->fault());
  }
  return work;
}

Json shape_of(const Tried& tried, const std::string& piece) {
  const Artwork* const artwork = tried.artwork ? &*tried.artwork : nullptr;
  const Artwork none;
  const Artwork& shown = artwork != nullptr ? *artwork : none;
  const Blank& blank = artwork != nullptr ? shown.blank : tried.blank;
  const Bounds box = bounds_of(path_of(blank.outline));
  Json notes = Json::array();
  for (const CleaningNote& note : tried.inscription.notes) notes.push_back(note.rule);
  Json setting{{"picture", artwork != nullptr ? plaque_picture(shown) : piece_picture(blank)},
               {"width", box.width()},
               {"height", box.height()},
               {"design", tried.design},
               {"piece", piece},
               {"cap_height", shown.cap_height},
               {"stroke", shown.stroke.width},
               {"counter", shown.counter.width},
               {"lines", shown.lines},
               {"changes", shown.changes},
               {"warnings", shown.warnings},
               {"notes", notes}};
  if (tried.no_bed) setting["warnings"].push_back(describe(*tried.no_bed));
  if (tried.held) setting["fault"] = shape_of(*tried.held);
  return setting;
}

Json shape_of(const SettingWish& wish) {
  const Point nudge = wish.nudge.value_or(Point{});
  return {{"design", wish.design},
          {"size", wish.size.value_or(0)},
          {"nudge_x", nudge.x},
          {"nudge_y", nudge.y},
          {"lines_kept", wish.lines_kept}};
}

Json shape_of(const LedgerItem& item, Ledger& ledger, const std::string& to_come) {
  const auto placement = ledger.placement_of(item.id);
  const std::string on_sheet = placement ? placement->blank : item.pinned;
  return {{"number", item.number},
          {"shown", with_check(item.number)},
          {"order", item.order_number},
          {"words", item.words},
          {"state", name_of(item.state)},
          {"held_by", name_of(item.held_by)},
          {"reason", item.reason},
          {"design", item.design},
          {"customer", item.customer},
          {"note", item.note},
          {"first", item.first},
          {"pinned", item.pinned},
          {"sheet", placement ? ledger.sheet(placement->sheet)->name : ""},
          {"pocket", placement ? placement->pocket : 0},
          {"piece", on_sheet.empty() ? to_come : on_sheet},
          {"wish", shape_of(kept_setting(item.setting))}};
}

Json shape_of(const std::vector<StoryLine>& story) {
  Json lines = Json::array();
  for (const StoryLine& line : story) lines.push_back({{"at", line.at}, {"cause", line.cause}, {"text", line.text}});
  return lines;
}

Response answer_of(const Json& answer) {
  Response response;
  response.status = answer.contains("fault") ? 422 : 200;
  response.body = answer.dump(-1, ' ', false, Json::error_handler_t::replace);
  return response;
}

Response answer_of(const Fault& fault) { return answer_of(Json{{"fault", shape_of(fault)}}); }

Response answer_of(const Result<Account>& account, const std::string& undo) {
  if (!account.ok()) return answer_of(account.fault());
  return answer_of(Json{{"account", shape_of(*account)}, {"undo", undo}});
}

Result<Ask> Ask::read(const std::string& body) {
  const Fault unread{"the page's request cannot be read", "", "it is not what shapes.json says", "Load the page again"};
  Json json = Json::parse(body, nullptr, false);
  if (!json.is_object()) return unread;
  for (const auto& [name, value] : json.items()) {
    if (!is_plain(value)) return unread;
  }
  return Ask(std::move(json));
}

std::optional<std::string> Ask::text_if_there(const char* name) const {
  const auto found = json_.find(name);
  return found != json_.end() && found->is_string() ? std::optional(found->get<std::string>()) : std::nullopt;
}

SettingWish Ask::wish() const {
  SettingWish wish;
  wish.design = text("design");
  if (const double size = number("size").value_or(0); size != 0) wish.size = size;
  const Point nudge{number("nudge_x").value_or(0), number("nudge_y").value_or(0)};
  if (nudge != Point{}) wish.nudge = nudge;
  wish.lines_kept = flag("lines_kept");
  return wish;
}

std::string Ask::text(const char* name) const { return text_if_there(name).value_or(""); }

std::vector<std::string> Ask::texts(const char* name) const {
  const auto found = json_.find(name);
  return found != json_.end() && found->is_array() ? found->get<std::vector<std::string>>()
                                                   : std::vector<std::string>();
}

bool Ask::flag(const char* name) const {
  const auto found = json_.find(name);
  return found != json_.end() && found->is_boolean() && found->get<bool>();
}

std::optional<double> Ask::number(const char* name) const {
  const auto found = json_.find(name);
  return found != json_.end() && found->is_number() ? std::optional(found->get<double>()) : std::nullopt;
}

}  // namespace ordinatio::inline desk
