// A photograph of a piece of known measures beside the card, as a phone might take it: for the browser's story to choose.
// Run: photograph FILE.jpg
#include <iostream>

#include "../unit/photo/scene.h"
#include "base/base.h"

int main(int argc, char** argv) {
  using namespace ordinatio;
  if (argc != 2) return 2;
  Scene scene;
  scene.camera = {.width = 1800, .height = 1350, .focal = 1460, .aim = {80, 110}, .distance = 430};
  scene.camera.tilt = 18, scene.camera.azimuth = 200;
  scene.table = {0.35, 0.27, 0.18};
  scene.grain = 0.1, scene.falloff = 0.3, scene.vignette = 0.3, scene.blur = 0.7, scene.noise = 2;
  // 150 × 100, its upper right corner cut by 30 × 20; turned by 6 degrees.
  const Polygon piece = laid({{0, 0}, {150, 0}, {150, 80}, {120, 100}, {0, 100}}, 6, {10, 150});
  scene.patches = {{piece, {0.04, 0.045, 0.05}}};
  if (auto fault = write_file(argv[1], jpeg_of(render(scene), 88))) {
    std::cerr << describe(*fault) << "\n";
    return 3;
  }
  return 0;
}
