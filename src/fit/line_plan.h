// In: a text in pieces, with their widths and how well a line reads that ends there. Out: the lines that are worth most:
// large, and good to read.
// Never: shapes, or knows what the pieces say. Of this folder alone.
#pragma once

#include <functional>
#include <limits>
#include <vector>

namespace ordinatio::inline fit {

/// A plan: after which piece each line ends. Ascending; the last is the number of pieces.
using LineEnds = std::vector<std::size_t>;

struct PlanFit {
  double size = 0;  // where it is not exact: no less than it is
  bool exact = true;
  bool fitted = true;  // truly tried, and not told by a quick look
};

/// What a plan is chosen by.
struct PlanQuestion {
  struct Piece {
    bool may_end = true;    // a line may end after it
    bool must_end = false;  // a line ends after it
    int penalty = 0;        // of a line that ends here, as text/break_penalty.h counts
    int alone = 0;          // of a line that is nothing but this piece, where it is more than that
    bool pauses = false;    // a phrase ends here: a line that runs on past it and ends where none does reads badly, too
  };
  std::vector<Piece> pieces;
  double reads_well = 0;  // what a step of reading badly costs, as a share of the size: from 0 to less than 1

  /// Width of pieces [first, last) as a line, in ems of the block, or more than `most` where it is wider than that. One
  /// piece more never makes a line narrower.
  std::function<double(std::size_t first, std::size_t last, double most)> width;
  /// For a block of `rows` lines at `size`, the widest that each of them could be, ems: never less than what truly goes.
  /// Empty where so many lines of that size do not go at all. Larger sizes leave less.
  std::function<std::vector<double>(std::size_t rows, double size)> room;
  /// The largest size at which pieces [first, last) could stand as line `row` of `rows`, the first of which has the pieces
  /// up to `first_end`, whatever the others are: never less than what truly goes, and closer to it than `room` is. Asked
  /// only where a plan has disappointed.
  std::function<double(std::size_t first, std::size_t last, std::size_t row, std::size_t rows, std::size_t first_end)>
      line_size;
  /// The size at which the plan truly fits, 0 where it does not; where that is no more than `worth`, any size that it does
  /// not exceed and that is no more than `worth` will do.
  std::function<PlanFit(const LineEnds& ends, double worth)> size;
  /// The largest size at which `rows` lines are not too tall, of which the first has the pieces up to `first_end` and the
  /// last those from `last_begin`: never less than what truly goes. Larger rows leave less.
  std::function<double(std::size_t rows, std::size_t first_end, std::size_t last_begin)> height_size;
  /// How long all pieces up to this one are, one behind the other, ems of the block, by and large: from it a long text is
  /// spread over its lines. Where it is not given, no text is long.
  std::function<double(std::size_t last)> reach;
  double largest = std::numeric_limits<double>::infinity();  // no plan can be larger
  double least = 1e-3;                                       // smaller sizes are not asked for
};

/// Plans within this share of the most worth count as worth the same: nobody sees the difference.
inline constexpr double size_tie = 0.01;
/// Real fits tried for one text at most; when it is reached, the best so far is taken. 200 characters in a rectangle need
/// far fewer; long texts in areas that are round all over may reach it.
inline constexpr std::size_t fit_limit = 1'000;
/// Lines looked at for one text at most, some tens of nanoseconds each; the same holds. A search may need as many as there
/// are plans, where all words are alike and all plans equally large.
inline constexpr std::size_t look_limit = 4'000'000;
/// Pieces of a text whose plans are all compared: an inscription of as many words is one that fills the piece. Of more,
/// the words are spread evenly over every number of lines, and the best of these plans is made better, word by word.
inline constexpr std::size_t piece_limit = 60;
/// Fits for that: each number of lines takes a few, and then words move from line to line while it helps.
inline constexpr std::size_t spread_limit = 300;
/// Texts of more pieces are spread first: the search then begins with a good plan, which costs a few fits.
inline constexpr std::size_t few_pieces = 24;

struct ChosenPlan {
  LineEnds ends;
  double size = 0;
  std::size_t fits = 0;        // tried
  std::size_t looks = 0;       // lines looked at
  bool limit_reached = false;  // then it is the best of those tried
};

/// How badly a line of pieces [first, last) reads.
int penalty_of_line(const PlanQuestion& question, std::size_t first, std::size_t last);
/// How badly the lines of a plan read, added up.
int penalty_of(const PlanQuestion& question, const LineEnds& ends);
/// What a plan is worth: its size × (1 − reads_well) ^ (penalty / break_penalty::step).
double worth_of(const PlanQuestion& question, double size, int penalty);
/// −ln(1 − reads_well) / break_penalty::step: by so much each penalty lowers the logarithm of the worth.
double price_of_penalty(const PlanQuestion& question);

/// The best of all plans: the one that is worth most; of those within `size_tie` of it, with each number of lines, the one
/// with the least penalty, then the least sum of squares of the room left beside the lines; of these the one with the least
/// penalty, then the most even (deviation of the room left over, in whole per cent), then fewer lines. Room is what the
/// question leaves at the least worth within the tie, taken as a size. `own`, how the lines came, is kept unless another is
/// worth more by more than the tie.
/// Exact up to the limits above: plans are taken in the order of a bound on their worth (Hart, Nilsson and Raphael 1968) that
/// no true fit exceeds; where a fit falls short for one line's sake, no plan with that line in that place is tried again.
ChosenPlan best_plan(const PlanQuestion& question, const LineEnds& own);

}  // namespace ordinatio::inline fit
