#include "fit/prepared_lines.h"

#include "fit/kept_lines.h"

namespace ordinatio::inline fit {

Result<PreparedLines> PreparedLines::of(Typesetter& typesetter, const std::vector<StyledLine>& lines,
                                        SettingRules rules) {
  auto kept = std::make_unique<Kept>(typesetter, lines, std::move(rules));
  if (auto fault = kept->candidates.shape(lines)) return *std::move(fault);
  return PreparedLines(std::move(kept));
}

PreparedLines::PreparedLines(std::unique_ptr<Kept> kept) : kept_(std::move(kept)) {}
PreparedLines::~PreparedLines() = default;
PreparedLines::PreparedLines(PreparedLines&&) noexcept = default;
PreparedLines& PreparedLines::operator=(PreparedLines&&) noexcept = default;

std::size_t PreparedLines::lines_kept() const { return kept_->candidates.count(); }

}  // namespace ordinatio::inline fit
