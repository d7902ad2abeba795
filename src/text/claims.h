// In: a face, and the letters that are to be set in it. Out: whether it claims their script and draws none of them, as a
// face does whose character table is damaged. Never: chooses a face. Of this folder alone.
#pragma once

#include <span>
#include <string>

#include "text/itemise.h"

namespace ordinatio::inline text {

/// Why the face cannot be trusted with these letters; empty where it draws one of a script's, or never claimed to.
/// `known`: what the catalogue says of it, nullptr for a face of the workshop's own, which its OS/2 table speaks for.
/// Letters that not every language of the script has do not count: a face may do without Ō.
std::string broken_claim(const Face& face, const CatalogueFace* known, std::span<const LineLetter> letters);

}  // namespace ordinatio::inline text
