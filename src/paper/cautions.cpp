#include "paper/cautions.h"

// What the beam, dust and tempered glass do is from the sources that FACTS and README name; what old coatings may hold, what
// glued boards give off and what the hands are to wear is common practice, no source.
namespace ordinatio::inline paper {
namespace {

constexpr const char* beam =
    "Laser class 4. The beam and its reflections harm eyes and skin and can start a fire. Keep the enclosure closed; "
    "wear "
    "the eyewear that the manual names.";
constexpr const char* fumes =
    "Fumes, and the dust of glass and stone, harm the lungs: draw them off. No PVC or vinyl under the beam: it gives "
    "off "
    "chlorine compounds.";
constexpr const char* coatings =
    "Old coatings may be poisonous as dust and smoke: lead paint, wood preservatives, zinc, a mirror’s backing. Find "
    "out "
    "what is on a piece; where you cannot, leave it alone.";
constexpr const char* tempered = "Tempered glass shatters.";
constexpr const char* attended = "Never leave a running machine alone; keep a fitting extinguisher at hand.";
constexpr const char* machine_manual =
    "The machine’s manual, local codes and licensed practice come before anything said here.";
constexpr const char* tool_manual =
    "The tool’s manual, local codes and licensed practice come before anything said here.";

constexpr const char* board_material =
    "Know what the board is made of. Never cut PVC or vinyl: it gives off chlorine compounds. The smoke of plywood, "
    "MDF and "
    "other glued boards harms the lungs: draw it off.";
constexpr const char* flame =
    "A board can catch fire while it is cut: stay with it, watch for flame, keep a fitting extinguisher at hand.";

constexpr const char* saw =
    "At the saw: protect eyes, ears and hands as its manual says; broken edges cut. The dust of slate holds silica, "
    "which "
    "scars the lungs, and glass dust harms them too: cut wet, wear a mask for fine dust, air the room.";
constexpr const char* scoring =
    "Scoring and breaking by hand: shards fly. Wear goggles, cut-resistant gloves and sleeves; break away from your "
    "body; "
    "sweep shards up, never take them in bare hands.";
constexpr const char* never_tempered = "Never cut tempered glass: it shatters.";
constexpr const char* as_drawn = "Where the pane is not as it is drawn, stop and measure.";

constexpr const char* edges = "Edges and chips of glass, slate and metal cut: wear cut-resistant gloves.";
constexpr const char* manuals = "Manuals, local codes and licensed practice come before anything said here.";

}  // namespace

Cautions engraving_cautions() { return {beam, fumes, coatings, tempered, attended, machine_manual}; }

Cautions board_cautions() { return {beam, board_material, flame, machine_manual}; }

Cautions cutting_cautions(double kerf) {
  return {kerf > 0 ? saw : scoring, never_tempered, coatings, as_drawn, tool_manual};
}

Cautions handling_cautions() { return {edges, coatings, manuals}; }

std::string in_running_text(const Cautions& cautions) {
  std::string text;
  for (const std::string& caution : cautions) text += (text.empty() ? "" : " ") + caution;
  return text;
}

}  // namespace ordinatio::inline paper
