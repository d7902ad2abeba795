// How many pieces break, drawn by lot. Of this folder alone.
#pragma once

#include "base/lots.h"

namespace ordinatio::inline plan {

/// Of so many pieces each breaks with that share: how many do. Drawn by the gaps between those that do (Devroye 1986, chapter
/// X.4): the cost is the rarer of both.
int broken_of(int pieces, double share, Lots& lots);

/// How many pieces are begun until so many are whole, where each is whole with that share: negative binomial, mean wanted / whole,
/// variance wanted · (1 − whole) / whole².
int begun_until(int wanted, double whole, Lots& lots);

}  // namespace ordinatio::inline plan
