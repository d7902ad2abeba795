// Photos of known things, drawn by a camera of our own that shares nothing with the room it tests but the card's geometry.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "photo/card.h"
#include "photo/photo.h"

namespace ordinatio {

struct Light {
  double red = 0, green = 0, blue = 0;  // linear, 0 to 1
};

/// A pinhole camera over the plane z = 0, in the card's coordinates.
struct Camera {
  int width = 1600, height = 1200;
  double focal = 1300;    // pixels: a phone's main camera has some 0.8 of the picture's width
  Point aim{80, 50};      // what it looks at, mm
  double distance = 420;  // mm from there
  double tilt = 0;        // degrees from straight above
  double azimuth = 0;     // degrees: from where it leans over
  double roll = 0;        // degrees about its own axis

  /// Where the ray of a place in the picture meets the plane; nothing at the horizon.
  [[nodiscard]] std::optional<Point> seen_at(Point pixel) const;
};

struct Patch {
  Polygon shape;
  Light light;
};

struct Scene {
  Camera camera;
  Light table{0.20, 0.15, 0.10};
  std::vector<Patch> patches;        // the piece, and what lies over it all; later ones on top
  std::vector<Transform> cards{{}};  // where cards lie
  double grain = 0;                  // of the table: ± as a share of its light
  double falloff = 0;                // of the light, over 300 mm to the right, as a share
  double vignette = 0;               // at the picture's corners, as a share
  double blur = 0;                   // pixels, standard deviation
  double noise = 0;                  // 8-bit steps, standard deviation
  bool mirrored = false;
  std::uint32_t seed = 1797;
};

Photo render(const Scene& scene);

/// A corner-wise turned and shifted polygon.
Polygon laid(const Polygon& polygon, double degrees, Point shift);

}  // namespace ordinatio
