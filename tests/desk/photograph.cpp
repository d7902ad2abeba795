// Writes the photograph that the browser's story chooses. Run: photograph FILE.jpg
#include <iostream>

#include "../unit/photo/known_piece.h"
#include "base/base.h"

int main(int argc, char** argv) {
  if (argc != 2) return 2;
  if (auto fault = ordinatio::write_file(argv[1], ordinatio::photograph_of_known_piece())) {
    std::cerr << describe(*fault) << "\n";
    return 3;
  }
  return 0;
}
