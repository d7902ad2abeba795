// What is done with an item: each act is the command of its name, with the same entry, the same undo.
#include "bookkeeping/bookkeeping.h"
#include "desk/answers.h"
#include "shop/remake.h"
#include "shop/shelf.h"

namespace ordinatio::inline desk {
namespace {

std::optional<CorrectionOptions::What> correction_named(const std::string& name) {
  using What = CorrectionOptions::What;
  static const std::map<std::string, What> names{
      {"words", What::words}, {"hold", What::hold},     {"release", What::release},  {"pin", What::pin},
      {"first", What::first}, {"cancel", What::cancel}, {"take-off", What::take_off}};
  const auto known = names.find(name);
  return known == names.end() ? std::nullopt : std::optional(known->second);
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += " " + word;
  return text;
}

}  // namespace

Response correct_item(WorkshopDesk& desk, const Request& request) {
  return command(
      desk, request,
      [&](const Shop& shop, const Ask& ask) -> Result<Account> {
        const auto what = correction_named(ask.text("what"));
        if (!what)
          return Fault{"there is no such act", ask.text("what"), "shapes.json names those there are",
                       "Load the page again"};
        CorrectionOptions options;
        options.item = ask.text("item");
        options.what = *what;
        options.value = ask.text("value");
        options.call = desk.call((ask.text("what") == "words" ? "correct" : ask.text("what")) + " " + options.item);
        return run_correction(shop, options);
      },
      "item");
}

Response set_item(WorkshopDesk& desk, const Request& request) {
  return command(
      desk, request,
      [&](const Shop& shop, const Ask& ask) {
        CorrectionOptions options;
        options.item = ask.text("item");
        options.what = CorrectionOptions::What::setting;
        options.setting = ask.wish();
        options.as_designed = true;  // the page says the whole of it
        options.call = desk.call("set " + options.item);
        return run_correction(shop, options);
      },
      "item");
}

Response approve_items(WorkshopDesk& desk, const Request& request) {
  return command(desk, request, [&](const Shop& shop, const Ask& ask) {
    return run_approve(shop, {desk.call("approve" + joined(ask.texts("items"))), ask.texts("items")});
  });
}

Response pack_items(WorkshopDesk& desk, const Request& request) {
  return command(desk, request, [&](const Shop& shop, const Ask& ask) {
    const std::string what = "packed" + joined(ask.texts("items")) + joined(ask.texts("orders"));
    return run_pack(shop, {desk.call(what), ask.texts("items"), ask.texts("orders")});
  });
}

/// Of a file that was saved, too: also where the workshop cannot be read as it is now.
Response undo_last(WorkshopDesk& desk, const Request& request) {
  const Result<Ask> whole = Ask::read(request.body);
  if (whole.ok() && desk.take_backs().knows(whole->text("subject")))
    return answer_of(desk.take_backs().run(whole->text("subject")));
  return command(desk, request, [&](const Shop& shop, const Ask& ask) {
    const std::string subject = ask.text("subject");
    if (subject.starts_with(piece_subject))
      return run_remove_blank(shop, desk.call("undo " + subject), subject.substr(piece_subject.size()));
    return run_undo(shop, {desk.call("undo " + subject), subject});
  });
}

Response spoil_one(WorkshopDesk& desk, const Request& request) {
  return command(
      desk, request,
      [&](const Shop& shop, const Ask& ask) {
        SpoilOptions options;
        options.item = ask.text("item");
        options.blank = options.item.empty() ? ask.text("piece") : "";
        options.reason = ask.text("reason");
        options.call = desk.call("spoil " + options.item + options.blank);
        return run_spoil(shop, options);
      },
      "item");
}

Response remake_item(WorkshopDesk& desk, const Request& request) {
  return command(desk, request, [&](const Shop& shop, const Ask& ask) {
    RemakeOptions options;
    options.item = ask.text("item");
    options.text = ask.text_if_there("text");
    options.blank = ask.text("piece");
    options.reason = ask.text("reason");
    options.later = ask.flag("later");
    options.call = desk.call("remake " + options.item);
    return run_remake(shop, options);
  });
}

}  // namespace ordinatio::inline desk
