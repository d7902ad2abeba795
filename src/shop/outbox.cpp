#include "shop/outbox.h"

#include <algorithm>

#include "check/check.h"
#include "machine/sheet_order.h"
#include "paper/paper.h"
#include "shop/sheet_run.h"
#include "shop/sheet_time.h"
#include "write/write.h"

namespace ordinatio::inline shop {
namespace fs = std::filesystem;
namespace {

constexpr double picture_pixels_per_mm = 2;

Fault move_fault(const fs::path& path, const std::error_code& error) {
  return {"cannot move the file to its place", path.string(), error.message(),
          "Mend the cause and run the command again; nothing is lost", Fault::Cause::machine};
}

}  // namespace

fs::path unfinished_folder(const fs::path& folder, const std::string& stem) { return folder / (".unfinished-" + stem); }

MaybeFault move_file(const fs::path& from, const fs::path& to) {
  std::error_code error;
  fs::rename(from, to, error);
  return error ? MaybeFault(move_fault(to, error)) : std::nullopt;
}

std::string next_earlier(const fs::path& folder, const std::function<bool(const std::string& name)>& is_taken) {
  std::error_code ignored;
  for (int n = 1;; ++n) {
    std::string name = numbered("earlier-", n);
    if (!fs::exists(folder / name, ignored) && (!is_taken || !is_taken(name))) return name;
  }
}

MaybeFault move_aside(const fs::path& folder, const std::vector<std::string>& names, const std::string& earlier) {
  std::error_code ignored;
  const auto is_there = [&](const std::string& name) { return fs::exists(folder / name, ignored); };
  if (std::ranges::none_of(names, is_there)) return std::nullopt;
  if (auto fault = make_folder(folder / earlier)) return fault;
  sync_folder(folder);  // lest a power cut take the folder with what was moved into it
  for (const std::string& name : names) {
    if (!is_there(name)) continue;
    if (auto fault = move_file(folder / name, folder / earlier / name)) return fault;
  }
  sync_folder(folder / earlier);  // after a power cut they are not back in their place
  return std::nullopt;
}

std::vector<std::string> in_order_of_moving(std::vector<std::string> names) {
  std::ranges::sort(names, {}, [](const std::string& name) {
    const fs::path file(name);
    return std::tuple(file.stem().string(), file.extension() == ".json", name);
  });
  return names;
}

MaybeFault set_aside(const fs::path& folder, const std::vector<std::string>& names) {
  return names.empty() ? std::nullopt : move_aside(folder, names, next_earlier(folder));
}

fs::path Outbox::unfinished() const { return unfinished_folder(folder_, stem_); }

Result<std::unique_ptr<Outbox>> Outbox::open(const fs::path& folder, const std::string& stem, Earlier earlier) {
  std::unique_ptr<Outbox> outbox(new Outbox(folder, stem, earlier));
  std::error_code ignored;
  for (fs::path missing = fs::absolute(folder, ignored); !fs::exists(missing, ignored);
       missing = missing.parent_path()) {
    outbox->made_folders_.push_back(missing);
  }
  fs::remove_all(outbox->unfinished(), ignored);  // of a run that was killed
  if (auto fault = make_folder(outbox->unfinished())) return *std::move(fault);
  return outbox;
}

Outbox::~Outbox() {
  if (sealed_ || delivered_) return;
  std::error_code ignored;
  fs::remove_all(unfinished(), ignored);
  for (const fs::path& made : made_folders_) fs::remove(made, ignored);  // only if it is empty
}

Result<std::string> Outbox::put(const std::string& name, std::string_view bytes) {
  const fs::path path = unfinished() / name;
  if (auto fault = write_file(path, bytes)) return *std::move(fault);
  {
    const std::lock_guard lock(guard_);
    names_.push_back(name);
  }
  return read_file(path);
}

std::vector<std::string> Outbox::earlier_files() const {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder_)) {
    const std::string name = entry.path().filename().string();
    const bool in_the_way =
        earlier_ == Earlier::of_the_kind ? name.starts_with(stem_) : std::ranges::binary_search(names_, name);
    if (entry.is_regular_file() && in_the_way) names.push_back(name);
  }
  std::ranges::sort(names);
  return names;
}

bool Outbox::same_as_earlier(const std::vector<std::string>& earlier) const {
  return earlier == names_ && std::ranges::all_of(names_, [this](const std::string& name) {
           const Result<std::string> before = read_file(folder_ / name), now = read_file(unfinished() / name);
           return before.ok() && now.ok() && *before == *now;
         });
}

/// The folder's names, and its own name where it was made for this run, outlive a power cut.
void Outbox::make_folders_last() const {
  sync_folder(folder_);
  for (const fs::path& made : made_folders_) sync_folder(made.parent_path());
}

Result<std::map<std::string, std::string>> Outbox::seal() {
  std::map<std::string, std::string> checksums;
  for (const std::string& name : names_) {
    const Result<std::string> bytes = read_file(unfinished() / name);
    if (!bytes.ok()) return bytes.fault();
    checksums.emplace(name, sha256_hex(*bytes));
  }
  sync_folder(unfinished());
  make_folders_last();
  sealed_ = true;
  return checksums;
}

std::vector<fs::path> Outbox::files() {
  std::ranges::sort(names_);
  std::vector<fs::path> files;
  for (const std::string& name : names_) files.push_back(folder_ / name);
  return files;
}

Result<std::vector<fs::path>> Outbox::deliver() {
  std::ranges::sort(names_);
  if (auto fault = move_aside(folder_, aside_, aside_folder_)) return *std::move(fault);
  const std::vector<std::string> earlier = earlier_files();
  const bool same = same_as_earlier(earlier);
  if (!same) {
    if (auto fault = set_aside(folder_, earlier)) return *std::move(fault);
  }
  // Renamed one right after the other, with nothing between: a sheet's files appear together, as near as can be.
  for (const std::string& name : same ? std::vector<std::string>() : in_order_of_moving(names_)) {
    if (auto fault = move_file(unfinished() / name, folder_ / name)) return *std::move(fault);
  }
  std::error_code ignored;
  // Before it is booked that all is done, lest it outlive a run that ends just then.
  fs::remove_all(unfinished(), ignored);
  make_folders_last();
  delivered_ = true;
  return files();
}

MaybeFault put_sheet(Outbox& outbox, const Workroom& workroom, Sheet sheet, const SheetFormats& formats,
                     const std::optional<SheetTime>& time) {
  order_work(sheet);  // once, for all of its files
  const SheetModel model(sheet);
  const std::vector<std::string> remarks = time_remarks(time);
  const auto put = [&](const char* ending, const std::string& bytes, auto check) -> MaybeFault {
    const Result<std::string> written = outbox.put(sheet.name + ending, bytes);
    if (!written.ok()) return written.fault();
    MaybeFault fault = check(*written);
    if (fault) {
      fault->cause = Fault::Cause::machine;
    }
    return fault;
  };
  if (formats.svg) {
    if (auto fault = put(".svg", write_svg(sheet, workroom.shop().svg),
                         [&](std::string_view bytes) { return check_svg(bytes, model); }))
      return fault;
  }
  if (formats.dxf) {
    const DxfOptions& options = workroom.shop().dxf;
    const auto check = [&](std::string_view bytes) { return check_dxf(bytes, model, options.tolerance); };
    if (auto fault = put(".dxf", write_dxf(sheet, options), check)) return fault;
  }
  if (formats.pdf) {
    Result<Lettering> lettering = workroom.letterings().take();
    if (!lettering.ok()) return lettering.fault();
    const Result<std::string> pdf = write_sheet_pdf(sheet, *lettering, remarks);
    workroom.letterings().give_back(*std::move(lettering));
    if (!pdf.ok()) return pdf.fault();
    if (auto fault = put(".pdf", *pdf, [&](std::string_view bytes) { return check_pdf(bytes, model); })) return fault;
  }
  if (formats.png) {
    const Result<std::string> png = write_sheet_png(sheet, workroom.fonts(), picture_pixels_per_mm, remarks);
    if (!png.ok()) return png.fault();
    const Result<std::string> written = outbox.put(sheet.name + ".png", *png);
    if (!written.ok()) return written.fault();
  }
  return put(".json", write_manifest(sheet, time_figures(time)),
             [&](std::string_view bytes) { return check_manifest(bytes, sheet); });
}

}  // namespace ordinatio::inline shop
