#include "orders/column_guess.h"

#include <algorithm>
#include <map>
#include <set>

#include "csv/csv.h"
#include "csv/rows.h"
#include "csv/shown.h"
#include "orders/order_options.h"

namespace ordinatio::inline orders {
namespace {

using Meaning = GuessedLabel::Meaning;

enum class Role { order, text, quantity, design, note, customer, date, line, status, blank, wish };

struct KnownRole {
  Role role;
  std::string OrderColumns::*column;
  std::vector<std::string_view> words;
};

/// What people call a column, in English, German, French, Spanish, Italian, Dutch and Polish. Plain words, from memory.
const std::vector<KnownRole>& known_roles() {
  static const std::vector<KnownRole> roles{
      {Role::order,
       &OrderColumns::order,
       {"order", "order number", "order no", "order no.", "order id", "bestellung", "bestellnummer", "auftrag",
        "auftragsnummer", "commande", "numéro de commande", "pedido", "número de pedido", "ordine", "numero ordine",
        "bestelnummer", "bestelling", "zamówienie", "numer zamówienia"}},
      {Role::text,
       &OrderColumns::text,
       {"text", "inscription", "words", "wording", "engraving", "lettering", "options", "inschrift", "gravur",
        "wunschtext", "texte", "gravure", "texto", "grabado", "inscripción", "testo", "incisione", "tekst", "napis"}},
      {Role::quantity,
       &OrderColumns::quantity,
       {"quantity", "qty", "pieces", "count", "menge", "anzahl", "stück", "quantité", "cantidad", "quantità", "aantal",
        "ilość"}},
      {Role::design,
       &OrderColumns::design,
       {"design", "style", "model", "stil", "modell", "modèle", "diseño", "modelo", "modello", "ontwerp", "wzór"}},
      {Role::note,
       &OrderColumns::note,
       {"note", "notes", "remark", "remarks", "comment", "comments", "message", "notiz", "bemerkung", "nachricht",
        "hinweis", "remarque", "commentaire", "nota", "comentario", "osservazioni", "opmerking", "uwagi"}},
      {Role::customer,
       &OrderColumns::name,
       {"customer", "name", "customer name", "client", "ordered by", "kunde", "kundin", "cliente", "klant", "klient"}},
      {Role::date,
       &OrderColumns::date,
       {"date", "order date", "ordered on", "datum", "bestelldatum", "fecha", "data", "besteldatum"}},
      {Role::line,
       &OrderColumns::line,
       {"line", "line id", "line number", "row", "row id", "position", "ligne", "línea", "riga", "regel"}},
      {Role::status, &OrderColumns::status, {"status", "state", "zustand", "statut", "estado", "stato"}},
      {Role::blank, &OrderColumns::blank, {"piece", "blank"}},
      {Role::wish, &OrderColumns::wish, {"wish"}}};
  return roles;
}

constexpr int header_is_it = 20, header_has_it = 8;  // the header is the word, or has it
constexpr int cells_look_it = 5;                     // the cells look like it
constexpr int least_score = 5;                       // less is no guess

/// The cells of one column, and what they have in common.
struct ColumnCells {
  std::size_t filled = 0, digits = 0, short_ones = 0, spaced = 0, counts = 0, designs = 0;
  std::size_t characters = 0;
  std::set<std::string> values;
};

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Whether a cell is a whole number of pieces: 1 to 999.
bool is_count(const std::string& cell) {
  return !cell.empty() && cell.size() <= 3 && std::ranges::all_of(cell, is_digit) && cell.front() != '0';
}

ColumnCells cells_of(const ExportHead& head, std::size_t column, const std::set<std::u32string>& designs) {
  ColumnCells cells;
  for (const auto& row : head.rows) {
    const std::string& cell = row[column];
    if (cell.empty()) continue;
    ++cells.filled;
    cells.digits += std::ranges::any_of(cell, is_digit) ? 1U : 0U;
    cells.short_ones += cell.size() <= 24 ? 1U : 0U;
    cells.spaced += cell.find_first_of(" \n") != std::string::npos ? 1U : 0U;
    cells.counts += is_count(cell) ? 1U : 0U;
    cells.designs += designs.contains(label_key(cell)) ? 1U : 0U;
    cells.characters += cell.size();
    cells.values.insert(cell);
  }
  return cells;
}

int score_of_header(const KnownRole& role, const std::string& header) {
  const std::u32string key = label_key(header);
  int score = 0;
  for (const std::string_view word : role.words) {
    const std::u32string known = label_key(word);
    if (key == known) return header_is_it;
    if (key.starts_with(known + U" ") || key.ends_with(U" " + known)) score = header_has_it;
  }
  return score;
}

int score_of_cells(Role role, const ColumnCells& cells, std::size_t most_characters) {
  if (cells.filled == 0) return 0;
  const bool is_many = cells.filled >= 3, are_counts = cells.counts == cells.filled;
  const bool are_varied = 2 * cells.values.size() > cells.filled;
  switch (role) {
    case Role::order:
      return cells.digits == cells.filled && cells.short_ones == cells.filled && cells.spaced == 0 && are_varied &&
                     !(are_counts && is_many && cells.values.size() < 3)
                 ? cells_look_it
                 : -cells_look_it;
    case Role::text:
      return cells.characters == most_characters && cells.characters > 0 && !are_counts ? cells_look_it : 0;
    case Role::quantity:
      return are_counts && !(is_many && cells.values.size() == cells.filled) ? cells_look_it
             : are_counts                                                    ? 1
                                                                             : -header_is_it;
    case Role::design:
      return 2 * cells.designs > cells.filled ? cells_look_it + 1 : 0;
    default:
      return 0;
  }
}

/// The best column for each role, the surest first; no column has two.
OrderColumns assigned(const ExportHead& head, const std::vector<ColumnCells>& cells) {
  std::size_t most = 0;
  for (const ColumnCells& one : cells) most = std::max(most, one.counts == one.filled ? 0 : one.characters);
  struct Chance {
    int score;
    std::string OrderColumns::*role;
    std::size_t column;
  };
  std::vector<Chance> chances;
  for (const KnownRole& known : known_roles()) {
    for (std::size_t i = 0; i < head.header.size(); ++i) {
      const int score = score_of_header(known, head.header[i]) + score_of_cells(known.role, cells[i], most);
      if (score >= least_score) chances.push_back({score, known.column, i});
    }
  }
  std::ranges::stable_sort(chances, std::greater<>(), &Chance::score);
  OrderColumns columns{"", "", "", "", "", "", "", "", "", "", "", {}};
  std::set<std::size_t> used;
  for (const Chance& chance : chances) {
    std::string& name = columns.*chance.role;
    if (name.empty() && used.insert(chance.column).second) name = head.header[chance.column];
  }
  return columns;
}

// ---- labels ----

Meaning meaning_of(const std::string& label) {
  static const std::map<Role, Meaning> meanings{
      {Role::text, Meaning::words}, {Role::note, Meaning::note}, {Role::design, Meaning::design}};
  for (const KnownRole& known : known_roles()) {
    const auto meaning = meanings.find(known.role);
    if (meaning != meanings.end() && score_of_header(known, label) > 0) return meaning->second;
  }
  return Meaning::other;
}

/// What stands behind one of the labels in a cell; empty where it is not there.
std::string value_behind(const std::string& cell, const std::string& label, const std::vector<GuessedLabel>& all) {
  OptionLabels labels;
  labels.text = {label};
  for (const GuessedLabel& one : all) {
    if (one.label != label) labels.other.push_back(one.label);
  }
  const Result<Options> options = OptionsReader(labels).read(cell);
  return options.ok() ? options->texts.front() : "";
}

/// Of a label that none of the known words names, the one with the longest values is the customer's words.
void choose_words(std::vector<GuessedLabel>& labels, const std::vector<std::string>& cells) {
  if (std::ranges::find(labels, Meaning::words, &GuessedLabel::meaning) != labels.end()) return;
  GuessedLabel* longest = nullptr;
  std::size_t most = 0;
  for (GuessedLabel& label : labels) {
    std::size_t characters = 0;
    for (const std::string& cell : cells) characters += value_behind(cell, label.label, labels).size();
    if (label.meaning == Meaning::other && characters > most) longest = &label, most = characters;
  }
  if (longest != nullptr) longest->meaning = Meaning::words;
}

std::vector<GuessedLabel> labels_in(const std::string& column, const std::vector<std::string>& cells) {
  std::map<std::u32string, std::pair<std::string, std::size_t>> counts;
  std::vector<std::u32string> order;
  std::size_t beginning = 0;
  for (const std::string& cell : cells) {
    std::set<std::u32string> in_cell;
    bool begins = false;
    for (const SeemingLabel& seen : seeming_labels(cell)) {
      begins = begins || seen.begins;
      if (!in_cell.insert(seen.key).second) continue;
      const auto [place, is_new] = counts.try_emplace(seen.key, seen.label, 0);
      if (is_new) order.push_back(seen.key);
      ++place->second.second;
    }
    beginning += begins ? 1U : 0U;
  }
  std::vector<GuessedLabel> labels;
  if (cells.empty() || 2 * beginning <= cells.size()) return labels;
  for (const std::u32string& key : order) {
    const auto& [label, count] = counts[key];
    if (count >= 2 || cells.size() == 1) labels.push_back({column, label, meaning_of(label), ""});
  }
  choose_words(labels, cells);
  for (GuessedLabel& label : labels) {
    for (const std::string& cell : cells) {
      if (label.sample.empty()) label.sample = value_behind(cell, label.label, labels);
    }
  }
  return labels;
}

}  // namespace

std::string_view name_of(GuessedLabel::Meaning meaning) {
  switch (meaning) {
    case Meaning::words:
      return "words";
    case Meaning::note:
      return "note";
    case Meaning::design:
      return "design";
    case Meaning::other:
      return "other";
  }
  return {};
}

Result<ExportHead> read_export_head(std::string_view bytes, const std::string& file, const OrderFormat& format,
                                    std::size_t rows) {
  const auto decoded = decode_text(bytes, format.encoding, file);
  if (!decoded.ok()) return decoded.fault();
  const Delimiter sniffed = sniff_delimiter(decoded->text);
  ExportHead head;
  head.encoding = decoded->encoding;
  head.delimiter = format.delimiter.value_or(sniffed.character);
  CsvReader reader(decoded->text, head.delimiter, file, sniffed.skip);
  const auto first = reader.next();
  if (!first) return Fault{"no orders", file, "the file is empty", "Export the orders again"};
  if (!first->ok()) return first->fault();
  for (const CsvField& field : (*first)->fields) head.header.emplace_back(trimmed(field.text));
  while (head.rows.size() < rows) {
    const auto record = reader.next();
    if (!record) break;
    if (!record->ok() || (*record)->fields.size() != head.header.size() || is_empty(**record)) continue;
    std::vector<std::string>& row = head.rows.emplace_back();
    for (const CsvField& field : (*record)->fields) row.emplace_back(trimmed(field.text));
  }
  return head;
}

ColumnGuess guess_columns(const ExportHead& head, const std::vector<std::string>& designs) {
  std::set<std::u32string> design_keys;
  for (const std::string& design : designs) design_keys.insert(label_key(design));
  std::vector<ColumnCells> cells;
  for (std::size_t i = 0; i < head.header.size(); ++i) cells.push_back(cells_of(head, i, design_keys));
  ColumnGuess guess{assigned(head, cells), {}};
  for (std::size_t i = 0; i < head.header.size(); ++i) {
    std::vector<std::string> filled;
    for (const auto& row : head.rows) {
      if (!row[i].empty()) filled.push_back(row[i]);
    }
    std::ranges::move(labels_in(head.header[i], filled), std::back_inserter(guess.labels));
  }
  return guess;
}

}  // namespace ordinatio::inline orders
