// In: a shaped line. Out: what the eye takes for its height and for its middle, ems from its baseline.
// Never: knows other lines, sizes or pieces.
#pragma once

#include "text/text.h"

namespace ordinatio::inline text {

/// How a line stands in the reader's eye. Where letters of several scripts or faces stand side by side, all of this is
/// their mean, weighed by their ink.
struct OpticalBand {
  double top = 0, bottom = 0;  // em
  double centre = 0;           // em: where its weight lies; of what is taken for an even band, the band's middle
  double ink = 0;              // em²
  bool small_letters = false;  // it has letters that are drawn smaller than capitals
  bool climbs = false;         // some of it is set in a hand like Nastaliq

  [[nodiscard]] double middle() const { return (top + bottom) / 2; }
};

// What follows is ours, judged on pictures of names in each script; common practice has no numbers for it.

/// Of the depth that descenders reach, so much belongs to the band of a line in which at least `descenders_that_count`
/// letters hang: one alone is passed over.
inline constexpr double descender_share = 0.5;
inline constexpr int descenders_that_count = 2;
/// The same of what reaches above or below the body in scripts without capitals: vowel signs, stacked letters, stems.
inline constexpr double reach_share = 0.5;
inline constexpr int letters_that_count = 2;
/// Arabic stands between alef and baseline, and its bowls hang below: its band moves so far towards its ink's centroid.
inline constexpr double bowl_share = 0.5;

/// Capitals and figures: from the baseline to the capitals' height. Capitals and small letters: from the baseline, or
/// from where descenders make themselves felt, to the mean of capitals' and small letters' heights; without anything tall, to
/// the small letters'. Hebrew: mem. Arabic: see bowl_share; in a hand that climbs, about its ink's centroid. Thai,
/// Indic scripts and others without capitals: a plain letter's body (ko kai, ka under its headline), and where letters that
/// count reach beyond it a share of how far they do on the average. Han, kana and hangul:
/// the em box. Of what has no such letter, signs alone among them: about its ink's centroid. All zero where there is no ink.
OpticalBand optical_band(const ShapedLine& line, Typesetter& typesetter);

}  // namespace ordinatio::inline text
