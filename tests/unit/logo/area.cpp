// Logos whose ink has a closed form: one unit of the drawing is a millimetre.
#include <cmath>
#include <numbers>

#include "logo_drawing.h"

namespace ordinatio::area_test {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double tolerance = 1e-3;  // of the area; four cubics miss a circle's by 4e-5, polygons by less

struct Case {
  const char* name;
  const char* body;
  double area;  // mm²
};

void check(const Case& drawing) {
  INFO(drawing.name);
  const Logo logo = drawn(drawing.body);
  CHECK(area_of(logo.fill) == Approx(drawing.area).epsilon(tolerance));
}

double radians(double degrees) { return degrees * pi / 180; }

// Two arms of length L in an angle θ, stroked h to either side: 2·2h·L, less the kite both arms cover, plus the join.
double kite(double half_width, double angle) { return half_width * half_width / std::tan(angle / 2); }

// A five-pointed star of radius R drawn in one stroke: its inner pentagon has the radius R·cos 72° / cos 36°.
double star_inner(double radius) { return radius * std::cos(radians(72)) / std::cos(radians(36)); }
double star_area(double radius) { return 5 * radius * star_inner(radius) * std::sin(radians(36)); }
double pentagon_area(double radius) { return 2.5 * radius * radius * std::sin(radians(72)); }

// What two circles of radius r at a distance d share.
double lens(double r, double d) { return 2 * r * r * std::acos(d / (2 * r)) - d / 2 * std::sqrt(4 * r * r - d * d); }

}  // namespace

TEST_CASE("fills have the area of their shape") {
  const Case cases[] = {
      {"rectangle", "<rect x='10' y='20' width='20' height='10'/>", 200},
      {"rounded rectangle", "<rect x='10' y='20' width='20' height='10' rx='2'/>", 200 - (4 - pi) * 4},
      {"circle", "<circle cx='50' cy='50' r='10'/>", 100 * pi},
      {"ellipse", "<ellipse cx='50' cy='50' rx='20' ry='5'/>", 100 * pi},
      {"polygon", "<polygon points='10,10 30,10 10,40'/>", 300},
      {"open polyline, closed by the fill", "<polyline points='10,10 30,10 10,40'/>", 300},
      {"arc", "<path d='M40 50 A10 10 0 0 1 60 50 Z'/>", 50 * pi},
      {"quadratic, two thirds of its triangle's height", "<path d='M10 10 Q20 30 30 10 Z'/>", 2.0 / 3 * 20 * 10},
      {"an L of upright edges", "<path d='M10 10h30v10h-20v30h-10z'/>", 600},
      {"relative and absolute commands", "<path d='M10 10 L20 10 l0 5 H10 v-5z'/>", 50},
      {"an x far off the page, cut by a page within it",
       "<svg width='99' height='100'><rect x='-500' y='10' width='700' height='3'/></svg>", 297},
  };
  for (const Case& drawing : cases) check(drawing);
}

TEST_CASE("transforms, references, styles and units are resolved") {
  const Case cases[] = {
      {"turned and scaled", "<rect width='20' height='10' transform='translate(40 40) rotate(30) scale(2)'/>", 800},
      {"sheared: the determinant counts",
       "<rect x='10' y='10' width='20' height='10' transform='matrix(1 .5 .25 1 0 0)'/>", 200 * (1 - 0.125)},
      {"nested transforms",
       "<g transform='translate(50 50)'><g transform='scale(2 3)'><g transform='rotate(45)'><rect width='5' "
       "height='4'/></g></g></g>",
       120},
      {"mirrored", "<g transform='translate(100 0) scale(-1 1)'><path d='M10 10h10v10z'/></g>", 50},
      {"use with a transform",
       "<defs><rect id='r' width='5' height='4'/></defs><use href='#r' x='10' y='10'/>"
       "<use xlink:href='#r' transform='translate(50 50) rotate(30) scale(2)'/>",
       20 + 80},
      {"use of a use",
       "<defs><rect id='r' width='5' height='4'/><g id='two'><use href='#r'/><use href='#r' x='10'/></g>"
       "</defs><use href='#two' y='10'/><use href='#two' y='30'/>",
       80},
      {"symbol with a viewBox",
       "<symbol id='s' viewBox='0 0 10 10'><path d='M0 0h10v10z'/></symbol><use href='#s' x='10' y='10' width='20' "
       "height='20'/>",
       200},
      {"class",
       "<style>.ink{fill:#123} .none{fill:none} /* rect{display:none} */</style>"
       "<rect class='ink' width='5' height='4'/><rect class='none' x='20' width='5' height='4'/>",
       20},
      {"style outranks class outranks attribute",
       "<style>.none{fill:none}</style><rect class='none' fill='black' width='5' height='4'/>"
       "<rect class='none' style='fill:black' x='20' width='5' height='4'/>",
       20},
      {"currentColor", "<g color='black' fill='currentColor'><rect width='5' height='4'/></g>", 20},
      {"display and visibility",
       "<rect width='5' height='4'/><rect x='10' width='5' height='4' display='none'/>"
       "<rect x='20' width='5' height='4' visibility='hidden'/>",
       20},
      {"millimetres inside",
       "<svg x='10mm' width='50mm' height='50mm' viewBox='0 0 5 5'><rect width='1' height='1'/></svg>",
       // 96/25.4 user units of the outer page are a millimetre to CSS, whatever the viewBox says
       std::pow(10 * 96 / 25.4, 2)},
      {"marker at the end of a line",
       "<marker id='m' markerWidth='4' markerHeight='4' refX='2' refY='2' markerUnits='userSpaceOnUse'><rect width='4' "
       "height='4'/></marker><path d='M10 10 H30' stroke='black' stroke-width='2' marker-end='url(#m)'/>",
       40 + 16 - 4},
  };
  for (const Case& drawing : cases) check(drawing);
}

TEST_CASE("fill rules, clips and paint order decide what is ink") {
  const Case cases[] = {
      {"star, non-zero", "<path d='M50 10 L73.511 82.361 L11.958 37.639 L88.042 37.639 L26.489 82.361Z'/>",
       star_area(40)},
      {"star, even-odd",
       "<path fill-rule='evenodd' d='M50 10 L73.511 82.361 L11.958 37.639 L88.042 37.639 L26.489 82.361Z'/>",
       star_area(40) - pentagon_area(star_inner(40))},
      {"a square in a square, same way round, non-zero", "<path d='M10 10h20v20h-20z M15 15h10v10h-10z'/>", 400},
      {"a square in a square, even-odd", "<path fill-rule='evenodd' d='M10 10h20v20h-20z M15 15h10v10h-10z'/>", 300},
      {"a square in a square, other way round", "<path d='M10 10h20v20h-20z M15 15v10h10v-10z'/>", 300},
      {"two circles that overlap", "<circle cx='40' cy='50' r='10'/><circle cx='52' cy='50' r='10'/>",
       200 * pi - lens(10, 12)},
      {"two squares that share an edge, turned",
       "<g transform='rotate(13)'><rect x='20' y='10' width='10' height='10'/><rect x='30' y='12' width='10' "
       "height='6'/></g>",
       160},
      {"clipped to a quarter of a circle",
       "<clipPath id='c'><circle cx='50' cy='50' r='10'/></clipPath><rect x='50' y='50' width='30' height='30' "
       "clip-path='url(#c)'/>",
       25 * pi},
      {"two clips: what both leave",
       "<clipPath id='c'><circle cx='40' cy='50' r='10'/></clipPath><clipPath id='d'><circle cx='52' cy='50' r='10'/>"
       "</clipPath><g clip-path='url(#c)'><rect width='100' height='100' clip-path='url(#d)'/></g>",
       lens(10, 12)},
      {"clip by even-odd",
       "<clipPath id='c'><path clip-rule='evenodd' d='M10 10h20v20h-20z M15 15h10v10h-10z'/></clipPath>"
       "<rect width='100' height='100' clip-path='url(#c)'/>",
       300},
      {"a nested page clips", "<svg x='10' y='10' width='20' height='20'><circle r='50'/></svg>", 400},
      {"a nested page that lets out",
       "<svg x='10' y='10' width='2' height='2' overflow='visible'><rect width='20' "
       "height='20'/></svg>",
       400},
      {"white knocks out", "<rect x='10' y='10' width='20' height='20'/><circle cx='20' cy='20' r='5' fill='white'/>",
       400 - 25 * pi},
      {"black over white over black",
       "<rect x='10' y='10' width='20' height='20'/><rect x='12' y='12' width='16' height='16' fill='#fff'/>"
       "<rect x='15' y='15' width='10' height='10'/>",
       400 - 256 + 100},
      {"white under black takes nothing",
       "<rect width='100' height='100' fill='#fff'/><rect x='10' width='5' height='4'/>", 20},
      {"a white stroke parts two",
       "<rect x='10' y='10' width='20' height='20'/><path d='M20 5v30' stroke='#fff' "
       "stroke-width='2'/>",
       360},
      {"dark red is ink, yellow is none",
       "<rect x='10' y='10' width='20' height='20' fill='#a00'/><rect x='10' y='10' width='10' height='10' "
       "fill='yellow'/>",
       300},
      {"fully transparent paint is none",
       "<rect width='5' height='4'/><rect x='10' width='5' height='4' opacity='0'/><rect x='20' width='5' height='4' "
       "fill-opacity='0'/><rect x='30' width='5' height='4' fill='transparent'/>",
       20},
      {"an isolated group is a group", "<g style='isolation:isolate'><rect width='5' height='4'/></g>", 20},
  };
  for (const Case& drawing : cases) check(drawing);
}

TEST_CASE("strokes are outlined with their caps and joins") {
  const double turn60 = radians(60), turn20 = radians(20);
  // An angle of 60° between two arms of 20, and a sharp one of 20°, its point at (50, 50).
  const char* const wide = "<path fill='none' stroke='black' stroke-width='4' d='M70 50 H50 L60 67.3205'";
  const char* const sharp = "<path fill='none' stroke='black' stroke-width='4' d='M90 50 H50 L87.5877 63.6808'";
  const std::string joined[] = {
      std::string(wide) + " stroke-linejoin='miter'/>", std::string(wide) + " stroke-linejoin='bevel'/>",
      std::string(wide) + " stroke-linejoin='round'/>", std::string(sharp) + " stroke-linejoin='miter'/>",
      std::string(sharp) + " stroke-miterlimit='6'/>",
  };
  const Case cases[] = {
      {"butt caps", "<path d='M10 10h20' stroke='black' stroke-width='2'/>", 40},
      {"round caps", "<path d='M10 10h20' stroke='black' stroke-width='2' stroke-linecap='round'/>", 40 + pi},
      {"square caps", "<path d='M10 10h20' stroke='black' stroke-width='2' stroke-linecap='square'/>", 44},
      {"mitre", joined[0].c_str(), 160},
      {"bevel", joined[1].c_str(), 160 - kite(2, turn60) + 2 * std::sin(turn60)},
      {"round join", joined[2].c_str(), 160 - kite(2, turn60) + 2 * (pi - turn60)},
      {"a mitre over the limit is a bevel", joined[3].c_str(), 320 - kite(2, turn20) + 2 * std::sin(turn20)},
      {"a mitre within a higher limit", joined[4].c_str(), 320},
      {"closed square, mitre",
       "<rect x='10' y='10' width='20' height='20' fill='none' stroke='black' stroke-width='2'/>", 22 * 22 - 18 * 18},
      {"closed square, bevel",
       "<rect x='10' y='10' width='20' height='20' fill='none' stroke='black' stroke-width='2' "
       "stroke-linejoin='bevel'/>",
       160 - 4 * 0.5},
      {"closed square, round",
       "<rect x='10' y='10' width='20' height='20' fill='none' stroke='black' stroke-width='2' "
       "stroke-linejoin='round'/>",
       160 - 4 * (1 - pi / 4)},
      {"fill and stroke together", "<rect x='10' y='10' width='20' height='20' stroke='black' stroke-width='2'/>", 484},
      {"ring", "<circle cx='50' cy='50' r='20' fill='none' stroke='black' stroke-width='4'/>",
       pi * (22 * 22 - 18 * 18)},
      {"a stroke wider than its circle", "<circle cx='50' cy='50' r='5' fill='none' stroke='black' stroke-width='20'/>",
       pi * 15 * 15},
      {"a stroke wider than its square",
       "<rect x='40' y='40' width='15' height='15' fill='none' stroke='black' stroke-width='20'/>", 35 * 35},
      {"a pen squeezed by a transform",
       "<path transform='scale(1 3)' d='M10 10h20' fill='none' stroke='black' stroke-width='2'/>", 120},
      {"a turned pen, squeezed: area goes with the determinant",
       "<path transform='scale(1 3) rotate(30)' d='M20 0h20' fill='none' stroke='black' stroke-width='2' "
       "stroke-linecap='round'/>",
       3 * (40 + pi)},
      {"there and back",
       "<path d='M10 10 H30 H10' fill='none' stroke='black' stroke-width='2' stroke-linejoin='round'/>", 40 + pi / 2},
      {"a round dot", "<path d='M10 10h0' stroke='black' stroke-width='16' stroke-linecap='round'/>", 64 * pi},
      {"a square dot", "<path d='M10 10h0' stroke='black' stroke-width='4' stroke-linecap='square'/>", 16},
      {"a stroke that crosses itself, once",
       "<path d='M10 20 H50 V40 H30 V10' fill='none' stroke='black' stroke-width='2'/>", 2 * (40 + 20 + 20 + 30) - 4},
  };
  for (const Case& drawing : cases) check(drawing);
}

TEST_CASE("dashes lie where SVG says, along and around") {
  const Case cases[] = {
      {"5 on, 3 off, over 100", "<path d='M0 10h100' stroke='black' stroke-width='2' stroke-dasharray='5 3'/>", 2 * 64},
      {"begun 2 late",
       "<path d='M0 10h100' stroke='black' stroke-width='2' stroke-dasharray='5 3' stroke-dashoffset='2'/>",
       2 * (3 + 12 * 5 + 0)},
      {"begun before",
       "<path d='M0 10h100' stroke='black' stroke-width='2' stroke-dasharray='5 3' stroke-dashoffset='-2'/>",
       2 * (12 * 5 + 2)},
      {"an odd pattern goes on twice", "<path d='M0 10h18' stroke='black' stroke-width='2' stroke-dasharray='1 2 3'/>",
       2 * (1 + 3 + 2 + 1 + 3)},
      {"round dots",
       "<path d='M10 20h76' stroke='black' stroke-width='16' stroke-dasharray='0 24' stroke-linecap='round'/>",
       4 * 64 * pi},
      {"a dash around a corner keeps its mitre",
       "<path d='M10 10h20v20' fill='none' stroke='black' stroke-width='2' stroke-dasharray='30 100'/>", 60},
      {"a dash over the start of a closed path is one",
       "<path d='M10 10h20v20h-20z' fill='none' stroke='black' stroke-width='2' stroke-dasharray='20' "
       "stroke-dashoffset='10'/>",
       80},
      {"a pattern of nothing is solid", "<path d='M10 10h20' stroke='black' stroke-width='2' stroke-dasharray='0 0'/>",
       40},
  };
  for (const Case& drawing : cases) check(drawing);
}

TEST_CASE("the box is the SVG's own size in millimetres") {
  struct Sized {
    const char* attributes;
    double width, height, area;
  };
  // CSS Values and Units 4, section 6.2: an inch is 96 px, 72 pt, 2.54 cm.
  const Sized cases[] = {
      {"width='25.4mm' height='50.8mm' viewBox='0 0 10 20'", 25.4, 50.8, 25.4 * 25.4},
      {"width='96' height='192px' viewBox='0 0 10 20'", 25.4, 50.8, 25.4 * 25.4},
      {"width='1in' height='2in' viewBox='0 0 10 20'", 25.4, 50.8, 25.4 * 25.4},
      {"width='2.54cm' height='144pt' viewBox='0 0 10 20'", 25.4, 50.8, 25.4 * 25.4},
      {"viewBox='0 0 10 20'", 10 * 25.4 / 96, 20 * 25.4 / 96, std::pow(10 * 25.4 / 96, 2)},
      {"width='100%' height='100%' viewBox='0 0 10 20'", 10 * 25.4 / 96, 20 * 25.4 / 96, std::pow(10 * 25.4 / 96, 2)},
      // preserveAspectRatio (SVG 1.1, section 7.8): a square of half the viewBox, set in a page twice as wide as high
      {"width='100mm' height='50mm' viewBox='0 0 10 20'", 100, 50, 25 * 25},
      {"width='100mm' height='50mm' viewBox='0 0 10 20' preserveAspectRatio='none'", 100, 50, 100 * 25},
      {"width='100mm' height='50mm' viewBox='0 0 20 20' preserveAspectRatio='xMinYMin slice'", 100, 50, 50 * 50},
      {"width='50mm' height='100mm' viewBox='-5 -10 15 30'", 50, 100, std::pow(100.0 / 3, 2)},
  };
  for (const Sized& page : cases) {
    INFO(page.attributes);
    const Logo logo = logo_of(svg_with(page.attributes, "<rect width='10' height='10'/>"));
    CHECK(logo.box.left == 0);
    CHECK(logo.box.bottom == 0);
    CHECK(logo.box.right == Approx(page.width).epsilon(1e-6));
    CHECK(logo.box.top == Approx(page.height).epsilon(1e-6));
    CHECK(area_of(logo.fill) == Approx(page.area).epsilon(tolerance));
  }
}

}  // namespace ordinatio::area_test
