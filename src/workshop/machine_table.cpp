#include "workshop/machine_table.h"

#include <algorithm>

#include "machine/spell.h"
#include "workshop/jig_table.h"

namespace ordinatio::inline workshop {
namespace {

constexpr NumberRange any_spot{0, 5, true};     // mm; engraving beams have a tenth of that or less
constexpr NumberRange any_pitch{0.01, 5};       // mm; finer lines than a beam can part, coarser than any fill
constexpr NumberRange any_factor{0.1, 10};      // beyond it the speeds are wrong, and not the model
constexpr std::size_t machine_name_limit = 40;  // bytes; it is typed
constexpr std::size_t machines_limit = 20;      // of one workshop
constexpr NumberRange any_speed{0.01, 20'000};  // mm/s: an hour for 36 mm; mirrors that throw the beam
constexpr NumberRange any_change{1,
                                 1'000'000};  // mm/s²: ten metres a second in ten seconds, or a hundred times gravity
constexpr NumberRange any_settling{0, 60};    // s

constexpr Word<bool> scanning_words[] = {{"both-ways", true}, {"one-way", false}};

/// How a quantity with its unit is written.
struct Quantity {
  std::optional<double> (*in)(std::string_view text);
  NumberRange range;
  std::string_view example;  // as it stands in the file
  std::string_view range_words;
};
constexpr Quantity speed{speed_in, any_speed, R"("300 mm/s" or "18000 mm/min")", "0.01 mm/s to 20000 mm/s"};
constexpr Quantity change_of_speed{acceleration_in, any_change, R"("3000 mm/s2")", "1 mm/s2 to 1000000 mm/s2"};
constexpr Quantity settling{time_in, any_settling, R"("20 ms" or "0.02 s")", "none to a minute"};

bool read_quantity(TomlTable& table, std::string_view key, double& value, const Quantity& quantity) {
  const std::string mend = "Write, for example: " + std::string(key) + " = " + std::string(quantity.example);
  if (table.is_number(key)) {
    table.fault(key, "has no unit", "a number alone may be meant in one or in another", mend);
    return false;
  }
  std::string text;
  if (!table.read(key, text)) return false;
  const std::optional<double> read = quantity.in(text);
  if (!read) {
    table.fault(key, "is no number with its unit", "it is \"" + text + "\"", mend);
  } else if (!(*read >= quantity.range.least && *read <= quantity.range.most)) {
    table.fault(key, "must be from " + std::string(quantity.range_words), "it is \"" + text + "\"", mend);
  } else {
    value = *read;
  }
  return read.has_value();
}

std::string rounded_mm(double value) { return mm_text(value, 1); }

/// Whether the carriage comes to its speed where it is said to.
void check_run_up(TomlTable& table, const Machine& bed, const Motion& motion) {
  if (motion.scan_speed == 0 || motion.acceleration == 0) return;
  const double least = motion.scan_speed * motion.scan_speed / (2 * motion.acceleration);  // rest to v: v²/2a
  if (least > std::max(bed.width, bed.height)) {
    table.fault("scan_speed", "is not reached on this bed",
                "with that acceleration it takes " + rounded_mm(least) + " of run-up (v²/2a)",
                "Write the speed that is set for engraving, or the acceleration as the machine's manual has it");
  } else if (motion.run_up && *motion.run_up < least) {
    table.fault("run_up", "is too short",
                "the machine takes " + rounded_mm(least) + " to come to its scan_speed (v²/2a)",
                "Write that or more, or leave it out");
  }
}

std::optional<Motion> read_motion(TomlTable& table, const Machine& bed) {
  Motion motion;
  motion.corner = bed.spot / 2;
  const std::pair<std::string_view, double*> speeds[] = {{"scan_speed", &motion.scan_speed},
                                                         {"score_speed", &motion.score_speed},
                                                         {"cut_speed", &motion.cut_speed},
                                                         {"mark_speed", &motion.mark_speed}};
  bool any = false;
  for (const auto& [key, value] : speeds) {
    read_quantity(table, key, *value, speed);
    any = any || table.has(key);
  }
  read_quantity(table, "travel_speed", motion.travel_speed, speed);
  read_quantity(table, "acceleration", motion.acceleration, change_of_speed);
  read_quantity(table, "settle", motion.settle, settling);
  table.read("scan_pitch", motion.scan_pitch, any_pitch);
  double run_up = 0;
  if (table.read("run_up", run_up, any_distance)) motion.run_up = run_up;
  table.read("scanning", motion.both_ways, scanning_words);
  table.read("factor", motion.factor, any_factor);
  if (!any) return std::nullopt;
  table.require("travel_speed", R"(travel_speed = "500 mm/s")");
  table.require("acceleration", R"(acceleration = "3000 mm/s2")");
  if (table.has("scan_speed")) table.require("scan_pitch", "scan_pitch = 0.1");
  check_run_up(table, bed, motion);
  return motion;
}

ShopMachine read_machine(TomlTable& table) {
  ShopMachine machine;
  table.read("name", machine.bed.name);
  table.read("width", machine.bed.width, any_size);
  table.read("height", machine.bed.height, any_size);
  table.read("spot", machine.bed.spot, any_spot);
  table.read("thickness_spread", machine.bed.thickness_spread, any_distance);
  machine.motion = read_motion(table, machine.bed);
  return machine;
}

/// It is chosen by its name, which stands in lists with commas.
void check_machine_name(TomlTable& table, const std::string& name, const std::vector<ShopMachine>& others) {
  if (name.empty() || name.size() > machine_name_limit || name.find(',') != std::string::npos || name.front() == ' ' ||
      name.back() == ' ') {
    table.fault("name", "is no name for a machine", "it is \"" + name + "\"",
                "Take up to " + std::to_string(machine_name_limit) + " letters without a comma");
  }
  for (const ShopMachine& other : others) {
    if (other.bed.name == name) table.fault("name", "is another machine's, too", "", "Give each its own");
  }
}

}  // namespace

void read_machines(TomlTable& root, Shop& into) {
  std::vector<TomlTable> several = root.tables("machines");
  if (root.has("machine") && !several.empty()) {
    root.fault("machines", "stand beside [machine]", "a workshop has one machine, or several",
               "Make [machine] the first of [[machines]]");
  }
  if (several.empty()) {
    TomlTable only = root.table("machine");
    into.machines.push_back(read_machine(only));
    if (only.has("name")) check_machine_name(only, into.machines.front().bed.name, {});
  }
  if (several.size() > machines_limit) {
    root.fault("machines", "are too many", std::to_string(machines_limit) + " are allowed", "Keep those that you have");
  }
  for (TomlTable& table : several) {
    table.require("name", "name = \"the large one\"");
    ShopMachine machine = read_machine(table);
    if (table.has("name")) check_machine_name(table, machine.bed.name, into.machines);
    into.machines.push_back(std::move(machine));
  }
  into.several_machines = !several.empty();
  into.plan.machine = into.machines.front().bed;
}

MaybeFault choose_machine(Shop& shop, const std::string& name) {
  const auto machine = std::ranges::find(shop.machines, name, [](const ShopMachine& known) { return known.bed.name; });
  if (machine == shop.machines.end()) {
    std::string names;
    for (const ShopMachine& known : shop.machines) {
      names += (names.empty() ? "" : ", ") + (known.bed.name.empty() ? "none has a name" : known.bed.name);
    }
    return Fault{"there is no machine \"" + name + "\"", (shop.folder / "shop.toml").string(), "it has: " + names,
                 "Write a table [[machines]] with that name, or name one of these"};
  }
  shop.plan.machine = machine->bed;
  return check_boards(shop);
}

const Motion* motion_for(const Shop& shop, const std::string& machine) {
  for (const ShopMachine& known : shop.machines) {
    if ((machine.empty() || known.bed.name == machine)) return known.motion ? &*known.motion : nullptr;
  }
  return nullptr;
}

}  // namespace ordinatio::inline workshop
