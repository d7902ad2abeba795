#include <catch2/catch.hpp>
#include <string>

#include "check/check.h"

namespace ordinatio::specimen_test {
using Catch::Matchers::Contains;

namespace {

/// A PDF by hand, of pages that each fill one rectangle; lengths in points.
struct HandPage {
  std::string box, rectangle;
};

std::string pdf_of(const std::vector<HandPage>& pages) {
  std::string kids, objects;
  int next = 3;
  for (const HandPage& page : pages) {
    const std::string at = std::to_string(next++), content = std::to_string(next++);
    const std::string stream = page.rectangle + " re f";
    kids += at + " 0 R ";
    objects += at + " 0 obj\n<</Type/Page/Parent 2 0 R/Resources<<>>/MediaBox[0 0 " + page.box + "]/Contents " +
               content + " 0 R>>\nendobj\n" + content + " 0 obj\n<</Length " + std::to_string(stream.size()) +
               ">>\nstream\n" + stream + "\nendstream\nendobj\n";
  }
  const std::string body = "%PDF-1.4\n1 0 obj\n<</Type/Catalog/Pages 2 0 R>>\nendobj\n2 0 obj\n<</Type/Pages/Kids[" +
                           kids + "]/Count " + std::to_string(pages.size()) + ">>\nendobj\n" + objects;
  std::string table = "xref\n0 " + std::to_string(next) + "\n0000000000 65535 f \n";
  for (int number = 1; number < next; ++number) {
    const std::string at = std::to_string(body.find("\n" + std::to_string(number) + " 0 obj") + 1);
    table += std::string(10 - at.size(), '0') + at + " 00000 n \n";
  }
  return body + table + "trailer\n<</Root 1 0 R/Size " + std::to_string(next) + ">>\nstartxref\n" +
         std::to_string(body.size()) + "\n%%EOF\n";
}

const std::string a4_box = "595.276 841.89";
const double inch = 25.4 * 25.4;  // mm² of 72 × 72 points

}  // namespace

TEST_CASE("a specimen is read back: A4, every page, the ink at true size") {
  const std::string good = pdf_of({{a4_box, "72 72 72 72"}, {a4_box, "72 72 144 72"}});
  CHECK_FALSE(check_specimen(good, {inch, 2 * inch}));
  CHECK_THAT(check_specimen(good, {inch})->why, Contains("2 pages, not 1"));
  CHECK_THAT(check_specimen(good, {inch, 2.01 * inch})->what, Contains("page 2 is not at true size"));
  CHECK_THAT(check_specimen(good, {0, 2 * inch})->what, Contains("page 1 is not at true size"));
  CHECK_THAT(check_specimen(pdf_of({{"612 792", "72 72 72 72"}}), {inch})->what, Contains("page 1 has not its size"));
  CHECK_THAT(check_specimen(good.substr(0, good.size() / 4), {inch, inch})->what, Contains("not whole"));
}

}  // namespace ordinatio::specimen_test
