// What the page asks first; and a workshop made where there is none.
#include "design/toml_table.h"
#include "desk/answers.h"
#include "workshop/toml_edit.h"

namespace ordinatio::inline desk {
namespace {

Json designs_of(TrialBench& bench) {
  Json designs = Json::array();
  for (const std::string& name : bench.design_names()) {
    const Result<const Design*> design = bench.design(name);
    if (!design.ok() || !has_inscription(**design)) continue;
    designs.push_back({{"name", name},
                       {"about", (*design)->about},
                       {"material", (*design)->material},
                       {"approval", (*design)->approval}});
  }
  return designs;
}

Json empty_place(const WorkshopDesk& desk) {
  return {{"is_new", true},
          {"name", ""},
          {"folder", desk.folder().string()},
          {"ledger", false},
          {"measured", false},
          {"date", desk.today()},
          {"version", desk.version()},
          {"default_design", ""},
          {"designs", Json::array()},
          {"faces", Json::array()}};
}

/// The sizes that a person gave, as keys of the files.
struct NewMeasures {
  double bed_width = 0, bed_height = 0, piece_width = 0, piece_height = 0, corner_radius = 0;
};

std::optional<NewMeasures> measures_in(const Ask& ask) {
  const auto in_range = [&](const char* name, double least) {
    const std::optional<double> number = ask.number(name);
    return number && *number >= least && *number <= length_limit;
  };
  for (const char* name : {"bed_width", "bed_height", "piece_width", "piece_height"}) {
    if (!in_range(name, 1)) return std::nullopt;
  }
  if (!in_range("corner_radius", 0)) return std::nullopt;
  return NewMeasures{*ask.number("bed_width"), *ask.number("bed_height"), *ask.number("piece_width"),
                     *ask.number("piece_height"), *ask.number("corner_radius")};
}

std::string toml_number(double value) {
  std::string text;
  append_number(text, value, 3);
  return text;
}

std::string design_for(const NewMeasures& measures) {
  return measures.piece_width >= measures.piece_height ? "plaque-landscape" : "plaque-portrait";
}

/// The shipped design for pieces of these measures.
MaybeFault write_design(const std::filesystem::path& folder, const NewMeasures& measures, const std::string& material) {
  std::vector<TomlEdit> edits{
      {"blank", "width", toml_number(measures.piece_width)},
      {"blank", "height", toml_number(measures.piece_height)},
      {"blank", "corners", toml_text(measures.corner_radius > 0 ? "rounded" : "square")},
      {"blank", "corner", measures.corner_radius > 0 ? toml_number(measures.corner_radius) : ""}};
  if (!material.empty()) edits.push_back({"blank", "material", toml_text(material)});
  return edit_toml(folder / "templates" / (design_for(measures) + ".toml"), edits);
}

}  // namespace

Response show_shop(WorkshopDesk& desk, const Request&) {
  if (!desk.has_workshop()) return answer_of(empty_place(desk));
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  const Shop& shop = (*bench)->shop();
  return answer_of(Json{{"is_new", false},
                        {"name", shop.name},
                        {"folder", std::filesystem::absolute(shop.folder).lexically_normal().string()},
                        {"ledger", !shop.ledger.empty()},
                        {"measured", !shop.blanks.file.empty()},
                        {"date", desk.today()},
                        {"version", desk.version()},
                        {"default_design", shop.default_design},
                        {"designs", designs_of(**bench)},
                        {"faces", (*bench)->face_names()}});
}

/// A workshop that was run from files alone keeps a ledger from now on.
Response begin_ledger(WorkshopDesk& desk, const Request& request) {
  return command(desk, request, [](const Shop& shop, const Ask&) -> Result<Account> {
    Account account;
    if (!shop.ledger.empty()) return account;
    const std::vector<TomlEdit> edits{{"ledger", "file", toml_text("workshop.ledger")}};
    if (auto fault = edit_toml(shop.folder / "shop.toml", edits)) return *std::move(fault);
    account.told.emplace_back("shop.toml says now that the ledger is workshop.ledger");
    return account;
  });
}

/// The files that `new` writes, with what the person has said in them; the ledger is kept from the start.
Response make_shop(WorkshopDesk& desk, const Request& request) {
  const Result<Ask> ask = Ask::read(request.body);
  if (!ask.ok()) return answer_of(ask.fault());
  const std::optional<NewMeasures> measures = measures_in(*ask);
  if (!measures) {
    return answer_of(Fault{"a measure is missing", "", "each is a number of millimetres, the corner's may be 0",
                           "Measure the bed and one piece, and write down what the rule shows"});
  }
  if (auto fault = new_shop(desk.folder())) return answer_of(*fault);
  std::vector<TomlEdit> edits{{"shop", "design", toml_text(design_for(*measures))},
                              {"ledger", "file", toml_text("workshop.ledger")},
                              {"machine", "width", toml_number(measures->bed_width)},
                              {"machine", "height", toml_number(measures->bed_height)}};
  if (const std::string name = ask->text("name"); !name.empty()) edits.push_back({"shop", "name", toml_text(name)});
  if (auto fault = write_design(desk.folder(), *measures, ask->text("material"))) return answer_of(*fault);
  if (auto fault = edit_toml(desk.folder() / "shop.toml", edits)) return answer_of(*fault);
  const Result<TrialBench*> bench = desk.bench();
  if (!bench.ok()) return answer_of(bench.fault());
  Account account;
  account.told.push_back("The workshop is made, in " + desk.folder().string());
  return answer_of(Result<Account>(std::move(account)));
}

}  // namespace ordinatio::inline desk
