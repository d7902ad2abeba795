// A design's file as a form, and words set by it.
#include <algorithm>

#include "desk/form_answers.h"
#include "desk/kept_files.h"

namespace ordinatio::inline desk {
namespace {

constexpr std::size_t name_limit = 60;  // bytes of a new design's name

Fault no_such_design(const std::string& name) {
  return {"there is no such design", name, "the folder of templates has none of that name", "Read the page again"};
}

/// A design's file: by a name that the workshop has, never by a path.
Result<std::filesystem::path> file_called(TrialBench& bench, const std::string& name) {
  if (std::ranges::count(bench.design_names(), name) == 0) return no_such_design(name);
  return bench.shop().folder / "templates" / (name + ".toml");
}

/// What may be the name of a file everywhere.
MaybeFault bad_name(const std::string& name) {
  const auto is_plain = [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte >= 0x80 || (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '-' ||
           c == '_';
  };
  if (!name.empty() && name.size() <= name_limit && std::ranges::all_of(name, is_plain)) return std::nullopt;
  return Fault{"this is no name for a design", name, "it becomes the name of a file",
               "Take letters, digits, hyphens and low lines, " + std::to_string(name_limit) + " at most"};
}

std::string sample_of(TrialBench& bench, const std::string& name) {
  const Result<const Design*> design = bench.design(name);
  return design.ok() && !(*design)->samples.empty() ? (*design)->samples.front() : bench.shop().sample;
}

/// work: const AskedText&, const Tried&, const std::filesystem::path& → Response.
template <class Work>
Response with_design(WorkshopDesk& desk, const Request& request, Work&& work) {
  const Result<Ask> ask = Ask::read(request.body);
  if (!ask.ok()) return answer_of(ask.fault());
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  const std::string name = ask->text("name");
  const Result<std::filesystem::path> file = file_called(**bench, name);
  if (!file.ok()) return answer_of(file.fault());
  const Result<AskedText> asked = asked_text(*file, design_form(), *ask);
  if (!asked.ok()) return refused(asked.fault(), "", design_form());
  const std::string words = ask->text_if_there("words").value_or(sample_of(**bench, name));
  const Result<Tried> tried = (*bench)->set_by(asked->after, {words, name, "", desk.today(), {}, {}});
  if (!tried.ok()) return refused(tried.fault(), asked->after, design_form());
  return work(*asked, *tried, *file);
}

}  // namespace

Response show_design_file(WorkshopDesk& desk, const Request& request) {
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  const std::string name = request.parameter("name");
  const Result<std::filesystem::path> file = file_called(**bench, name);
  if (!file.ok()) return answer_of(file.fault());
  const Result<std::string> text = read_kept(*file);
  if (!text.ok()) return answer_of(text.fault());
  Json answer = shape_of_form(*text, filled_fields(*text, design_form()), {{}, (*bench)->face_names()});
  answer["file"] = file->filename().string();
  if (const Result<const Design*> design = (*bench)->design(name); design.ok() && has_inscription(**design))
    answer["words"] = sample_of(**bench, name);
  return answer_of(answer);
}

Response try_design(WorkshopDesk& desk, const Request& request) {
  return with_design(desk, request, [](const AskedText& asked, const Tried& tried, const std::filesystem::path&) {
    return answer_of(Json{{"text", asked.after},
                          {"at", ""},
                          {"unused", unused_fields(asked.after, design_form())},
                          {"set", shape_of(tried, "")}});
  });
}

Response save_design(WorkshopDesk& desk, const Request& request) {
  return with_design(desk, request, [&](const AskedText& asked, const Tried&, const std::filesystem::path& file) {
    return saved(desk, file, asked);
  });
}

Response copy_design(WorkshopDesk& desk, const Request& request) {
  const Result<Ask> ask = Ask::read(request.body);
  if (!ask.ok()) return answer_of(ask.fault());
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  const std::string name = ask->text("name");
  if (const auto fault = bad_name(name)) return answer_of(*fault);
  if (std::ranges::count((*bench)->design_names(), name) > 0)
    return answer_of(Fault{"there is such a design already", name, "", "Take another name"});
  const Result<std::filesystem::path> from = file_called(**bench, ask->text("from"));
  if (!from.ok()) return answer_of(from.fault());
  const Result<std::string> text = read_kept(*from);
  if (!text.ok()) return answer_of(text.fault());
  const Result<std::string> undo =
      write_kept(desk.take_backs(), from->parent_path() / (name + ".toml"), std::nullopt, *text);
  if (!undo.ok()) return answer_of(undo.fault());
  return answer_of(Result<Account>(Account{}), *undo);
}

}  // namespace ordinatio::inline desk
