#include "composed_sheet.h"

#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <stdexcept>

#include "design/design.h"

namespace outside {
namespace fs = std::filesystem;
using namespace ordinatio;
namespace {

template <class T>
T good(Result<T> result) {
  if (!result.ok()) throw std::runtime_error(describe(result.fault()));
  return *std::move(result);
}

constexpr const char* logo = R"(<svg xmlns="http://www.w3.org/2000/svg" width="20mm" height="20mm" viewBox="0 0 20 20">
  <path fill-rule="evenodd" d="M10 0a10 10 0 1 1 0 20a10 10 0 1 1 0-20zM10 2a8 8 0 1 0 0 16a8 8 0 1 0 0-16z"/>
  <path d="M4 9h9v2h-9zM12 6l5 4l-5 4z"/>
</svg>
)";

constexpr const char* rich_design = R"(
about = "Invented: every operation, a logo, and text in a box"
[blank]
width = 100
height = 60
corners = "rounded"
corner = 7
[clear]
margin = 3
gap = 1
[text]
words = "inscription"
font = "script"
fallbacks = ["noto-serif", "noto-naskh", "noto-devanagari", "cjk-jp"]
box = [32, 8, 60, 44]
cap_height = { min = 2, max = 14 }
[[border]]
distance = 3
width = 0.8
[[border]]
distance = 4.5
operation = "score"
[[border]]
distance = 5
operation = "cut"
[[border]]
distance = 5.5
operation = "mark"
[[logo]]
file = "logo.svg"
box = [7, 20, 20, 20]
)";

const std::string lines_design = R"(
about = "Invented: letters and a border for a machine that follows lines, and a date in strokes"
[blank]
width = 90
height = 60
[clear]
margin = 3
gap = 1
[[text]]
words = "inscription"
font = "sans"
box = [6, 20, 78, 35]
cap_height = { min = 2, max = 14 }
[[text]]
date = "long"
font = "stroke-slanted"
box = [6, 6, 78, 12]
cap_height = { min = 2, max = 8 }
[[border]]
distance = 3
width = 1
)";

constexpr const char* asymmetric_design = R"(
about = "Invented: letters alone"
[blank]
width = 50
height = 34
[clear]
margin = 3
[text]
words = "inscription"
font = "sans"
cap_height = { min = 2, max = 30 }
)";

}  // namespace

Scratch::Scratch() {
  static int count = 0;
  folder_ =
      fs::temp_directory_path() / ("ordinatio-outside-" + std::to_string(::getpid()) + "-" + std::to_string(++count));
  fs::create_directories(folder_);
}

Scratch::~Scratch() {
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
}

const FontLibrary& fonts() {
  static const FontLibrary library("none");
  return library;
}

Sheet composed_sheet(const std::string& design_text, const std::vector<std::string>& texts, const BedPlan& plan) {
  const Scratch scratch;
  save(scratch / "logo.svg", logo);
  save(scratch / "plate.toml", design_text);
  const LaidDesign design = good(read_design(scratch / "plate.toml"));
  Typesetter typesetter(fonts());
  std::vector<SheetItem> items;
  for (const std::string& text : texts) {
    const Inscription inscription = good(clean_inscription(text));
    const std::string id = std::to_string(1041 + items.size()) + "-1";
    const Words words{inscription, "2026-11-25"};
    SheetItem item{{id, design.name, inscription, "orders.csv:" + std::to_string(items.size() + 2)}, {}, 0, {}};
    item.artwork = good(compose(design, words, typesetter));
    items.push_back(std::move(item));
  }
  return good(build_sheet(good(lay_bed(plan, design.width, design.height)), std::move(items), "sheet-001", 1));
}

Sheet rich_sheet() {
  BedPlan plan;
  plan.machine = {360, 250};
  plan.jig.edge = 16, plan.jig.gap = 6;
  plan.marks.kind = MarkPlan::Kind::target;
  plan.jig.lie = Jig::Lie::quarter_turn;
  return composed_sheet(
      rich_design, {"Millrace", "Öl & Ågot", "نور الهدى", "Владимир", "क्षितिज", "명수 & 京子", "Wheel\nwright", "8"},
      plan);
}

Sheet asymmetric_sheet() {
  BedPlan plan;
  plan.machine = {150, 100};
  plan.jig.fill_bed = false;
  plan.jig.columns = 2, plan.jig.rows = 1, plan.jig.first = {14, 30}, plan.jig.pitch_x = 62;
  plan.jig.pocket_width = 54, plan.jig.pocket_height = 40;
  plan.marks.count = 3;
  plan.palette.colours = {
      Colour{0x00, 0xFF, 0xFF}, {0x22, 0x22, 0x22}, {0x44, 0x44, 0x44}, {0xFF, 0x00, 0xFF}, {0x99, 0x99, 0x99}};
  return composed_sheet(asymmetric_design, {"F", "Fj7"}, plan);
}

Sheet lines_sheet(bool hatched) {
  BedPlan plan;
  plan.machine = {150, 100};
  plan.jig.edge = 16;
  plan.marks.count = 3;
  std::string pitch;
  append_number(pitch, lines_pitch, 2);
  return composed_sheet(
      lines_design + (hatched ? "[hatch]\nangle = 30\npitch = " + pitch + "\nspot = " + pitch + "\n" : ""),
      {"Šárka Ø\nQ 8"}, plan);
}

void save(const fs::path& path, const std::string& bytes) {
  if (const auto fault = write_file(path, bytes)) throw std::runtime_error(describe(*fault));
}

std::string read(const fs::path& path) { return good(read_file(path)); }

std::string quoted(const fs::path& path) { return "'" + path.string() + "'"; }

std::string output_of(const std::string& command) {
  FILE* pipe = ::popen((command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("cannot run: " + command);
  std::string text;
  char part[4096];
  for (std::size_t got; (got = std::fread(part, 1, sizeof part, pipe)) > 0;) text.append(part, got);
  const int status = ::pclose(pipe);
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) throw std::runtime_error(command + "\n" + text);
  return text;
}

std::vector<double> numbers_after(const std::string& text, const std::string& label, std::size_t count) {
  constexpr const char* figures = "-0123456789.";
  std::vector<double> numbers;
  std::size_t at = text.find(label);
  if (at != std::string::npos) at += label.size();
  while (numbers.size() < count && (at = text.find_first_of(figures, at)) != std::string::npos) {
    const std::size_t end = std::min(text.find_first_not_of(figures, at), text.size());
    if (const auto number = parse_number(text.substr(at, end - at))) numbers.push_back(*number);
    at = end;
  }
  if (numbers.size() < count) throw std::runtime_error("no \"" + label + "\" with its numbers in:\n" + text);
  return numbers;
}

}  // namespace outside
