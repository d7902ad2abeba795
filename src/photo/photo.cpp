#include "photo/photo.h"

namespace ordinatio::inline photo {

Result<PhotoSurvey> survey_photo(std::string_view bytes, const std::string& name) {
  const auto placed = [&](Fault fault) {
    fault.where = name;
    return fault;
  };
  const auto photo = read_photo(bytes, name);
  if (!photo.ok()) return photo.fault();
  const auto card = find_card(*photo);
  if (!card.ok()) return placed(card.fault());
  TablePicture table = straighten(*photo, *card);
  auto piece = propose_piece(table);
  if (!piece.ok()) piece = placed(piece.fault());
  return PhotoSurvey{*card, std::move(table), std::move(piece)};
}

}  // namespace ordinatio::inline photo
