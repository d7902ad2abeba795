// Strokes and gaps of real letters against what shares no code with them: the Voronoi diagram of segments of Boost.Polygon
// 1.74 (Debian: libboost-dev), a raster with an exact distance transform, and the figures of font files by fontTools 4.38
// (Debian: python3-fonttools).
#include <boost/polygon/polygon.hpp>
#include <boost/polygon/voronoi.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <memory>

#include "geometry/thickness.h"
#include "raster_distance.h"
#include "text/text.h"

using namespace ordinatio;
namespace bp = boost::polygon;

namespace {

constexpr double chord_error = 1e-4;      // em
constexpr double grid = 1.0 / (1 << 20);  // em: Voronoi sites are whole numbers, and so exactly the polygons measured

struct Letters {
  FontLibrary library{"none"};
  Typesetter typesetter{library};
  Polygons ink(const std::string& face, const std::string& letter) {
    const auto line = typesetter.shape(letter, {{face}, "en", ""});
    if (!line.ok()) FAIL(describe(line.fault()));
    Path path;
    typesetter.append_ink(path, *line, 1, {0, 0}, chord_error);
    return weld(polygons_of(path, chord_error), grid);
  }
};

const char* const faces[] = {"serif", "sans", "slab", "script", "noto-serif", "noto-sans"};
const char* const letters[] = {"a", "e", "g", "k", "r", "s", "t", "v", "B",
                               "M", "Q", "S", "W", "3", "8", "å", "ç", "ß"};

double least(const std::vector<Gauge>& gauges) { return gauges.empty() ? 1e9 : gauges.front().width; }

// ---- Voronoi ----

struct Site {
  Point from, to;
  std::size_t contour, place;
};
std::vector<Site> sites_of(const Polygons& polygons) {
  std::vector<Site> sites;
  for (std::size_t k = 0; k < polygons.size(); ++k) {
    for (std::size_t i = 0; i < polygons[k].size(); ++i) {
      sites.push_back({polygons[k][i], polygons[k][(i + 1) % polygons[k].size()], k, i});
    }
  }
  return sites;
}

using Whole = bp::point_data<int>;
Whole whole(Point p) { return {int(std::lround(p.x / grid)), int(std::lround(p.y / grid))}; }

/// The nearest point of a cell's site (a segment or one of its ends) to p.
Point foot_of(const bp::voronoi_cell<double>& cell, const std::vector<Site>& sites, Point p) {
  const Site& site = sites[cell.source_index()];
  if (cell.source_category() == bp::SOURCE_CATEGORY_SEGMENT_START_POINT) return site.from;
  if (cell.source_category() == bp::SOURCE_CATEGORY_SEGMENT_END_POINT) return site.to;
  const Point way = site.to - site.from;
  return site.from + std::clamp(dot(p - site.from, way) / dot(way, way), 0.0, 1.0) * way;
}

/// The closest points of two neighbouring sites.
struct Closest {
  Point p, q;
};
Closest closest(const bp::voronoi_edge<double>& edge, const std::vector<Site>& sites, Point between) {
  const auto &a = *edge.cell(), &b = *edge.twin()->cell();
  Closest pair{foot_of(a, sites, between), foot_of(b, sites, between)};
  for (int i = 0; i < 60; ++i) pair = {foot_of(a, sites, pair.q), foot_of(b, sites, pair.p)};
  return pair;
}

/// Between two segments that are not parallel the distance has no minimum; their ends are cells of their own.
bool parts_slanting_segments(const bp::voronoi_edge<double>& edge, const std::vector<Site>& sites) {
  const auto &a = *edge.cell(), &b = *edge.twin()->cell();
  if (!a.contains_segment() || !b.contains_segment()) return false;
  const Site &s = sites[a.source_index()], &t = sites[b.source_index()];
  const Point u = s.to - s.from, v = t.to - t.from;
  return std::abs(cross(u, v)) > 1e-3 * length(u) * length(v);
}

/// Local minima of the medial radius: the closest points of two neighbouring sites, where the disc between them is
/// centred on the Voronoi edge that parts them.
std::vector<Closest> voronoi_necks(const std::vector<Site>& sites) {
  std::vector<bp::segment_data<int>> segments;
  for (const Site& site : sites) segments.emplace_back(whole(site.from), whole(site.to));
  bp::voronoi_diagram<double> diagram;
  bp::construct_voronoi(segments.begin(), segments.end(), &diagram);
  std::vector<Closest> necks;
  for (const auto& edge : diagram.edges()) {
    if (!edge.is_primary() || !edge.is_finite() || &edge > edge.twin()) continue;
    const Point from{edge.vertex0()->x() * grid, edge.vertex0()->y() * grid};
    const Point to{edge.vertex1()->x() * grid, edge.vertex1()->y() * grid};
    const Closest pair = closest(edge, sites, 0.5 * (from + to));
    const Point across = pair.q - pair.p, centre = 0.5 * (pair.p + pair.q);
    if (dot(across, across) < 1e-12 || parts_slanting_segments(edge, sites)) continue;
    // The edge runs across the line from p to q: the minimum is on it when its ends lie on both sides of that line.
    if (cross(across, from - centre) * cross(across, to - centre) < 0) necks.push_back(pair);
  }
  return necks;
}

bool in_ink(const std::vector<Site>& sites, Point p) {
  bool inside = false;
  for (const Site& s : sites) {
    if ((s.from.y > p.y) != (s.to.y > p.y) &&
        p.x < s.from.x + (p.y - s.from.y) / (s.to.y - s.from.y) * (s.to.x - s.from.x)) {
      inside = !inside;
    }
  }
  return inside;
}

double distance_to(const std::vector<Site>& sites, Point p) {
  double distance = 1e9;
  for (const Site& site : sites) {
    const Point way = site.to - site.from;
    const double t = std::clamp(dot(p - site.from, way) / dot(way, way), 0.0, 1.0);
    distance = std::min(distance, length(p - site.from - t * way));
  }
  return distance;
}

}  // namespace

TEST_CASE("every neck that Boost.Polygon's Voronoi diagram finds between deep parts of a letter is told") {
  Letters setting;
  const GaugeRules rules;
  std::size_t compared = 0;
  for (const char* face : faces) {
    for (const char* letter : letters) {
      INFO(face << " " << letter);
      const Polygons ink = setting.ink(face, letter);
      const std::vector<Site> sites = sites_of(ink);
      // Without rules for tips and touches: all necks but those on the scale of the chords.
      GaugeRules all = rules;
      all.tip_depth = 0;
      all.corner_depth = all.slot_depth = 0.2;
      all.touch = 0;
      const Thickness told = thickness_of(ink, all);
      for (const Closest& neck : voronoi_necks(sites)) {
        const Point centre = 0.5 * (neck.p + neck.q);
        const double width = length(neck.q - neck.p);
        // The polygon's own small corners make necks of their own: smaller than a few chords, or as wide as one.
        if (width < 20 * chord_error) continue;
        const std::vector<Gauge>& gauges = in_ink(sites, centre) ? told.strokes : told.gaps;
        const bool found = std::ranges::any_of(gauges, [&](const Gauge& gauge) {
          return length(gauge.at - centre) < 0.01 + width / 4 && std::abs(gauge.width - width) < 6 * chord_error;
        });
        // What is parted off on one side is shallower than a fifth of the disc: a dent in the polygon.
        const auto parts_off_little = [&] {
          const double far = 1.2 * width / 2 + 1e-6;
          const auto near = [&](const Site& site) { return length(site.to - centre) <= far; };
          return std::ranges::count_if(sites, near) > 2;
        };
        INFO("width " << width << " at " << centre.x << ", " << centre.y);
        CHECK((found || parts_off_little()));
        compared += found;
      }
    }
  }
  CHECK(compared > 1000);
}

TEST_CASE("every disc that is told for a letter is as wide as the outline lets it be") {
  Letters setting;
  for (const char* face : faces) {
    for (const char* letter : letters) {
      INFO(face << " " << letter);
      const Polygons ink = setting.ink(face, letter);
      const std::vector<Site> sites = sites_of(ink);
      const Thickness told = thickness_of(ink);
      for (const Gauge& gauge : told.strokes) {
        REQUIRE(in_ink(sites, gauge.at));
        REQUIRE(distance_to(sites, gauge.at) == Approx(gauge.width / 2).margin(3 * chord_error));
      }
      for (const Gauge& gauge : told.gaps) {
        REQUIRE_FALSE(in_ink(sites, gauge.at));
        REQUIRE(distance_to(sites, gauge.at) == Approx(gauge.width / 2).margin(3 * chord_error));
      }
    }
  }
}

TEST_CASE("a spot just below the thinnest stroke draws all of a letter but tips, on a raster") {
  // Opening by a disc: Serra, Image Analysis and Mathematical Morphology (1982), from memory. The distance transform is
  // Felzenszwalb and Huttenlocher's, Theory of Computing 8 (2012), 415–428.
  Letters setting;
  const GaugeRules rules;
  const double pixel = 1.0 / 700;  // em
  for (const char* face : {"serif", "sans", "slab", "script"}) {
    for (const char* letter : letters) {
      INFO(face << " " << letter);
      const Polygons ink = setting.ink(face, letter);
      const double width = least(thickness_of(ink).strokes);
      REQUIRE(width < 1);
      const double radius = 0.95 * width / 2;
      // A pixel's centre may be off the outline by half its diagonal, in the opening and in the depth.
      // Touches are left out of strokes: there a tip's depth counts from the neck's middle.
      CHECK(deepest_residue(ink, pixel, radius) <= rules.tip(radius) + rules.touch / 2 + 3 * pixel);
    }
  }
}

TEST_CASE("a spot clearly above a long hairline does not draw it, on a raster") {
  // Letters whose thinnest place is no join but a stroke or a tail, by eye.
  Letters setting;
  const GaugeRules rules;
  const double pixel = 1.0 / 700;  // em
  const std::pair<const char*, const char*> cases[] = {{"script", "t"}, {"script", "z"}, {"script", "u"},
                                                       {"script", "v"}, {"serif", "Z"},  {"slab", "T"}};
  for (const auto& [face, letter] : cases) {
    INFO(face << " " << letter);
    const Polygons ink = setting.ink(face, letter);
    const double radius = 1.2 * least(thickness_of(ink).strokes) / 2;
    CHECK(deepest_residue(ink, pixel, radius) > rules.tip_depth - 3 * pixel);
  }
}

namespace {

struct FaceFile {
  const char* folder;  // of the system's fonts
  const char* name;
};
const FaceFile vollkorn{"truetype/vollkorn", "Vollkorn-SemiBold.ttf"};
const FaceFile vollkorn_regular{"truetype/vollkorn", "Vollkorn-Regular.ttf"};
const FaceFile cabin{"opentype/cabin", "Cabin-Medium.otf"};
const FaceFile slab{"opentype/roboto/slab", "RobotoSlab-Bold.otf"};
const FaceFile yanone{"opentype/yanone-kaffeesatz", "YanoneKaffeesatz-Regular.otf"};
const FaceFile bebas{"opentype/bebas-neue", "BebasNeue-Regular.otf"};
const FaceFile script{"opentype/dancingscript", "DancingScript-Bold.otf"};
const FaceFile stencil{"opentype/allerta", "allerta_stencil.otf"};
const FaceFile blackletter{"truetype/blankenburg", "Blankenburg_UNZ1A.ttf"};
const FaceFile even{"truetype/routed-gothic", "routed-gothic.ttf"};
const FaceFile dejavu{"truetype/dejavu", "DejaVuSans.ttf"};

std::filesystem::path folder_of(const FaceFile& face) {
  return std::filesystem::path("/usr/share/fonts") / face.folder;
}

double stroke_of(const FaceFile& face, const std::string& letter) {
  const FontLibrary library(folder_of(face));
  Typesetter typesetter(library);
  const auto line = typesetter.shape(letter, {{face.name}, "en", ""});
  if (!line.ok()) FAIL(describe(line.fault()));
  return typesetter.gauges(*line).stroke.width;
}

}  // namespace

TEST_CASE("stems and hairlines have the widths that were measured by other means") {
  // To half a unit of the third place, or of the fourth: by a segment Voronoi diagram on a grid of 1/16 font unit, the
  // last three by an opening on a raster besides. Stems are the I; the thinnest is told of the letters that were measured
  // then. Of all letters it is thinner: there are joins, as the r's 0.034 in Vollkorn, and tails.
  struct Known {
    const FaceFile& face;
    const char* letter;
    double width, error;
  };
  const Known known[] = {
      {vollkorn, "I", 0.128, 6e-4},    {vollkorn, "e", 0.054, 6e-4},
      {cabin, "I", 0.107, 6e-4},       {cabin, "e", 0.070, 6e-4},
      {slab, "I", 0.142, 6e-4},        {slab, "e", 0.094, 6e-4},
      {yanone, "I", 0.083, 6e-4},      {yanone, "e", 0.065, 6e-4},
      {bebas, "I", 0.078, 6e-4},       {bebas, "O", 0.071, 6e-4},
      {script, "t", 0.019, 6e-4},      {stencil, "I", 0.119, 6e-4},
      {blackletter, "e", 0.033, 6e-4}, {even, "I", 0.094, 6e-4},
      {dejavu, "I", 0.0986, 1e-4},     {vollkorn_regular, "e", 0.0454, 2e-4},
      {dejavu, "e", 0.0698, 2e-4},
  };
  for (const Known& k : known) {
    INFO(k.face.name << " " << k.letter);
    CHECK(stroke_of(k.face, k.letter) == Approx(k.width).margin(k.error));
  }
}

TEST_CASE("a stem without serifs is as thick as its glyph is wide by fontTools") {
  for (const FaceFile& face : {cabin, yanone, bebas, stencil, even, dejavu}) {
    INFO(face.name);
    const std::string command =
        std::string(PYTHON " " TEST_FOLDER "/outside/glyph_width.py ") + (folder_of(face) / face.name).string() + " I";
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
    std::string answer(64, '\0');
    answer.resize(std::fread(answer.data(), 1, answer.size(), pipe.get()));
    CHECK(stroke_of(face, "I") == Approx(std::stod(answer)).margin(3e-4));
  }
}
