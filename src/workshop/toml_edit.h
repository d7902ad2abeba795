// In: a TOML file that people read, and values for some of its keys.
// Out: the same file with these values; comments, order and every other byte as they were.
// Never: writes a file that does not read back as meant.
#pragma once

#include <filesystem>
#include <span>
#include <string>
#include <string_view>

#include "base/base.h"

namespace ordinatio::inline workshop {

/// table: "shop", "" for what stands above all tables, "text[1]" for the second [[text]], "text.cap_height" for what stands in
/// braces, too. value: as it stands in TOML, `12` or `"slate"`; empty: the key is
/// to stand no more, and its line becomes a comment.
struct TomlEdit {
  std::string table, key, value;
};

/// A string as it stands in TOML.
std::string toml_text(std::string_view text);

/// A key that stands in the file has its value changed. One that is absent takes the place of the comment that shows it
/// (`# key = …`, below its table or in a table that is itself commented out, which then comes to stand); else it is the last
/// of its table, or of a new one at the file's end.
/// Of what stands in braces, only that key goes or comes.
/// Faults: the text is no TOML, a value is none, anything else would be read otherwise than before.
Result<std::string> edited_toml(std::string_view text, std::span<const TomlEdit> edits, const std::string& where);
/// The same in a file, written whole or not at all.
MaybeFault edit_toml(const std::filesystem::path& file, std::span<const TomlEdit> edits);

}  // namespace ordinatio::inline workshop
