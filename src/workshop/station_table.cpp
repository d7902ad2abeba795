#include "workshop/station_table.h"

#include <algorithm>

#include "base/phrase.h"
#include "workshop/station_words.h"

namespace ordinatio::inline workshop {
namespace {

constexpr std::size_t station_name_limit = 40;  // bytes: it stands in a table's first column
constexpr std::size_t most_consumables = 12;    // of one station
constexpr std::size_t most_days_off = 200;      // entries
constexpr int most_people = 100;                // or machines, side by side
constexpr NumberRange day_hours{0, 24, true};

constexpr const char* rate_mend =
    "Write \"12 an hour\", \"5 minutes a piece\", or for a kiln \"24 a load, 9 hours a load\"";
constexpr const char* days_mend = "Write the days of work, such as \"Mon-Fri\" or \"Tue, Thu-Sat\"";

void read_name(TomlTable& table, const std::vector<WorkStation>& earlier, std::string& name) {
  table.require("name", "name = \"grinding\"");
  if (!table.read("name", name)) return;
  if (name.find_first_not_of(" \t\r\n") == std::string::npos || name.size() > station_name_limit) {
    table.fault("name", name.size() > station_name_limit ? "is too long" : "is empty", "it heads a line of the plan",
                "Give it a name of " + std::to_string(station_name_limit) + " bytes at most");
  } else if (std::ranges::find(earlier, name, &WorkStation::name) != earlier.end()) {
    table.fault("name", "is there twice", in_quotes(name) + " is a station already", "Give each a name of its own");
  }
}

void read_rate(TomlTable& table, WorkStation& station) {
  table.require("rate", "rate = \"12 an hour\"");
  std::string words;
  if (!table.read("rate", words)) return;
  const auto rate = rate_in(words);
  if (!rate) return table.fault("rate", "says no rate", "it is " + in_quotes(words), rate_mend);
  station.per_hour = rate->per_hour, station.load = rate->load, station.load_hours = rate->load_hours;
}

void read_consumables(TomlTable& table, std::vector<Consumable>& consumables) {
  std::vector<std::string> list;
  table.read("consumables", list);
  if (list.size() > most_consumables) {
    return table.fault("consumables", "are too many", std::to_string(most_consumables) + " are allowed",
                       "Put some of them together");
  }
  for (const std::string& words : list) {
    if (const auto one = consumable_in(words)) {
      consumables.push_back(*one);
    } else {
      table.fault("consumables", "hold what cannot be counted", "it is " + in_quotes(words),
                  "Write, for example, \"1 belt for 40 pieces\"");
    }
  }
}

WorkStation read_station(TomlTable& table, const std::vector<WorkStation>& earlier) {
  WorkStation station;
  read_name(table, earlier, station.name);
  read_rate(table, station);
  table.read("people", station.people, 1, most_people);
  table.read("hours", station.hours, day_hours);
  std::string words;
  if (table.read("days", words)) {
    if (const auto days = weekdays_in(words)) {
      station.days = *days;
    } else {
      table.fault("days", "are no days of the week", "it is " + in_quotes(words), days_mend);
    }
  }
  if (table.read("breakage", words)) {
    if (const auto share = percent_in(words)) {
      station.breakage = *share;
    } else {
      table.fault("breakage", "is no share that can break", "it is " + in_quotes(words),
                  "Write from \"0 %\" to less than \"100 %\", such as \"4 %\"");
    }
  }
  read_consumables(table, station.consumables);
  return station;
}

}  // namespace

void read_stations(std::vector<TomlTable> stations, TomlTable plan, Shop& into) {
  for (TomlTable& table : stations) {
    if (into.stations.size() == most_stations) {
      return table.fault("name", "is of one station too many", std::to_string(most_stations) + " are allowed",
                         "Put some of them together");
    }
    into.stations.push_back(read_station(table, into.stations));
  }
  std::vector<std::string> list;
  plan.read("days_off", list);
  if (list.size() > most_days_off) {
    return plan.fault("days_off", "are too many", std::to_string(most_days_off) + " are allowed",
                      "Write from one day to another as \"2026-12-24/2027-01-02\"");
  }
  for (const std::string& words : list) {
    if (const auto off = days_off_in(words)) {
      into.days_off.push_back(*off);
    } else {
      plan.fault("days_off", "hold what is no day", "it is " + in_quotes(words),
                 "Write \"2026-12-24\", or from one day to another \"2026-12-24/2027-01-02\"");
    }
  }
}

}  // namespace ordinatio::inline workshop
