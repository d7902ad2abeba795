#include "workshop/palette_file.h"

#include <charconv>
#include <string>

namespace ordinatio::inline workshop {
namespace {

constexpr int last_index = 255;

/// "#009E73".
std::optional<Colour> colour_of(std::string_view text) {
  if (text.size() != 7 || text.front() != '#') return std::nullopt;
  std::uint32_t bits = 0;
  const auto [end, error] = std::from_chars(text.data() + 1, text.data() + text.size(), bits, 16);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  const auto part = [bits](int shift) { return static_cast<std::uint8_t>(bits >> shift & 0xFF); };
  return Colour{part(16), part(8), part(0)};
}

std::size_t place_of(Operation operation) { return static_cast<std::size_t>(operation); }

void require_hues(TomlTable& table, const Colours& colours) {
  for (const Operation operation : all_operations) {
    const bool is_grey = !hue_of(colours[place_of(operation)]);
    if (operation != Operation::guide && is_grey) {
      table.fault(name_of(operation), "is grey, black or white",
                  "only guide is, which is never run: a machine that goes by colour must not take one for the other",
                  "Choose a colour with a hue, for example \"#009E73\"");
    } else if (operation == Operation::guide && !is_grey) {
      table.fault(name_of(operation), "has a hue", "guide is never run, and is grey in every file",
                  "Choose a grey, for example \"#999999\"");
    }
  }
}

Colours read_colours(TomlTable& table) {
  Colours colours = Palette{}.colours;
  for (const Operation operation : all_operations) {
    std::string text;
    if (!table.read(name_of(operation), text)) continue;
    if (const auto colour = colour_of(text)) {
      colours[place_of(operation)] = *colour;
    } else {
      table.fault(name_of(operation), "is no colour", "it is \"" + text + "\"", "Write, for example: \"#009E73\"");
    }
  }
  require_hues(table, colours);
  for (const Operation later : all_operations) {
    for (const Operation earlier : all_operations) {
      if (earlier >= later || colours[place_of(earlier)] != colours[place_of(later)]) continue;
      table.fault(name_of(later), "is the same colour as " + std::string(name_of(earlier)),
                  "the machine could not tell them apart", "Choose another");
    }
  }
  return colours;
}

/// An index must be a grey for the guide, and have a hue for all others.
bool is_of_kind(TomlTable& dxf, Operation operation, int index) {
  if (operation == Operation::guide) {
    if (is_grey_index(index)) return true;
    dxf.fault(name_of(operation), "is no grey", "guide is never run, and is grey in every file",
              "Write 8, 9 or one from 250 to 254");
    return false;
  }
  if (hue_of_index(index)) return true;
  dxf.fault(name_of(operation), "is grey, black or white", "only guide is, which is never run",
            "Write one from 1 to 6, or from 10 to 249");
  return false;
}

/// An index in another operation's hue: who sets the machine by one file and loads the other would run the wrong one.
void require_own_hue(TomlTable& dxf, const Colours& colours, Operation operation, int index) {
  const auto distance = [&](Operation other) {
    return between_hues(*hue_of(colours[place_of(other)]), *hue_of_index(index));
  };
  Operation nearest = operation;
  for (const Operation other : all_operations) {
    if (other == Operation::guide || !hue_of(colours[place_of(other)])) continue;
    if (distance(other) < distance(nearest)) nearest = other;
  }
  if (nearest == operation) return;
  const std::string name(name_of(nearest));
  dxf.fault(name_of(operation), "looks like " + name,
            "index " + std::to_string(index) + " is nearer in hue to " + name + "'s colour than to its own",
            "Change the colour, or the index, so that SVG and DXF show the same hue");
}

ChosenIndices read_indices(TomlTable dxf, const Colours& colours) {
  ChosenIndices chosen;
  for (const Operation operation : all_operations) {
    int index = 0;
    if (!dxf.read(name_of(operation), index, 1, last_index) || !is_of_kind(dxf, operation, index)) continue;
    for (const Operation earlier : all_operations) {
      if (earlier >= operation || !chosen[place_of(earlier)] || !drawn_alike(*chosen[place_of(earlier)], index))
        continue;
      dxf.fault(name_of(operation), "is drawn like " + std::string(name_of(earlier)),
                "the machine could not tell them apart", "Choose another");
    }
    if (operation != Operation::guide && hue_of(colours[place_of(operation)])) {
      require_own_hue(dxf, colours, operation, index);
    }
    chosen[place_of(operation)] = index;
  }
  return chosen;
}

}  // namespace

Palette read_palette(TomlTable table) {
  const Colours colours = read_colours(table);
  return palette_of(colours, read_indices(table.table("dxf"), colours));
}

}  // namespace ordinatio::inline workshop
