// An item of a manifest composed again. Of this folder alone.
#pragma once

#include "check/check.h"
#include "manifest/manifest.h"
#include "shop/workroom.h"

namespace ordinatio::inline shop {

/// The item as it was, or with other words. Faults: its design, a font or the artwork itself is another one now; with
/// other words only what holds any item.
Result<SheetItem> recompose(Workroom& workroom, Typesetter& typesetter, const Manifest& manifest,
                            const ManifestItem& before, const std::optional<std::string>& text);

/// The same ink on another piece.
Artwork moved_to(Artwork artwork, const LaidDesign& laid);

/// The manifest in the colours that the workshop has now: by these the machine is set, whatever it was set by then.
Result<Manifest> in_colours_of(const Shop& shop, Result<Manifest> manifest);
/// Reads a manifest from a file, in the workshop's colours.
Result<Manifest> open_manifest(const Shop& shop, const std::filesystem::path& file);
/// The bed as it was then: the same pockets and marks, whatever shop.toml says now.
Frame frame_of(const Manifest& manifest);

/// A file's name from a text that may hold anything: what is no letter, digit, hyphen or point is a low line.
std::string plain_name(std::string text);

}  // namespace ordinatio::inline shop
