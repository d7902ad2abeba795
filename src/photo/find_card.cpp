#include <algorithm>
#include <cmath>
#include <numbers>

#include "photo/card.h"
#include "photo/marks.h"
#include "photo/photo_limits.h"

namespace ordinatio::inline photo {
namespace {

constexpr double coarse_pixels = 2.5e6;    // marks are looked for in so many: more costs time and shows no more
constexpr double corner_window = 0.5;      // of the mark's narrower radius: within the quarters, clear of the ring
constexpr double least_agreement = 0.9;    // of the places looked at on a mark, the black and white that must be right
constexpr double area_tolerance = 0.25;    // a mark's area beside what the others make of it; blur takes a tenth
constexpr double centre_tolerance = 0.12;  // of its radius: the same for the ellipse's middle
constexpr int spokes = 16;                 // around a mark, where it is looked at
constexpr double white_ring = mark_radius + 0.55 * mark_clear;

Fault no_measure(std::string why, std::string mend) {
  return {"the photo cannot be measured by", {}, std::move(why), std::move(mend)};
}

/// The photo's light, and marks as seen in it.
struct Sight {
  Brightness brightness;
  std::vector<SeenMark> marks;
};

Sight look_at(const Photo& photo) {
  Sight sight{brightness_of(photo), {}};
  Brightness coarse = sight.brightness;
  double scale = 1;
  while (static_cast<double>(coarse.width) * coarse.height > coarse_pixels) coarse = halved(coarse), scale *= 2;
  for (SeenMark mark : seen_marks(coarse)) {
    mark.centre = scale * mark.centre;
    mark.xx *= scale * scale, mark.xy *= scale * scale, mark.yy *= scale * scale;
    const Point ellipse = mark.centre;
    const auto place = quarters_meet(sight.brightness, ellipse, std::max(2.5, corner_window * mark.narrower()));
    if (!place || length(*place - ellipse) > centre_tolerance * 2 * mark.narrower()) continue;
    mark.centre = *place;
    sight.marks.push_back(mark);
  }
  return sight;
}

Point around(Point centre, double radius, int spoke) {
  const double angle = 2 * std::numbers::pi * (spoke + 0.5) / spokes;
  return centre + Point{radius * std::cos(angle), radius * std::sin(angle)};
}

/// Whether a mark's ellipse has the size that the map gives it.
bool is_as_large(const SeenMark& seen, const Homography& to_photo, std::size_t mark) {
  Polygon rim;
  for (int i = 0; i < spokes; ++i) {
    const Point p = around(mark_places[mark], mark_radius, i);
    if (!(to_photo.depth(p) > 0)) return false;
    rim.push_back(to_photo(p));
  }
  constexpr double of_circle = 1.026;  // a circle's area beside the polygon's of 16 corners
  return std::abs(std::abs(area_of(rim)) * of_circle / seen.area() - 1) < area_tolerance;
}

/// Whether a mark's quarters, its ring and the paper around are where the map says.
bool looks_like(const Sight& sight, const SeenMark& seen, const Homography& to_photo, std::size_t mark) {
  const double middle = (seen.dark + seen.light) / 2;
  int right = 0, count = 0;
  for (const double radius : {0.35 * disc_radius, 0.65 * disc_radius, (disc_radius + mark_radius) / 2, white_ring}) {
    for (int i = 0; i < spokes; ++i) {
      if (i % 4 == 0 || i % 4 == 3) {  // beside the edges of the quarters
        if (radius < disc_radius) continue;
      }
      const Point from_centre = around({}, radius, i);
      const bool black = radius < mark_radius && is_black_in_mark(mark, from_centre);
      const double light = light_at(sight.brightness, to_photo(mark_places[mark] + from_centre));
      right += (light < middle) == black ? 1 : 0;
      ++count;
    }
  }
  return right >= least_agreement * count;
}

/// A way to take four of the marks seen for the card's.
struct Reading {
  std::array<std::size_t, 4> seen{};  // which, for each of the card's
  Homography to_photo;
};

std::optional<Reading> reading_of(const Sight& sight, const std::array<std::size_t, 4>& seen) {
  std::array<Point, 4> places;
  for (std::size_t i = 0; i < 4; ++i) places.at(i) = sight.marks[seen.at(i)].centre;
  const auto map = homography_between(mark_places, places);
  if (!map) return std::nullopt;
  for (std::size_t i = 0; i < 4; ++i) {
    if (!(map->depth(mark_places.at(i)) > 0) || !is_as_large(sight.marks[seen.at(i)], *map, i)) return std::nullopt;
  }
  for (std::size_t i = 0; i < 4; ++i) {
    if (!looks_like(sight, sight.marks[seen.at(i)], *map, i)) return std::nullopt;
  }
  return Reading{seen, *map};
}

/// All readings of four marks, in every order that goes round them.
void add_readings(const Sight& sight, std::array<std::size_t, 4> four, std::vector<Reading>& readings) {
  Point middle;
  for (const std::size_t i : four) middle = middle + 0.25 * sight.marks[i].centre;
  std::ranges::sort(four, {}, [&](std::size_t i) {
    const Point p = sight.marks[i].centre - middle;
    return std::atan2(p.y, p.x);
  });
  for (int turn = 0; turn < 8; ++turn) {
    if (turn == 4) std::ranges::reverse(four);
    std::rotate(four.begin(), four.begin() + 1, four.end());
    if (auto reading = reading_of(sight, four)) readings.push_back(*reading);
  }
}

std::vector<Reading> readings_of(const Sight& sight) {
  std::vector<Reading> readings;
  const std::size_t count = sight.marks.size();
  for (std::size_t a = 0; a < count; ++a) {
    for (std::size_t b = a + 1; b < count; ++b) {
      for (std::size_t c = b + 1; c < count; ++c) {
        for (std::size_t d = c + 1; d < count; ++d) add_readings(sight, {a, b, c, d}, readings);
      }
    }
  }
  return readings;
}

/// Lengths in the photo of a mm on the card, least and most over its directions: the slope's singular values.
double least_stretch(const Transform& slope) {
  const double p = slope.xx * slope.xx + slope.yx * slope.yx, q = slope.xy * slope.xy + slope.yy * slope.yy;
  const double r = slope.xx * slope.xy + slope.yx * slope.yy;
  return std::sqrt(std::max(0.0, (p + q) / 2 - std::hypot((p - q) / 2, r)));
}

/// What a point is smeared to: an edge of height h that is blurred by σ rises by h / (σ·√2π) where it is steepest. Over the four
/// edges of a mark's quarters.
double blur_of(const Sight& sight, const Reading& reading, std::size_t mark) {
  constexpr double step = 0.1;  // mm
  constexpr int reach = 20;     // steps to either side
  double sum = 0;
  for (int edge = 0; edge < 4; ++edge) {
    const Point along = edge % 2 == 0 ? Point{edge - 1.0, 0} : Point{0, edge - 2.0}, across{-along.y, along.x};
    std::array<double, 2 * reach + 1> profile{};
    for (std::size_t i = 0; i < profile.size(); ++i) {
      const double aside = (static_cast<double>(i) - reach) * step;
      for (const double radius : {0.45, 0.55, 0.65}) {
        const Point place = mark_places.at(mark) + radius * disc_radius * along + aside * across;
        profile.at(i) += light_at(sight.brightness, reading.to_photo(place)) / 3;
      }
    }
    double steepest = 0;
    for (std::size_t i = 2; i < profile.size(); ++i) {
      steepest = std::max(steepest, std::abs(profile.at(i) - profile.at(i - 2)) / (2 * step));
    }
    sum += std::abs(profile.front() - profile.back()) / (std::max(steepest, 1e-9) * std::sqrt(2 * std::numbers::pi));
  }
  return sum / 4;
}

Fault card_not_seen(std::size_t count) {
  if (count == 0)
    return no_measure("no mark of the card is seen",
                      "Lay the printed card beside the piece, all of it in the picture, sharp and in even light");
  if (count < 4)
    return no_measure(
        "only " + std::to_string(count) + " of the card's 4 marks " + (count == 1 ? "is" : "are") + " seen",
        "Let nothing lie over a mark, no glare or shadow's edge fall on one, and all four be in the picture");
  return no_measure("four marks are seen, but they do not lie as on the card",
                    "Lay the card flat, see that no mark is hidden, and print it anew if it is worn");
}

MaybeFault two_cards(const std::vector<Reading>& readings) {
  for (const Reading& reading : readings) {
    if (reading.seen != readings.front().seen)
      return no_measure("more than one card is seen", "Leave one card beside the piece and take the other away");
  }
  return std::nullopt;
}

MaybeFault too_coarse(const CardView& view) {
  std::string text;
  if (view.pixels_per_mm < least_pixels_per_mm) {
    append_number(text, view.pixels_per_mm, 1);
    return no_measure("the card is too small in the picture: " + text + " pixels a millimetre",
                      "Go nearer, so that card and piece fill the picture, or take it in a higher resolution");
  }
  if (view.blur > most_blur)
    return no_measure("the picture is too blurred: " + mm_text(view.blur, 1) + " on the card",
                      "Hold the phone still, tap on the card to focus, and give it more light");
  return std::nullopt;
}

}  // namespace

Result<CardView> find_card(const Photo& photo) {
  if (std::min(photo.width, photo.height) < least_side)
    return no_measure(
        "the picture is " + std::to_string(photo.width) + " × " + std::to_string(photo.height) + " pixels",
        "Take it with the phone's own camera, and send it in its full size");
  const Sight sight = look_at(photo);
  const std::vector<Reading> readings = readings_of(sight);
  if (readings.empty()) return card_not_seen(sight.marks.size());
  if (auto fault = two_cards(readings)) return *std::move(fault);
  const Reading& reading = readings.front();
  const auto back = inverse_of(reading.to_photo);
  if (!back) return card_not_seen(sight.marks.size());
  CardView view{reading.to_photo, *back, {}, 0, 0};
  const Point middle = 0.5 * mark_places[2];
  // The card has y up and the photo y down: seen from above, its map turns round.
  if (slope_at(view.to_photo, middle).determinant() > 0)
    return no_measure("the card is seen as in a mirror", "Take the photo with the camera on the back of the phone");
  view.pixels_per_mm = least_stretch(slope_at(view.to_photo, middle));
  for (std::size_t i = 0; i < 4; ++i) {
    view.marks.at(i) = sight.marks[reading.seen.at(i)].centre;
    view.blur = std::max(view.blur, blur_of(sight, reading, i));
  }
  if (auto fault = too_coarse(view)) return *std::move(fault);
  return view;
}

}  // namespace ordinatio::inline photo
