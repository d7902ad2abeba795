// In: a sheet, items' artwork, measured pieces, cuts, faces, designs.
// Out: what people read: pages (PDF), pictures (PNG); the same bytes for the same input.
// Never: decides where anything goes; reads a clock, a locale or an order.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/base.h"
#include "bed/bed.h"

namespace ordinatio::inline paper {

class Lettering;

// ---- sheet_picture.cpp ----
/// The sheet at 1:1 on a page of the bed's size, with pocket numbers, item numbers, hashes, colours and the cautions; what
/// finds no room there stands on further pages, of A4. remarks: what else is to be said of the sheet, a line each.
Result<std::string> write_sheet_pdf(const Sheet& sheet, Lettering& lettering,
                                    const std::vector<std::string>& remarks = {});
/// The same picture as PNG, `pixels_per_mm` fine; what finds no room on the bed stands below it.
Result<std::string> write_sheet_png(const Sheet& sheet, const FontLibrary& fonts, double pixels_per_mm,
                                    const std::vector<std::string>& remarks = {});

/// What people print on: ISO 216; US Letter is size A of ANSI/ASME Y14.1.
enum class PaperSize {
  fitting,
  a3,
  a4,
  a5,
  letter
};  // fitting: as large as what is shown at true size needs, from A4 on

// ---- paper_sizes.cpp ----
/// "a3", "a4", "a5", "letter"; "fitting" for none of them.
std::optional<PaperSize> paper_named(std::string_view name);
/// Of a sheet that stands upright, mm; of fitting paper A4.
Point paper_measures(PaperSize size);

/// What a person has in hand who lays a sheet's pieces into their pockets.
struct LoadingSheet {
  Sheet sheet;  // with what is still to be engraved
  std::string shop_name;
  /// What the workshop wrote of the machine for the sheet's designs: of several designs each with its name in front.
  std::vector<std::string> settings;
  std::vector<std::string> remarks;  // what else is to be known of the sheet
};

// ---- loading_pdf.cpp ----
/// No text of it is smaller, mm per em, so that it is read at arm's length: printed sheets lie beside the machine.
inline constexpr double least_loading_size = 3.5;
/// The bed as the person stands before it, and for each pocket what goes in, how it lies and what to watch, with a box to tick;
/// the cautions. One page where everything has room there in letters of that size or more, else further pages. Faults: the
/// bed has no measures.
Result<std::string> write_loading_pdf(const LoadingSheet& loading, const FontLibrary& fonts,
                                      PaperSize paper = PaperSize::a4);

/// What an artwork's ink is drawn in on a page, and its lines; no other line of a proof is.
inline constexpr Colour proof_ink{0x1A, 0x1A, 0x1A};

/// A page of proofs: one item at true size on its blank, or the reason why it is held.
struct ProofPage {
  Item item;
  std::optional<Artwork> artwork;  // absent: held
  std::optional<Fault> held;
  Palette palette;
  std::string note = {};     // the customer's words to the maker; never engraved
  std::string ordered = {};  // when, as the export has it
};

// ---- proof.cpp ----
/// At true size on fitting paper; on another that is too small for it, at a scale of ISO 5455, which the page states.
Result<std::string> write_proof_pdf(const std::vector<ProofPage>& pages, const std::string& shop_name,
                                    const FontLibrary& fonts, PaperSize paper = PaperSize::fitting);
/// How many times smaller an artwork is drawn there.
double proof_reduction(const Artwork& artwork, PaperSize paper);

// ---- contact_sheet.cpp ----
struct ContactSheet {
  std::string pdf;
  std::vector<double> ink;  // mm² of engraved ink on each page
};
/// Many plaques to a page, all at one scale, which it states; with their numbers and first words. Faults: no pages, a plaque
/// of several metres.
Result<ContactSheet> write_contact_sheet(const std::vector<ProofPage>& pages, const std::string& shop_name,
                                         const FontLibrary& fonts, PaperSize paper = PaperSize::a4);

// ---- proof_picture.cpp ----
inline constexpr int narrowest_proof = 200, widest_proof = 8'000;  // pixels: legible at all; more than any screen has
/// One item to send: its plaque in its material's tint, "Proof", its number and the workshop's name below. PNG, `width`
/// pixels wide. Faults: the item is held; a width beyond those.
Result<std::string> write_proof_png(const ProofPage& proof, const std::string& shop_name, const FontLibrary& fonts,
                                    int width);

// ---- tint.cpp ----
/// What a plaque of a material looks like in a picture.
enum class Tint { slate, glass, wood, brass, other };
/// Of a material in the workshop's own word.
Tint tint_of(const std::string& material);
std::string_view name_of(Tint tint);

/// A measured piece as pictures of the stock show it.
struct BlankPicture {
  Blank blank;
  std::string material, note;           // may be empty
  std::optional<double> thickness;      // mm
  std::array<bool, 4> factory_edges{};  // left, bottom, right, top
  std::string used;                     // for what; empty: it is free
};

// ---- blanks_picture.cpp ----
/// A4 pages with every piece at one scale, its measures and what is known of it. Faults: no pieces.
Result<std::string> write_blanks_pdf(const std::vector<BlankPicture>& pieces, const std::string& shop_name,
                                     const FontLibrary& fonts);

// ---- blanks_svg.cpp ----
/// The pieces at true size, ten in a row, each a group with its id as title: its edge, and things kept clear.
std::string write_blanks_svg(const std::vector<BlankPicture>& pieces);

/// What a specimen shows of each face.
struct SpecimenPlan {
  std::string shop_name;
  std::vector<std::string> words;  // the sample's lines, cleaned
  std::string language;            // BCP 47, of the sample
  double spot = catalogue_spot;    // mm across: what the machine can draw
};
struct Specimen {
  std::string pdf;
  std::vector<double> ink;  // mm² of the sample's ink on each page
};

// ---- specimen.cpp ----
/// A4 pages, a new one for each face: what it is for, the sample at true size at heights of capitals from 3.5 to 20 mm,
/// its letters. The sample is the ink as it is engraved, its letters and figures are text in the face.
Result<Specimen> write_specimen_pdf(const std::vector<CatalogueFace>& faces, const SpecimenPlan& plan,
                                    const FontLibrary& fonts);

/// A design, and some inscriptions composed in it.
struct DesignSamples {
  std::string name, about;
  std::string facts;              // its lettering, in words; may be empty
  std::vector<Artwork> artworks;  // at least one
};
struct DesignSpecimen {
  std::string pdf, png;
  std::vector<double> ink;  // mm² of engraved ink on each page of the PDF
};

// ---- design_specimen.cpp ----
/// PDF: an A4 page a design, its first sample at true size where it goes on the page, the others at one scale below it; each
/// with its scale. PNG: a row a design, all samples at one scale, coarser where they are very many. Faults: no designs.
Result<DesignSpecimen> write_design_specimen(const std::vector<DesignSamples>& designs, const std::string& shop_name,
                                             const FontLibrary& fonts);

// ---- card.cpp ----
enum class CardPaper { iso_a4, us_letter };
/// The card that lies beside a piece in its photo (photo/card.h), on the upper half of a sheet; below it, how to use it.
Result<std::string> write_card_pdf(CardPaper size, const FontLibrary& fonts);

}  // namespace ordinatio::inline paper
