#include "desk/routes.h"

#include <algorithm>

#include "desk/answers.h"
#include "desk/page_texts.h"

namespace ordinatio::inline desk {
namespace {

struct Route {
  Method method;
  std::string_view path;
  Response (*answer)(WorkshopDesk&, const Request&);
};

constexpr Route routes[] = {{Method::get, "/api/shop", show_shop},
                            {Method::post, "/api/new", make_shop},
                            {Method::get, "/api/today", show_today},
                            {Method::post, "/api/look", look_at_export},
                            {Method::post, "/api/intake", take_export_in},
                            {Method::post, "/api/columns", show_columns},
                            {Method::post, "/api/try-columns", try_columns},
                            {Method::post, "/api/keep-columns", keep_columns},
                            {Method::post, "/api/answer", answer_question},
                            {Method::post, "/api/let-go", let_row_go},
                            {Method::get, "/api/item", show_item},
                            {Method::post, "/api/fit", fit_words},
                            {Method::get, "/api/search", search_items},
                            {Method::get, "/api/design-picture", show_design},
                            {Method::post, "/api/correct", correct_item},
                            {Method::post, "/api/set", set_item},
                            {Method::post, "/api/approve", approve_items},
                            {Method::post, "/api/pack", pack_items},
                            {Method::post, "/api/undo", undo_last},
                            {Method::post, "/api/spoil", spoil_one},
                            {Method::post, "/api/remake", remake_item},
                            {Method::get, "/api/sheets", show_sheets},
                            {Method::get, "/api/sheet", show_sheet},
                            {Method::post, "/api/engraved", book_engraved},
                            {Method::post, "/api/resume", resume_sheet},
                            {Method::get, "/file", give_file},
                            {Method::post, "/api/day", begin_day},
                            {Method::post, "/api/proofs", begin_proofs},
                            {Method::post, "/api/stands", begin_stands},
                            {Method::get, "/api/hours", show_hours},
                            {Method::post, "/api/hours", begin_hours},
                            {Method::post, "/api/settings-card", make_settings_card},
                            {Method::get, "/api/plan", show_plan},
                            {Method::post, "/api/plan", begin_plan},
                            {Method::get, "/api/work", show_work},
                            {Method::post, "/api/stop-work", stop_work},
                            {Method::get, "/api/pieces", show_pieces},
                            {Method::get, "/api/stock", show_stock},
                            {Method::get, "/api/proofs", show_proofs},
                            {Method::get, "/api/board", show_board},
                            {Method::post, "/api/board", make_board},
                            {Method::post, "/api/packing", make_packing},
                            {Method::get, "/api/stand", show_stand},
                            {Method::get, "/api/panes", show_panes},
                            {Method::post, "/api/panes", begin_panes},
                            {Method::get, "/api/faces", show_sample_faces},
                            {Method::post, "/api/specimen", begin_specimen},
                            {Method::post, "/api/begin-ledger", begin_ledger},
                            {Method::post, "/api/move", move_item},
                            {Method::post, "/api/loading", make_loading},
                            {Method::get, "/api/suiting", show_suiting},
                            {Method::post, "/api/photo", look_at_piece},
                            {Method::get, "/photo", give_photo},
                            {Method::post, "/api/try-piece", try_piece},
                            {Method::get, "/card", give_card},
                            {Method::post, "/api/add-piece", add_piece},
                            {Method::get, "/api/settings", show_settings},
                            {Method::post, "/api/try-settings", try_settings},
                            {Method::get, "/api/design", show_design_file},
                            {Method::post, "/api/save-settings", save_settings},
                            {Method::post, "/api/try-design", try_design},
                            {Method::post, "/api/save-design", save_design},
                            {Method::post, "/api/copy-design", copy_design},
                            {Method::post, "/api/try-measure", try_measures},
                            {Method::get, "/api/measure", show_measures},
                            {Method::post, "/api/save-measure", save_measures}};

constexpr std::size_t remembered =
    200;  // requests that were answered: more than a person makes while one is on its way

bool takes_files(const std::string& path) {
  return path == "/api/look" || path == "/api/intake" || path == "/api/columns" || path == "/api/panes";
}

/// A whole file's words, and what JSON makes of them.
bool takes_words(const std::string& path) { return path.starts_with("/api/try-") || path.starts_with("/api/save-"); }

Response not_found() { return {404, "text/plain; charset=utf-8", "There is no such page.\n"}; }

std::string_view type_of(std::string_view name) {
  if (name.ends_with(".html")) return "text/html; charset=utf-8";
  if (name.ends_with(".css")) return "text/css; charset=utf-8";
  if (name.ends_with(".js")) return "text/javascript; charset=utf-8";
  if (name.ends_with(".svg")) return "image/svg+xml";
  return "application/json";
}

}  // namespace

std::size_t body_limit_of(const Request& request) {
  if (request.path == "/api/photo") return photo_limit;
  return takes_files(request.path) ? export_limit : takes_words(request.path) ? 2 * words_limit : 0;
}

Response Router::page_file(const std::string& path) const {
  const std::string name = path == "/" ? "index.html" : path.substr(1);
  const auto file = std::ranges::find(page_files(), name, &PageFile::name);
  if (file == page_files().end()) return not_found();
  Response response{200, std::string(type_of(name)), std::string(file->text)};
  static constexpr std::string_view sign = "{{key}}";
  if (const std::size_t at = response.body.find(sign); at != std::string::npos && name == "index.html")
    response.body.replace(at, sign.size(), header_key_);
  return response;
}

Response Router::answer(const Request& request) {
  const auto route = std::ranges::find_if(
      routes, [&](const Route& one) { return one.method == request.method && one.path == request.path; });
  if (route == std::end(routes)) return request.method == Method::get ? page_file(request.path) : not_found();
  const std::string once = request.header("desk-once");
  if (once.empty() || request.method == Method::get) return route->answer(desk_, request);
  const auto before = std::ranges::find(answered_, once, &std::pair<std::string, Response>::first);
  if (before != answered_.end()) return before->second;
  Response response = route->answer(desk_, request);
  if (answered_.size() == remembered) answered_.erase(answered_.begin());
  answered_.emplace_back(once, response);
  return response;
}

}  // namespace ordinatio::inline desk
