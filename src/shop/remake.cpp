#include <algorithm>

#include "check/check.h"
#include "shop/sheet_run.h"

namespace ordinatio {
namespace {

const std::string keep_the_font = "Put the font back that the sheet was made with, or give --text to set the item anew";

Result<ManifestItem> find_item(const Manifest& manifest, const std::string& id) {
  std::vector<std::string_view> known;
  for (const ManifestItem& item : manifest.items) {
    if (item.item.id == id) return item;
    known.push_back(item.item.id);
  }
  const auto nearest = nearest_word(id, known);
  return Fault{"item " + id + " is not on " + manifest.name, "", "the sheet holds other items",
               nearest ? "Did you mean " + *nearest + "?" : "Name an item of this sheet, or another sheet"};
}

MaybeFault check_design(const Manifest& manifest, const Design& design) {
  const auto known = manifest.design_checksums.find(design.name);
  if (known != manifest.design_checksums.end() && known->second == design.checksum) return std::nullopt;
  return Fault{"design " + design.name + " has changed since " + manifest.name, "templates/" + design.name + ".toml",
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

/// A file's name from an item's number, which may hold anything: what is no letter, digit, hyphen or point is a low line.
std::string file_name(const std::string& item) {
  std::string name = "remake-" + item;
  for (char& c : name) {
    const bool plain =
        (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '-' || c == '.';
    if (!plain) c = '_';
  }
  return name;
}

/// The words as they were engraved, or the corrected ones.
Result<Inscription> words_for(const ManifestItem& before, const Workroom& workroom, const RemakeOptions& options) {
  if (!options.text) return before.item.inscription;
  return clean_inscription(*options.text, workroom.cleaning());
}

}  // namespace

Result<Account> run_remake(const Shop& shop, const RemakeOptions& options) {
  const Result<std::string> bytes = read_file(options.manifest);
  if (!bytes) return bytes.fault();
  const Result<Manifest> manifest = read_manifest(*bytes, options.manifest.string());
  if (!manifest) return manifest.fault();
  const Result<ManifestItem> before = find_item(*manifest, options.item);
  if (!before) return before.fault();
  Workroom workroom(shop);
  const Result<const Station*> station = workroom.station(before->item.design);
  if (!station) return station.fault();
  Result<Design> laid = before->piece.id.empty() ? (*station)->design : laid_on((*station)->design, before->piece);
  if (!laid) return laid.fault();
  const Design& design = *laid;
  Result<Inscription> words = words_for(*before, workroom, options);
  if (!words) return words.fault();
  Typesetter typesetter(workroom.fonts());
  Result<Artwork> artwork = compose(design, {*words, manifest->date}, typesetter);
  if (!artwork) return artwork.fault();
  if (artwork->illegible) return *artwork->illegible;
  if (!options.text) {
    if (auto fault = check_exact(*manifest, *before, design, *artwork)) return *std::move(fault);
  }
  Account account;
  account.sheets = account.items_set = 1;
  account.smallest_cap_height = artwork->cap_height;
  account.smallest_item = options.item;
  // The bed as it was then: the same pockets and marks, whatever shop.toml says now.
  const Frame frame{manifest->plan, manifest->blank_width, manifest->blank_height, manifest->pockets, manifest->marks};
  SheetItem item{{before->item.id, design.name, std::move(*words), before->item.source}, std::move(*artwork), 0, {}};
  Result<Sheet> sheet =
      build_sheet(frame, {std::move(item)}, file_name(options.item), 1, {options.pocket.value_or(before->pocket)});
  if (!sheet) return sheet.fault();
  sheet->designs = {{design.name, design.checksum}};
  sheet->date = manifest->date;
  sheet->remake_of = manifest->name;
  Result<std::unique_ptr<Outbox>> outbox = Outbox::open(options.out, sheet->name + ".");
  if (!outbox) return outbox.fault();
  if (auto fault = put_sheet(**outbox, workroom, *sheet, {})) return *std::move(fault);
  auto files = (*outbox)->deliver();
  if (!files) return files.fault();
  account.files = std::move(*files);
  return account;
}

}  // namespace ordinatio
