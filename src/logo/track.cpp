#include <algorithm>
#include <array>
#include <cmath>

#include "logo/drawing.h"

namespace ordinatio::inline logo {
namespace {

Point mixed(Point a, Point b, double t) { return a + t * (b - a); }

Point on_cubic(const Point* p, double t) {
  const Point ab = mixed(p[0], p[1], t), bc = mixed(p[1], p[2], t), cd = mixed(p[2], p[3], t);
  return mixed(mixed(ab, bc, t), mixed(bc, cd, t), t);
}

class Tracer {
 public:
  explicit Tracer(double tolerance) : tolerance_(tolerance) {}

  std::vector<Track> trace(const Path& path) {
    const Point* point = path.points().data();
    for (const Path::Verb verb : path.verbs()) {
      if (verb == Path::Verb::move) {
        end(false);
        start_ = here_ = *point++;
      } else if (verb == Path::Verb::close) {
        if (!drawn_) begin();  // "M x y Z" is a dot
        end(true);
      } else {
        if (!drawn_) begin();
        verb == Path::Verb::line ? step_to({point[0]}) : curve_to(point);
        point += verb == Path::Verb::line ? 1 : 3;
      }
    }
    end(false);
    return std::move(tracks_);
  }

 private:
  void begin() {
    drawn_ = true;
    tracks_.push_back({{{here_}}, false});
  }
  /// Steps that lead nowhere have no direction.
  void step_to(Node node) {
    here_ = node.at;
    auto& nodes = tracks_.back().nodes;
    if (length(node.at - nodes.back().at) > nowhere()) nodes.push_back(node);
  }
  void curve_to(const Point* next) {
    const std::array<Point, 4> control{here_, next[0], next[1], next[2]};
    const int steps = wang_segments(control, tolerance_);
    for (int i = 1; i < steps; ++i) step_to({on_cubic(control.data(), double(i) / steps), true});
    step_to({next[2]});
  }
  void end(bool closed) {
    if (drawn_ && closed) {
      auto& nodes = tracks_.back().nodes;
      while (nodes.size() > 1 && length(nodes.back().at - nodes.front().at) <= nowhere()) nodes.pop_back();
      tracks_.back().closed = nodes.size() > 1;
      here_ = start_;
    }
    drawn_ = false;
  }
  [[nodiscard]] double nowhere() const { return tolerance_ * 1e-3; }  // far below what can be seen

  double tolerance_;
  std::vector<Track> tracks_;
  Point start_, here_;
  bool drawn_ = false;
};

/// Where in the pattern the pen is, and how much of that dash or gap is left.
struct Phase {
  std::size_t index;
  double left;
  [[nodiscard]] bool on() const { return index % 2 == 0; }
};

class Dasher {
 public:
  explicit Dasher(const Pen& pen) : pattern_(pen.dashes) {
    // An odd pattern is said twice (SVG 1.1, section 11.4).
    if (pattern_.size() % 2 == 1) pattern_.insert(pattern_.end(), pen.dashes.begin(), pen.dashes.end());
    for (const double length : pattern_) period_ += length;
    first_ = phase_at(pen.dash_start);
  }
  [[nodiscard]] bool solid() const { return !(period_ > 0); }
  [[nodiscard]] double period() const { return period_; }

  std::vector<Track> cut(const Track& track) {
    tracks_.clear();
    phase_ = first_;
    if (phase_.on()) tracks_.push_back({{track.nodes[0]}, false, track.nodes[1].at - track.nodes[0].at});
    const std::size_t edges = track.nodes.size() - (track.closed ? 0 : 1);
    for (std::size_t i = 0; i < edges; ++i) walk(track.nodes[i], track.nodes[(i + 1) % track.nodes.size()]);
    if (track.closed && first_.on() && phase_.on()) join_ends(track.nodes.front());
    return std::move(tracks_);
  }

 private:
  [[nodiscard]] Phase phase_at(double start) const {
    if (solid()) return {0, 0};
    double rest = std::fmod(start, period_);
    if (rest < 0) rest += period_;
    std::size_t index = 0;
    while (rest > 0 && rest >= pattern_[index]) rest -= pattern_[index++];
    return {index, std::max(pattern_[index] - rest, 0.0)};
  }
  void walk(const Node& from, const Node& to) {
    const double total = length(to.at - from.at);
    double gone = 0;
    while (total - gone > phase_.left) {
      gone += phase_.left;
      turn_over(mixed(from.at, to.at, gone / total), to.at - from.at);
    }
    phase_.left -= total - gone;
    if (phase_.on()) tracks_.back().nodes.push_back(to);
  }
  void turn_over(Point at, Point heading) {
    if (phase_.on()) tracks_.back().nodes.push_back({at});
    phase_.index = (phase_.index + 1) % pattern_.size();
    phase_.left = pattern_[phase_.index];
    if (phase_.on()) tracks_.push_back({{{at}}, false, heading});
  }
  /// A dash that runs over the start of a closed contour is one dash.
  void join_ends(const Node& seam) {
    if (tracks_.size() == 1) {
      tracks_.front().nodes.pop_back();
      tracks_.front().closed = true;
      return;
    }
    Track& last = tracks_.back();
    last.nodes.back() = seam;
    last.nodes.insert(last.nodes.end(), tracks_.front().nodes.begin() + 1, tracks_.front().nodes.end());
    tracks_.erase(tracks_.begin());
  }

  std::vector<double> pattern_;
  double period_ = 0;
  Phase first_{}, phase_{};
  std::vector<Track> tracks_;
};

double length_of(const Track& track) {
  double sum = track.closed ? length(track.nodes.back().at - track.nodes.front().at) : 0;
  for (std::size_t i = 1; i < track.nodes.size(); ++i) sum += length(track.nodes[i].at - track.nodes[i - 1].at);
  return sum;
}

}  // namespace

std::vector<Track> tracks_of(const Path& path, double tolerance) { return Tracer(tolerance).trace(path); }

Result<std::vector<Track>> dashed(std::vector<Track> tracks, const Pen& pen) {
  Dasher dasher(pen);
  if (dasher.solid()) return tracks;
  std::vector<Track> dashes;
  for (Track& track : tracks) {
    if (track.nodes.size() == 1) {
      dashes.push_back(std::move(track));
      continue;
    }
    const double count = length_of(track) / dasher.period() * static_cast<double>(pen.dashes.size());
    if (!(count + static_cast<double>(dashes.size()) < static_cast<double>(dash_count)))
      return Fault{"the logo cannot be engraved",
                   {},
                   "a stroke has more than " + std::to_string(dash_count) + " dashes",
                   "Draw it with longer dashes"};
    std::ranges::move(dasher.cut(track), std::back_inserter(dashes));
  }
  return dashes;
}

}  // namespace ordinatio::inline logo
