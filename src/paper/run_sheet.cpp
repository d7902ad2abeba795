#include "paper/run_sheet.h"

#include <algorithm>

#include "paper/run_sheet_style.h"

namespace ordinatio::inline paper {
namespace {

/// Lines of a text, each by itself.
std::string lines_of_words(std::string_view words) {
  std::string html;
  for (std::size_t at = 0; at <= words.size();) {
    const std::size_t end = std::min(words.find('\n', at), words.size());
    std::string_view line = words.substr(at, end - at);
    if (line.ends_with('\r')) line.remove_suffix(1);
    html += (at == 0 ? "" : "<br>") + html_text(line);
    at = end + 1;
  }
  return html;
}

std::string step(const RunStep& one) {
  std::string html = "<li><p>" + html_text(one.text) + "</p>";
  if (!one.command.empty()) html += "<p><code>" + html_text(one.command) + "</code></p>";
  return html + "</li>\n";
}

std::string entry(const RunEntry& one) {
  const bool is_brief = one.about.empty() && one.mend.empty();
  std::string html = std::string(is_brief ? "<li class=\"brief\">" : "<li>") + "<p><b class=\"number\">" +
                     html_text(one.name) + "</b></p>";
  if (!one.words.empty()) html += "<p class=\"words\" dir=\"auto\">" + lines_of_words(one.words) + "</p>";
  if (!one.about.empty()) html += "<p class=\"about\" dir=\"auto\">" + html_text(one.about) + "</p>";
  if (!one.mend.empty()) html += "<p>To mend it: " + html_text(one.mend) + "</p>";
  return html + "</li>\n";
}

std::string part(const RunPart& one) {
  if (one.entries.empty()) return "";
  std::string html = std::string("<section class=\"slip") + (one.is_urgent ? " urgent" : "") + "\"><h2>" +
                     html_text(one.title) + " <span class=\"count\">" + std::to_string(one.entries.size()) +
                     "</span></h2>\n";
  if (!one.hint.empty()) html += "<p class=\"by\">" + html_text(one.hint) + "</p>\n";
  html += "<ul class=\"entries\">\n";
  for (const RunEntry& thing : one.entries) html += entry(thing);
  return html + "</ul></section>\n";
}

std::string first_of_all(const RunSheet& run) {
  std::string html = "<section class=\"first\"><h2>What to do first</h2>\n";
  if (run.next.empty()) return html + "<p>Nothing waits.</p></section>\n";
  html += "<ol>\n";
  for (const RunStep& one : run.next) html += step(one);
  return html + "</ol></section>\n";
}

std::string beds(const RunSheet& run) {
  std::string html = "<section class=\"beds\"><h2>Beds still to be engraved <span class=\"count\">" +
                     std::to_string(run.beds.size()) + "</span></h2>\n";
  if (run.beds.empty()) html += "<p>None.</p>\n";
  for (const RunBed& bed : run.beds) html += run_sheet_bed(bed);
  return html + "</section>\n";
}

std::string counts(const RunSheet& run) {
  if (run.counts.empty()) return "";
  std::string html = "<section><h2>All items</h2>\n<dl class=\"counts\">\n";
  for (const RunStep& one : run.counts) {
    html += "<div><dt>" + html_text(one.text) + "</dt><dd>" + html_text(one.command) + "</dd></div>\n";
  }
  return html + "</dl></section>\n";
}

}  // namespace

std::string write_run_sheet(const RunSheet& run) {
  const std::string shop = html_text(run.shop_name);
  std::string html = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n";
  html += "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n";
  html += "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n";
  html += "<meta name=\"color-scheme\" content=\"light dark\">\n";
  html += "<title>Run sheet, " + html_text(run.date) + ": " + shop + "</title>\n<style>\n" +
          std::string(run_sheet_style()) + "</style>\n</head>\n<body>\n";
  html += "<header><p class=\"shop\">" + shop + "</p></header>\n<main>\n<h1>Run sheet <time datetime=\"" +
          html_text(run.date) + "\">" + html_text(run.day) + "</time></h1>\n";
  html += first_of_all(run);
  html += "<div class=\"parts\">\n";
  for (const RunPart& one : run.parts) html += part(one);
  html += "</div>\n" + counts(run) + beds(run);
  return html + "</main>\n</body>\n</html>\n";
}

}  // namespace ordinatio::inline paper
