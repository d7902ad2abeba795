// The DXF file as a list of tags: group code, value. Of this folder alone.
#pragma once

#include "write/write.h"

namespace ordinatio::inline write {

/// Appends tags with CRLF line ends, numbers with four fixed places, handles in upper-case hex.
class DxfTags {
 public:
  explicit DxfTags(std::size_t size_guess) { out_.reserve(size_guess); }

  DxfTags& text(int group, std::string_view value);
  DxfTags& number(int group, int value);
  DxfTags& number(int group, double value);
  /// x at `group`, y at group + 10, and a z of zero at group + 20 where the entity needs one.
  DxfTags& point(int group, Point p, bool with_z = false);
  /// `head`, then x, the code that `between` holds, and y: what nearly all of a file is made of, in one go.
  DxfTags& point_after(std::string_view head, Point p, std::string_view between);
  DxfTags& handle(unsigned value, int group = 5);
  DxfTags& owner(unsigned value) { return handle(value, 330); }
  unsigned next_handle() { return next_handle_++; }
  /// The highest handle can be told only at the end: its place is kept here, eight digits wide.
  DxfTags& hand_seed();

  [[nodiscard]] std::string take() &&;

  /// Handles of fixed things in an R2000 file; entities come after all of them.
  static constexpr unsigned model_space = 0x1F, paper_space = 0x1E, first_free = 0x100;

 private:
  void code(int code);
  std::string out_;
  unsigned next_handle_ = first_free;
  std::size_t hand_seed_at_ = 0;
};

// ---- dxf.cpp ----
/// Layer names by operation: upper case, ASCII, never a customer's name.
std::string_view dxf_layer(Operation operation);

struct DxfLayer {
  std::string_view name;
  int colour = 0;  // index
};

// ---- dxf_head.cpp ----
/// More layers than there are handles for them, 192, throw.
void append_head_r12(DxfTags& tags, const std::vector<DxfLayer>& layers, const Bounds& extents);
void append_head_r2000(DxfTags& tags, const std::vector<DxfLayer>& layers, const Bounds& extents);
void append_objects_r2000(DxfTags& tags);

}  // namespace ordinatio::inline write
