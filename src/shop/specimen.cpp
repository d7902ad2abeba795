#include <algorithm>
#include <cmath>

#include "base/account.h"
#include "check/check.h"
#include "paper/paper.h"
#include "shop/outbox.h"
#include "shop/specimen.h"

namespace ordinatio::inline shop {
namespace {

constexpr double least_spot = 0.005, most_spot = 2;  // mm: finer than any beam; coarser than any engraving

MaybeFault off_spot(double spot) {
  if (spot >= least_spot && spot <= most_spot) return std::nullopt;
  std::string text = "this";
  if (std::isfinite(spot) && std::abs(spot) < 1e6) append_number(text = "", spot, 4), text += " mm";
  return Fault{text + " is no width of a spot", "--spot", "", "Give the width of the beam in mm, such as 0.1"};
}

/// The sample's lines, or why they cannot be engraved.
Result<std::vector<std::string>> words_of(const Workroom& workroom, const SpecimenOptions& options) {
  const std::string& sample = options.text ? *options.text : workroom.shop().sample;
  const Result<Inscription> cleaned = clean_inscription(sample, workroom.cleaning());
  const std::string where = options.text ? "--text" : (workroom.shop().folder / "shop.toml").string() + ", sample";
  if (!cleaned.ok()) {
    Fault fault = cleaned.fault();
    fault.where = where + (fault.where.empty() ? "" : ", " + fault.where);
    return fault;
  }
  std::vector<std::string> lines = cleaned->lines;
  std::erase_if(lines, [](const std::string& line) { return line.find_first_not_of(' ') == std::string::npos; });
  if (lines.empty()) return Fault{"the sample has no words", where, "", "Give some words to show"};
  return lines;
}

/// The faces to show: those that were named, or all for engraving and the workshop's own.
std::vector<std::string> names_of(const Workroom& workroom, const std::vector<std::string>& named) {
  return named.empty() ? workroom.face_names() : named;
}

/// What is known of a face. A file of the workshop's own stands before a face of the catalogue that has its name.
Result<CatalogueFace> face_called(const std::string& name, const Workroom& workroom, Typesetter& typesetter,
                                  Account& account) {
  const Result<FontFile> file = workroom.fonts().find(name);
  if (!file.ok()) return file.fault();
  if (file->strokes != nullptr) {
    return Fault{"the face " + name + " is of lines", "", "a specimen shows letters that are filled",
                 "See it in a design that names it: ordinatio proof"};
  }
  if (const Result<FaceHeights> metrics = typesetter.metrics(name); !metrics.ok()) return metrics.fault();
  const std::vector<CatalogueFace>& catalogue = workroom.fonts().catalogue();
  const auto known = std::ranges::find(catalogue, name, &CatalogueFace::name);
  if (known == catalogue.end() || file->path.parent_path() == workroom.shop().folder / "fonts") {
    CatalogueFace own;
    own.name = name;
    own.file = file->path.filename().string();
    if (const auto measures = gauge_face(typesetter, name); measures.ok()) {
      own.thinnest = measures->thinnest;
      own.counter = measures->counter;
    }
    return own;
  }
  if (const auto bytes = read_file(file->path); bytes.ok() && sha256_hex(*bytes) != known->sha256) {
    account.notes.push_back("face " + name + ": its file is not the one of Debian 12; measures may be a hair off");
  }
  return *known;
}

constexpr double sample_tolerance = 0.02;  // mm, of curves in a picture

/// Faults: the face has not all letters.
Result<Path> sample_ink(const std::string& face, const std::string& line, double cap_height, Typesetter& typesetter) {
  const Result<bool> drawn = typesetter.draws(face, line);
  if (!drawn.ok()) return drawn.fault();
  if (!*drawn) return Fault{"it has not all of these letters", "", "", "Other faces would stand in for them"};
  const Result<ShapedLine> shaped = typesetter.shape(line, {{face}, "", ""});
  if (!shaped.ok()) return shaped.fault();
  Path ink;
  typesetter.append_ink(ink, *shaped, sample_capitals / cap_height, {}, sample_tolerance);
  return ink;
}

FaceSample sample_in(CatalogueFace face, const std::string& line, double spot, Typesetter& typesetter) {
  FaceSample sample;
  sample.face = std::move(face);
  const Result<FaceHeights> heights = typesetter.metrics(sample.face.name);
  if (!heights.ok()) {
    sample.cannot = heights.fault();
    return sample;
  }
  const FaceGauges gauges{heights->cap_height, sample.face.thinnest, sample.face.counter};
  if (gauges.thinnest > 0) sample.least_cap = least_cap_height(gauges, spot);
  Result<Path> ink = sample_ink(sample.face.name, line, heights->cap_height, typesetter);
  if (ink.ok())
    sample.ink = *std::move(ink);
  else
    sample.cannot = ink.fault();
  return sample;
}

}  // namespace

Result<std::vector<FaceSample>> show_faces(const Shop& shop, const SpecimenOptions& options) {
  const double spot = options.spot.value_or(shop.plan.machine.spot);
  if (auto fault = off_spot(spot)) return *std::move(fault);
  const Workroom workroom(shop);
  const Result<std::vector<std::string>> words = words_of(workroom, options);
  if (!words.ok()) return words.fault();
  Typesetter typesetter(workroom.fonts());
  Account ignored;
  std::vector<FaceSample> samples;
  for (const std::string& name : names_of(workroom, options.faces)) {
    const Result<CatalogueFace> face = face_called(name, workroom, typesetter, ignored);
    if (face.ok()) {
      samples.push_back(sample_in(*face, words->front(), spot, typesetter));
    } else {
      FaceSample& missing = samples.emplace_back();
      missing.face.name = name, missing.cannot = face.fault();
    }
  }
  return samples;
}

Result<Account> run_specimen(const Shop& shop, const SpecimenOptions& options, const Progress& progress) {
  const double spot = options.spot.value_or(shop.plan.machine.spot);
  if (auto fault = off_spot(spot)) return *std::move(fault);
  const Workroom workroom(shop);
  Result<std::vector<std::string>> words = words_of(workroom, options);
  if (!words.ok()) return words.fault();
  Typesetter typesetter(workroom.fonts());
  Account account;
  std::vector<CatalogueFace> faces;
  const std::vector<std::string> names = names_of(workroom, options.faces);
  for (std::size_t i = 0; i < names.size(); ++i) {
    Result<CatalogueFace> face = face_called(names[i], workroom, typesetter, account);
    if (face.ok()) {
      faces.push_back(std::move(*face));
    } else if (!options.faces.empty() || (names.size() == 1)) {
      return face.fault();
    } else {
      account.held.push_back({names[i], face.fault()});  // the others are shown all the same
    }
    if (progress) progress(i + 1, names.size());
  }
  if (faces.empty()) return account.held.front().fault;
  const Result<Specimen> specimen =
      write_specimen_pdf(faces, {shop.name, std::move(*words), shop.language, spot}, workroom.fonts());
  if (!specimen.ok()) return specimen.fault();
  Result<std::unique_ptr<Outbox>> outbox = Outbox::open(options.out, "specimen");
  if (!outbox.ok()) return outbox.fault();
  const Result<std::string> written = (*outbox)->put("specimen.pdf", specimen->pdf);
  if (!written.ok()) return written.fault();
  if (auto fault = check_specimen(*written, specimen->ink)) return *std::move(fault);
  auto files = (*outbox)->deliver();
  if (!files.ok()) return files.fault();
  account.items_set = faces.size();
  account.files = std::move(*files);
  return account;
}

}  // namespace ordinatio::inline shop
