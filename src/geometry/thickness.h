#pragma once
#include "geometry/geometry.h"
namespace ordinatio {
struct Gauge { Point at; double width = 0; };
}
