// What `ordinatio new` writes, as it ships inside the program: the bytes of the files in templates/.
#pragma once

#include <string_view>

namespace ordinatio::inline workshop {

std::string_view shop_toml();
std::string_view orders_csv();
std::string_view readme_txt();
std::string_view fonts_txt();
std::string_view plaque_landscape_toml();
std::string_view plaque_portrait_toml();
std::string_view name_and_line_toml();
std::string_view dedication_toml();
std::string_view spaced_capitals_toml();
std::string_view house_number_toml();
std::string_view stand_words_toml();
std::string_view stand_logo_toml();
std::string_view mark_svg();

}  // namespace ordinatio::inline workshop
