#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "bed/correction.h"
#include "small_sheet.h"
#include "write/write.h"

namespace ordinatio::laying_test {
using Json = nlohmann::ordered_json;

namespace {

Sheet laid_sheet(Registration::Model model) {
  Sheet sheet = small_sheet();
  const auto fault = correct(sheet, {3, 1, 2}, {{8.5, 100.25}, {8.5, 8.25}, {192.5, 8.25}}, model);
  if (fault) FAIL(describe(*fault));
  return sheet;
}

}  // namespace

TEST_CASE("a manifest tells by what a sheet was laid, and how well it agreed") {
  const Json json = Json::parse(write_manifest(laid_sheet(Registration::Model::affine))).at("correction");
  CHECK(json.at("by") == "marks");
  CHECK(json.at("allowed") == "affine");
  CHECK(json.at("numbers") == Json::parse("[3, 1, 2]"));
  CHECK(json.at("drawn") == Json::parse("[[8, 100], [8, 8], [192, 8]]"));
  CHECK(json.at("measured") == Json::parse("[[8.5, 100.25], [8.5, 8.25], [192.5, 8.25]]"));
  CHECK(json.at("transform")[4].get<double>() == Approx(0.5));
  CHECK(json.at("transform")[5].get<double>() == Approx(0.25));
  CHECK(json.at("residuals").size() == 3);
  CHECK(json.at("root_mean_square").get<double>() < 1e-9);
  CHECK(json.at("redundancy") == 0);
  CHECK(Json::parse(write_manifest(laid_sheet(Registration::Model::rigid))).at("correction").at("allowed") == "turn");
  CHECK(Json::parse(write_manifest(laid_sheet(Registration::Model::similar))).at("correction").at("redundancy") == 2);
}

TEST_CASE("a manifest of a sheet that lies as drawn tells no correction, and no datum but another than lower left") {
  Sheet sheet = small_sheet();
  const Json plain = Json::parse(write_manifest(sheet));
  CHECK_FALSE(plain.contains("correction"));
  CHECK_FALSE(plain.at("jig").contains("datum"));
  const std::pair<Jig::Datum, const char*> words[] = {{Jig::Datum::lower_right, "lower-right"},
                                                      {Jig::Datum::upper_left, "upper-left"},
                                                      {Jig::Datum::upper_right, "upper-right"}};
  for (const auto& [datum, word] : words) {
    sheet.frame.plan.jig.datum = datum;
    CHECK(Json::parse(write_manifest(sheet)).at("jig").at("datum") == word);
  }
}

}  // namespace ordinatio::laying_test
