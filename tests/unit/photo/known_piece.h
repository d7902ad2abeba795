// One photograph for all who need any: a slate of known measures beside the card, as a phone might take it.
#pragma once

#include "scene.h"

namespace ordinatio {

/// 150 × 100, its upper right corner cut by 30 × 20. mm
inline const Polygon known_piece{{0, 0}, {150, 0}, {150, 80}, {120, 100}, {0, 100}};

inline std::string photograph_of_known_piece() {
  Scene scene;
  scene.camera = {.width = 1800, .height = 1350, .focal = 1460, .aim = {80, 110}, .distance = 430};
  scene.camera.tilt = 18, scene.camera.azimuth = 200;
  scene.table = {0.35, 0.27, 0.18};
  scene.grain = 0.1, scene.falloff = 0.3, scene.vignette = 0.3, scene.blur = 0.7, scene.noise = 2;
  scene.patches = {{laid(known_piece, 6, {10, 150}), {0.04, 0.045, 0.05}}};
  return jpeg_of(render(scene), 88);
}

}  // namespace ordinatio
