#include "plan/course.h"

#include <algorithm>
#include <cmath>

namespace ordinatio::inline plan {
namespace {

constexpr double hour_rounding = 1e-9;  // hours, or pieces: sums of thirds of an hour come to whole ones

/// A station with what it has before it.
struct Bench {
  int waiting = 0;   // pieces
  double begun = 0;  // of the next piece, by hours: what was done of it on the day before
  int inside = 0;    // pieces of the load that goes on
  double left = 0;   // hours of it
};

class Workday {
 public:
  Workday(const PlanTask& task, int prepared, const Breakage& breakage)
      : task_(task), breakage_(breakage), benches_(task.stations.size()), coming_(task.stations.size() + 1) {
    benches_.front().waiting = prepared;
    course_.first.assign(benches_.size(), -1);
    course_.last.assign(benches_.size(), -1);
  }

  std::optional<Course> run() {
    const double whole = whole_share(task_.stations);
    for (int day = 0; day < longest_plan; ++day) {
      work(day);
      if (done_ >= task_.plaques) {
        course_.done = day;
        return course_;
      }
      int alive = done_;
      for (const Bench& bench : benches_) alive += bench.waiting + bench.inside;
      if (alive < task_.plaques) {
        benches_.front().waiting += static_cast<int>(std::ceil((task_.plaques - alive) / whole - hour_rounding));
      }
    }
    return std::nullopt;
  }

 private:
  [[nodiscard]] bool is_off(Day day) const {
    return std::ranges::any_of(task_.off, [&](const DaysOff& off) { return off.first <= day && day <= off.last; });
  }

  void work(int day) {
    const Day date = task_.from + std::chrono::days(day);
    if (is_off(date)) return;
    std::ranges::fill(coming_, 0);
    for (std::size_t i = 0; i < benches_.size(); ++i) {
      if (!task_.stations[i].days[weekday_of(date)]) continue;
      const Bench& bench = benches_[i];
      const bool has_work = bench.waiting + bench.inside > 0;
      const int before = bench.waiting + bench.inside;
      const double left = bench.left, begun = bench.begun;
      task_.stations[i].per_hour > 0 ? work_by_hours(i) : work_by_loads(i);
      const bool moved = bench.waiting + bench.inside != before || bench.left != left || bench.begun != begun;
      if (has_work && moved) note(i, day);
    }
    for (std::size_t i = 0; i < benches_.size(); ++i) benches_[i].waiting += coming_[i];
    done_ += coming_.back();
  }

  void note(std::size_t station, int day) {
    if (course_.first[station] < 0) course_.first[station] = day;
    course_.last[station] = day;
  }

  void pass_on(std::size_t station, int pieces) { coming_[station + 1] += pieces - breakage_(station, pieces); }

  void work_by_hours(std::size_t i) {
    const WorkStation& station = task_.stations[i];
    Bench& bench = benches_[i];
    const double could = bench.begun + station.per_hour * station.people * station.hours;
    const int pieces =
        static_cast<int>(std::min(std::floor(could + hour_rounding), static_cast<double>(bench.waiting)));
    bench.waiting -= pieces;
    // Nobody works ahead of what there is.
    bench.begun = bench.waiting > 0 ? could - pieces : 0;
    if (pieces > 0) pass_on(i, pieces);
  }

  /// Whether more may come than waits.
  [[nodiscard]] bool more_is_coming(std::size_t i) const {
    for (std::size_t before = 0; before < i; ++before) {
      if (benches_[before].waiting + benches_[before].inside > 0 || coming_[before] > 0) return true;
    }
    return coming_[i] > 0;
  }

  void work_by_loads(std::size_t i) {
    const WorkStation& station = task_.stations[i];
    Bench& bench = benches_[i];
    const int room = station.load * station.people;
    double hours = station.hours;
    while (true) {
      if (bench.inside == 0) {
        // A load waits until it is full, or nothing more comes.
        if (bench.waiting == 0 || (bench.waiting < room && more_is_coming(i))) return;
        bench.inside = std::min(bench.waiting, room);
        bench.waiting -= bench.inside;
        bench.left = station.load_hours;
      }
      const double worked = std::min(hours, bench.left);
      bench.left -= worked;
      hours -= worked;
      if (bench.left > hour_rounding) return;
      pass_on(i, std::exchange(bench.inside, 0));
      bench.left = 0;
      if (hours <= hour_rounding) return;
    }
  }

  const PlanTask& task_;
  const Breakage& breakage_;
  std::vector<Bench> benches_;
  std::vector<int> coming_;  // to each station on the next day; behind the last: whole plaques
  int done_ = 0;
  Course course_;
};

}  // namespace

double whole_share(const std::vector<WorkStation>& stations) {
  double whole = 1;
  for (const WorkStation& station : stations) whole *= 1 - station.breakage;
  return whole;
}

std::optional<Course> course_of(const PlanTask& task, int prepared, const Breakage& breakage) {
  return Workday(task, prepared, breakage).run();
}

}  // namespace ordinatio::inline plan
