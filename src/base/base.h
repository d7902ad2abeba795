// In: bytes on disk, numbers as text, work to be shared between cores.
// Out: values or Faults; files that appear whole or not at all.
// Never: knows what a plaque is; reads the clock, the locale or the home folder.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace ordinatio::inline base {

/// Something a person can mend: what went wrong, where (file:line:column, order, field), why, and the mend.
struct Fault {
  std::string what, where, why, mend;
  enum class Cause { input, machine } cause = Cause::input;  // machine: the input was good and the work failed
};

// ---- fault.cpp ----
/// One message: "where: what: why. mend." Empty parts are left out.
std::string describe(const Fault& fault);

/// A value, or the Fault that stands in its place. It is asked by ok(): no test takes it for a MaybeFault, where true is bad.
template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : held_(std::in_place_index<0>, std::move(value)) {}
  Result(Fault fault) : held_(std::in_place_index<1>, std::move(fault)) {}

  [[nodiscard]] bool ok() const { return held_.index() == 0; }
  T& operator*() & { return std::get<0>(held_); }
  const T& operator*() const& { return std::get<0>(held_); }
  T&& operator*() && { return std::get<0>(std::move(held_)); }
  T* operator->() { return &std::get<0>(held_); }
  const T* operator->() const { return &std::get<0>(held_); }
  [[nodiscard]] const Fault& fault() const { return std::get<1>(held_); }

 private:
  std::variant<T, Fault> held_;
};

/// For work that yields nothing: empty when it was done, true where there is a Fault.
class [[nodiscard]] MaybeFault : public std::optional<Fault> {
 public:
  MaybeFault() = default;
  using std::optional<Fault>::optional;
  MaybeFault(std::optional<Fault> fault) : std::optional<Fault>(std::move(fault)) {}
};

// ---- units (exact by definition) ----
inline constexpr double mm_per_inch = 25.4;                // international inch, 1959
inline constexpr double mm_per_point = mm_per_inch / 72;   // PostScript point
inline constexpr double mm_per_css_px = mm_per_inch / 96;  // CSS Values and Units 4, section 6.2

// ---- number.cpp: numbers, free of the locale ----
/// Appends value rounded to `decimals` (0 to 9), trailing zeros and "-0" left out. |value| < 9e9, finite:
/// throws std::domain_error otherwise, since what is not finite is never written.
void append_number(std::string& out, double value, int decimals);
/// "12.5 mm", as it is said in messages and on pages.
std::string mm_text(double value, int decimals = 2);
/// Appends value with exactly `decimals` places, as DXF wants it.
void append_fixed(std::string& out, double value, int decimals);
/// The number that is the whole of text, or nothing (also for nan, inf, and trailing characters).
std::optional<double> parse_number(std::string_view text);

// ---- file.cpp ----
inline constexpr std::size_t file_limit = std::size_t{256} << 20;  // bytes; a larger input is refused
/// The whole of a file. Faults: missing, a folder, not readable, over the limit.
Result<std::string> read_file(const std::filesystem::path& path, std::size_t limit = file_limit);
/// Writes a temporary beside the target, fsyncs it, renames it, fsyncs the folder. The target is old or new,
/// never half.
MaybeFault write_file(const std::filesystem::path& path, std::string_view bytes);
/// Renames a file that is whole, and synced first, to its place, so that it is there after the power fails, or is not.
MaybeFault move_whole(const std::filesystem::path& from, const std::filesystem::path& to);
/// "." where the path names none.
std::filesystem::path folder_of(const std::filesystem::path& path);
/// Makes the folder and its parents.
MaybeFault make_folder(const std::filesystem::path& path);
/// What was renamed, made or taken away in the folder is so after the power fails, too. Some file systems cannot.
void sync_folder(const std::filesystem::path& folder);

// ---- digest.cpp ----
/// SHA-256 (FIPS 180-4) as 64 lower-case hex digits.
std::string sha256_hex(std::string_view bytes);

// ---- word.cpp ----
/// The lines of a text as it came, parted at CR LF, LF and CR; at least one.
std::vector<std::string_view> lines_as_typed(std::string_view text);
/// The entry of `known` nearest to `word` by edit distance, if near enough to be meant.
std::optional<std::string> nearest_word(std::string_view word, std::span<const std::string_view> known);

// ---- parallel.cpp: work ----
/// Cores that this process may use, at least one.
unsigned core_count();
/// Calls work(index, worker) for index in [0, count) on `workers` threads; rethrows the first exception.
void for_each_parallel(std::size_t count, unsigned workers,
                       const std::function<void(std::size_t index, unsigned worker)>& work);

}  // namespace ordinatio::inline base
