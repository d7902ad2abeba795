#include "check/contour_shape.h"

#include <algorithm>
#include <cmath>

#include "check/cubic.h"

namespace ordinatio::inline check {
namespace {

/// A piece within this of its chord is taken for it, mm: far below what a file's last place tells.
constexpr double straight = 2e-4;
/// Halvings after which two curves count as touching. Each brings a curve four times nearer to its chord: 20 are enough
/// for 1e9 mm; reached only by numbers without sense, and then the areas decide.
constexpr int halving_limit = 20;

void widen(Bounds& box, Point p) {
  box.left = std::min(box.left, p.x), box.right = std::max(box.right, p.x);
  box.bottom = std::min(box.bottom, p.y), box.top = std::max(box.top, p.y);
}

template <std::size_t count>
ContourPiece piece_of(const Point (&control)[count]) {
  ContourPiece piece{{}, count - 1, {control[0].x, control[0].y, control[0].x, control[0].y}};
  for (std::size_t i = 0; i < count; ++i) {
    piece.control[i] = control[i];
    widen(piece.box, control[i]);
  }
  return piece;
}

bool touch(const Bounds& a, const Bounds& b) {
  return a.left <= b.right && b.left <= a.right && a.bottom <= b.top && b.bottom <= a.top;
}

/// Whether the strip along a's chord that holds a leaves all of b on one side.
bool strip_parts(const ContourPiece& a, const ContourPiece& b) {
  const Point along = a.end() - a.start();
  const auto reach = [&](const ContourPiece& piece) {
    double low = 1e300, high = -1e300;
    for (int i = 0; i <= piece.degree; ++i) {
      const double at = cross(along, piece.control[static_cast<std::size_t>(i)] - a.start());
      low = std::min(low, at), high = std::max(high, at);
    }
    return std::pair{low, high};
  };
  const auto [a_low, a_high] = reach(a);
  const auto [b_low, b_high] = reach(b);
  return b_low > a_high || b_high < a_low;
}

bool is_straight(const ContourPiece& piece) {
  if (piece.degree == 1) return true;
  const Point along = piece.end() - piece.start();
  const double span = length(along);
  if (span <= straight) return std::max(piece.box.width(), piece.box.height()) <= straight;
  const auto off = [&](std::size_t i) { return std::abs(cross(along, piece.control[i] - piece.start())); };
  return std::max(off(1), piece.degree == 3 ? off(2) : 0.0) <= straight * span;
}

std::array<ContourPiece, 2> halves_of(const ContourPiece& piece) {
  const auto& [a, b, c, d] = piece.control;
  const auto middle = [](Point p, Point q) { return 0.5 * (p + q); };
  if (piece.degree == 2) {
    const Point first = middle(a, b), second = middle(b, c), top = middle(first, second);
    return {piece_of({a, first, top}), piece_of({top, second, c})};
  }
  const Point ab = middle(a, b), bc = middle(b, c), cd = middle(c, d);
  const Point abc = middle(ab, bc), bcd = middle(bc, cd), m = middle(abc, bcd);
  return {piece_of({a, ab, abc, m}), piece_of({m, bcd, cd, d})};
}

/// Whether two lines have a point in common, ends and all.
bool lines_meet(Point a, Point b, Point c, Point d) {
  const double c_side = cross(b - a, c - a), d_side = cross(b - a, d - a);
  const double a_side = cross(d - c, a - c), b_side = cross(d - c, b - c);
  return c_side * d_side <= 0 && a_side * b_side <= 0;  // boxes that touch tell lines in one line apart
}

bool pieces_meet(const ContourPiece& a, const ContourPiece& b, int halvings) {
  if (!touch(a.box, b.box) || strip_parts(a, b) || strip_parts(b, a)) return false;
  const bool a_straight = is_straight(a), b_straight = is_straight(b);
  if (a_straight && b_straight) return lines_meet(a.start(), a.end(), b.start(), b.end());
  if (halvings == halving_limit) return true;
  const bool cut_a = !a_straight && (b_straight || a.box.width() + a.box.height() >= b.box.width() + b.box.height());
  return std::ranges::any_of(halves_of(cut_a ? a : b),
                             [&](const ContourPiece& half) { return pieces_meet(half, cut_a ? b : a, halvings + 1); });
}

/// Which way a piece crosses the level line from p to the right: 1 upwards, −1 downwards.
int crossing_of(const ContourPiece& piece, Point p, int halvings) {
  if (p.y < piece.box.bottom || p.y > piece.box.top || p.x > piece.box.right) return 0;
  const Point a = piece.start(), b = piece.end();
  if (p.x < piece.box.left || is_straight(piece) || halvings == halving_limit) {
    if ((a.y <= p.y) == (b.y <= p.y)) return 0;
    const bool up = a.y <= p.y;
    const bool p_is_left = p.x < piece.box.left || (cross(b - a, p - a) > 0) == up;
    return p_is_left ? (up ? 1 : -1) : 0;
  }
  const auto halves = halves_of(piece);
  return crossing_of(halves[0], p, halvings + 1) + crossing_of(halves[1], p, halvings + 1);
}

/// Takes a contour's points, one after another.
class Surveyor {
 public:
  Surveyor(ContourShape& shape, Point start) : shape_(shape), last_(start) {
    shape_.start = start, widen(shape_.box, start);
  }
  void add(std::span<const Point> points) {
    for (const Point p : points) {
      widen(shape_.box, p);
      area_ += cross(last_ - shape_.start, p - shape_.start);
      last_ = p;
    }
    ++shape_.count;
  }
  void end(bool closed) { shape_.closed = closed, shape_.left_turning = area_ >= 0; }

 private:
  ContourShape& shape_;
  Point last_;
  double area_ = 0;  // twice the control polygon's
};

/// Whether any piece of a comes to b's box, so that b's own pieces need be looked at.
bool comes_to(const ContourShape::Pieces& a, const Bounds& box) {
  for (std::size_t row = 0; row < a.rows.size(); ++row) {
    if (!touch(a.rows[row], box)) continue;
    const std::size_t end = std::min(a.list.size(), (row + 1) * pieces_in_row);
    for (std::size_t i = row * pieces_in_row; i < end; ++i) {
      if (touch(a.list[i].box, box)) return true;
    }
  }
  return false;
}

bool rows_meet(const ContourShape::Pieces& a, std::size_t row, const ContourShape::Pieces& b, std::size_t other) {
  const std::size_t a_end = std::min(a.list.size(), (row + 1) * pieces_in_row);
  const std::size_t b_end = std::min(b.list.size(), (other + 1) * pieces_in_row);
  for (std::size_t i = row * pieces_in_row; i < a_end; ++i) {
    if (!touch(a.list[i].box, b.rows[other])) continue;
    for (std::size_t k = other * pieces_in_row; k < b_end; ++k) {
      if (pieces_meet(a.list[i], b.list[k], 0)) return true;
    }
  }
  return false;
}

}  // namespace

const ContourShape::Pieces& ContourShape::pieces() const {
  if (!pieces_.list.empty()) return pieces_;
  pieces_.list.reserve(count + 1);
  const Point* next = path_->points().data() + point_ + 1;
  Point here = start;
  for (std::size_t i = 1; i <= count; ++i) {
    const Path::Verb verb = path_->verbs()[verb_ + i];
    pieces_.list.push_back(verb == Path::Verb::line   ? piece_of({here, next[0]})
                           : verb == Path::Verb::quad ? piece_of({here, next[0], next[1]})
                                                      : piece_of({here, next[0], next[1], next[2]}));
    next += Path::points_of(verb);
    here = next[-1];
  }
  if (closed && !(here == start)) pieces_.list.push_back(piece_of({here, start}));
  for (std::size_t i = 0; i < pieces_.list.size(); ++i) {
    if (i % pieces_in_row == 0) pieces_.rows.emplace_back();
    pieces_.rows.back().add(pieces_.list[i].box);
  }
  return pieces_;
}

void append_shapes(std::vector<ContourShape>& shapes, const Path& path, bool filled) {
  const std::span<const Path::Verb> verbs = path.verbs();
  std::size_t point = 0;
  for (std::size_t verb = 0; verb < verbs.size();) {
    ContourShape shape(path, verb, point);
    shape.filled = filled;
    Surveyor surveyor(shape, path.points()[point]);
    for (++verb, ++point; verb < verbs.size() && verbs[verb] != Path::Verb::move; ++verb) {
      if (verbs[verb] == Path::Verb::close) continue;
      surveyor.add(path.points().subspan(point, Path::points_of(verbs[verb])));
      point += Path::points_of(verbs[verb]);
    }
    surveyor.end(verbs[verb - 1] == Path::Verb::close);
    if (shape.count > 0) shapes.push_back(std::move(shape));
  }
}

bool meet(const ContourShape& a, const ContourShape& b) {
  if (!touch(a.box, b.box)) return false;
  if (a.count > b.count) return meet(b, a);
  if (!comes_to(a.pieces(), b.box) || !comes_to(b.pieces(), a.box)) return false;
  for (std::size_t row = 0; row < a.pieces().rows.size(); ++row) {
    if (!touch(a.pieces().rows[row], b.box)) continue;
    for (std::size_t other = 0; other < b.pieces().rows.size(); ++other) {
      if (touch(a.pieces().rows[row], b.pieces().rows[other]) && rows_meet(a.pieces(), row, b.pieces(), other))
        return true;
    }
  }
  return false;
}

int turns_around(const ContourShape& shape, Point p) {
  if (!shape.closed || !touch(shape.box, {p.x, p.y, p.x, p.y})) return 0;
  const ContourShape::Pieces& pieces = shape.pieces();
  int turns = 0;
  for (std::size_t row = 0; row < pieces.rows.size(); ++row) {
    const Bounds& box = pieces.rows[row];
    if (p.y < box.bottom || p.y > box.top || p.x > box.right) continue;
    const std::size_t end = std::min(pieces.list.size(), (row + 1) * pieces_in_row);
    for (std::size_t i = row * pieces_in_row; i < end; ++i) turns += crossing_of(pieces.list[i], p, 0);
  }
  return turns;
}

Polygon chords_of(const ContourShape& shape, double tolerance) {
  Polygon polygon{shape.start};
  for (const ContourPiece& piece : shape.pieces().list) {
    const auto& [a, b, c, d] = piece.control;
    const Cubic cubic = piece.degree == 2 ? raised(a, b, c) : Cubic{a, b, c, d};
    const int count = piece.degree == 1 ? 1 : chord_count(cubic, tolerance);
    for (int i = 1; i < count; ++i) polygon.push_back(cubic.at(double(i) / count));
    polygon.push_back(piece.end());
  }
  return polygon;
}

}  // namespace ordinatio::inline check
