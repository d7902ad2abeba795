#include "shop/recompose.h"
#include "manifest/manifest.h"

#include <algorithm>

namespace ordinatio::inline shop {
namespace {

const std::string keep_the_font = "Put the font back that the sheet was made with, or give --text to set the item anew";

MaybeFault check_design(const Manifest& manifest, const Design& design) {
  const auto known = manifest.design_checksums.find(design.name);
  if (known != manifest.design_checksums.end() && known->second == design.checksum) return std::nullopt;
  return Fault{"design " + design.name + " has changed since " + manifest.name,
               "templates/" + variant_named(design.name).base + ".toml",
               "the item would not come out exactly as it was",
               "Put the design and its logo back as they were, or give --text to set the item anew"};
}

/// The same font file by checksum, or a Fault that names the face.
MaybeFault check_faces(const ManifestItem& before, const Artwork& artwork) {
  for (const UsedFace& face : before.faces) {
    const auto now = std::ranges::find(artwork.faces, face.name, &UsedFace::name);
    if (now != artwork.faces.end() && now->checksum == face.checksum) continue;
    return Fault{
        "the font of item " + before.item.id + " is another one now", "face " + face.name,
        now == artwork.faces.end() ? "the item is no longer set in it" : "the file's checksum differs from the sheet's",
        keep_the_font};
  }
  return std::nullopt;
}

MaybeFault check_exact(const Manifest& manifest, const ManifestItem& before, const Design& design,
                       const Artwork& artwork) {
  if (auto fault = check_design(manifest, design)) return fault;
  if (auto fault = check_faces(before, artwork)) return fault;
  if (before.hash == artwork.hash) return std::nullopt;
  return Fault{"item " + before.item.id + " does not come out exactly as it was", "", "the artwork's hash differs",
               "Was the sheet made by another version of the program? Give --text to set the item anew"};
}

/// The ways in which versions of the program before this one may have set an item, the nearest to today's first. The hash tells
/// which it was.
std::vector<FormerWays> former_ways(const ManifestItem& before) {
  std::vector<FormerWays> ways;
  for (const bool told_by_letters : {false, true}) {
    if (told_by_letters && !before.item.told.language.empty()) continue;  // its manifest says what was told
    for (const auto& [by_word, serifs_first] : {std::pair{false, false}, {true, false}, {false, true}, {true, true}}) {
      if (told_by_letters || by_word || serifs_first) ways.push_back({told_by_letters, by_word, serifs_first});
    }
  }
  return ways;
}

/// The artwork as it was, where one of these ways comes to it; else as it is set today.
Result<Artwork> composed_as_it_was(const LaidDesign& design, Words words, const ManifestItem& before,
                                   Typesetter& typesetter) {
  Result<Artwork> today = compose(design, words, typesetter);
  if (today.ok() && today->hash == before.hash) return today;
  for (const FormerWays& ways : former_ways(before)) {
    words.ways = ways;
    Result<Artwork> then = compose(design, words, typesetter);
    if (then.ok() && then->hash == before.hash) return then;
  }
  return today;
}

/// The words as they were engraved, or the corrected ones.
Result<Inscription> words_for(const ManifestItem& before, const Workroom& workroom,
                              const std::optional<std::string>& text) {
  if (!text) return before.item.inscription;
  return clean_inscription(*text, workroom.cleaning());
}

/// A design as it comes out on a piece of a manifest.
Result<LaidDesign> design_on(const LaidDesign& design, const Blank& piece) {
  if (piece.id.empty()) return design;
  return laid_on(design, piece);
}

}  // namespace

Artwork moved_to(Artwork artwork, const LaidDesign& laid) {
  if (!artwork.set_for) artwork.set_for = artwork.blank;
  artwork.blank = laid.blank;
  artwork.clear_area = laid.clear_area;
  artwork.kept_clear = laid.kept_clear;
  artwork.kept_clear.insert(artwork.kept_clear.end(), laid.blank.kept_clear.begin(), laid.blank.kept_clear.end());
  return artwork;
}

Result<SheetItem> recompose(Workroom& workroom, Typesetter& typesetter, const Manifest& manifest,
                            const ManifestItem& before, const std::optional<std::string>& text) {
  const Result<const Station*> station = workroom.station(before.item.design);
  if (!station.ok()) return station.fault();
  if ((*station)->unfit) return *(*station)->unfit;
  const bool was_moved = before.set_for && !text;
  Result<LaidDesign> laid = design_on((*station)->design, was_moved ? *before.set_for : before.piece);
  if (!laid.ok()) return laid.fault();
  const LaidDesign& design = *laid;
  Result<Inscription> words = words_for(before, workroom, text);
  if (!words.ok()) return words.fault();
  const Words wanted{*words, manifest.date, before.item.number, before.item.told, before.item.setting};
  Result<Artwork> artwork =
      text ? compose(design, wanted, typesetter) : composed_as_it_was(design, wanted, before, typesetter);
  if (!artwork.ok()) return artwork.fault();
  if (artwork->illegible) return *artwork->illegible;
  if (!text) {
    if (auto fault = check_exact(manifest, before, design, *artwork)) return *std::move(fault);
  }
  if (was_moved) {
    const Result<LaidDesign> now = design_on((*station)->design, before.piece);
    if (!now.ok()) return now.fault();
    artwork = moved_to(*std::move(artwork), *now);
  }
  const Item& item = before.item;
  return SheetItem{
      {item.id, design.name, std::move(*words), item.source, item.number, item.customer, item.told, item.setting},
      std::move(*artwork),
      0,
      {}};
}

Result<Manifest> in_colours_of(const Shop& shop, Result<Manifest> manifest) {
  if (manifest.ok()) manifest->plan.palette = shop.plan.palette;
  return manifest;
}

Result<Manifest> open_manifest(const Shop& shop, const std::filesystem::path& file) {
  const Result<std::string> bytes = read_file(file);
  if (!bytes.ok()) return bytes.fault();
  return in_colours_of(shop, read_manifest(*bytes, file.string()));
}

Frame frame_of(const Manifest& manifest) {
  return {manifest.plan, manifest.blank_width, manifest.blank_height, manifest.pockets, manifest.marks};
}

std::string plain_name(std::string text) {
  for (char& c : text) {
    const bool plain =
        (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '-' || c == '.';
    if (!plain) c = '_';
  }
  return text;
}

}  // namespace ordinatio::inline shop
