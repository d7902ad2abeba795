// In: how a workshop stands on a day, in words and sheets.
// Out: one HTML page that needs nothing besides itself: no network, no script, no other file.
// Never: reads the ledger; decides what is done first; takes what people wrote for markup.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "bed/bed.h"

namespace ordinatio::inline paper {

/// A file that the page leads to, by its address from where the page lies.
struct RunLink {
  std::string name, address;
};
/// Something to be seen to: an item, a row of an export, a question.
struct RunEntry {
  std::string name;   // "1042-2/S", "row-3"
  std::string words;  // the customer's, or the row as it came; may be empty
  std::string about;  // why it is here
  std::string mend;   // what is to be done; may be empty
};
/// Entries under one heading; without entries it is left out.
struct RunPart {
  std::string title, hint;
  std::vector<RunEntry> entries;
  bool is_urgent = false;  // only a person gets it going again
};
/// What is to be done, and by which command.
struct RunStep {
  std::string text, command;  // may be empty
};
/// A bed that is still to be engraved.
struct RunBed {
  std::string name, facts;     // "sheet-003", "day · 9 of 12 pieces are still to be engraved"
  std::optional<Sheet> sheet;  // absent: it cannot be drawn
  std::string stale, cannot;   // why its files are not to be run; why it cannot be drawn; both may be empty
  std::vector<RunLink> files;
};
struct RunSheet {
  std::string shop_name, date, day;  // ISO 8601; the same in words
  std::vector<RunStep> next;         // the first first
  std::vector<RunBed> beds;
  std::vector<RunPart> parts;
  std::vector<RunStep> counts;  // "on sheet", "12"
};

// ---- run_sheet.cpp ----
std::string write_run_sheet(const RunSheet& run);

// ---- run_sheet_bed.cpp ----
/// A bed as the person stands before it, and what lies in its pockets. HTML.
std::string run_sheet_bed(const RunBed& bed);

// ---- html.cpp ----
/// Text for an element or an attribute: nothing in it is taken for markup, and what cannot be seen is spelled out.
std::string html_text(std::string_view text);
/// The same for an address: what is neither plain nor a slash is percent-encoded (RFC 3986), so that no scheme stands in it.
std::string html_address(std::string_view path);

}  // namespace ordinatio::inline paper
