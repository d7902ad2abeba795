#include <algorithm>

#include "base/account.h"
#include "check/check.h"
#include "csv/shown.h"
#include "paper/paper.h"
#include "shop/design_specimen.h"
#include "shop/outbox.h"

namespace ordinatio::inline shop {
namespace {

// What date marks and serial numbers show; any would do.
constexpr const char *sample_date = "2027-06-12", *sample_number = "001";

/// The inscriptions to show: what was asked for, else the design's own samples, else the shop's. One that is empty where
/// the design has no place for any.
std::vector<std::string> samples_of(const Design& design, const Shop& shop, const DesignSpecimenOptions& options) {
  if (!has_inscription(design)) return {""};
  if (options.text) return {*options.text};
  return design.samples.empty() ? std::vector<std::string>{shop.sample} : design.samples;
}

Result<Artwork> sample_of(const LaidDesign& design, const std::string& sample, const Workroom& workroom,
                          Typesetter& typesetter) {
  Words words{{}, sample_date, sample_number};
  if (has_inscription(design)) {
    Result<Inscription> inscription = clean_inscription(sample, workroom.cleaning());
    if (!inscription.ok()) return inscription.fault();
    words.inscription = std::move(*inscription);
  }
  Result<Artwork> artwork = compose(design, words, typesetter);
  if (artwork.ok() && artwork->illegible) return *artwork->illegible;
  return artwork;
}

/// "serif, capitals 3 to 25 mm"
std::string facts_of(const Design& design) {
  std::string facts;
  for (const TextPart& text : design.texts) {
    std::string range;
    append_number(range, text.min_cap_height, 2);
    facts += (facts.empty() ? "" : "; ") + text.look.faces.front() + ", capitals " + range + " to " +
             mm_text(text.max_cap_height);
  }
  return facts;
}

/// The design with all its samples that can be engraved; the others are held.
Result<DesignSamples> samples_of(const std::string& name, Workroom& workroom, const DesignSpecimenOptions& options,
                                 Typesetter& typesetter, Account& account) {
  const Result<const Station*> station = workroom.station(name);
  if (!station.ok()) return station.fault();
  const LaidDesign& design = (*station)->design;
  DesignSamples shown{name, design.about, facts_of(design), {}};
  const std::vector<std::string> samples = samples_of(design, workroom.shop(), options);
  for (std::size_t i = 0; i < samples.size(); ++i) {
    Result<Artwork> artwork = sample_of(design, samples[i], workroom, typesetter);
    if (artwork.ok()) {
      shown.artworks.push_back(std::move(*artwork));
    } else {
      account.held.push_back({name + ", sample " + std::to_string(i + 1), artwork.fault()});
    }
  }
  return shown;
}

}  // namespace

Result<Account> run_design_specimen(const Shop& shop, const DesignSpecimenOptions& options, const Progress& progress) {
  Workroom workroom(shop);
  Typesetter typesetter(workroom.fonts());
  Account account;
  std::vector<DesignSamples> designs;
  const std::vector<std::string> names = options.designs.empty() ? workroom.design_names() : options.designs;
  for (std::size_t i = 0; i < names.size(); ++i) {
    Result<DesignSamples> design = samples_of(names[i], workroom, options, typesetter, account);
    if (!design.ok() && !options.designs.empty()) return design.fault();
    if (!design.ok()) {
      account.held.push_back({names[i], design.fault()});  // the others are shown all the same
    } else if (!design->artworks.empty()) {
      designs.push_back(std::move(*design));
    }
    if (progress) progress(i + 1, names.size());
  }
  if (designs.empty() && !account.held.empty()) return account.held.front().fault;
  const Result<DesignSpecimen> specimen = write_design_specimen(designs, shop.name, workroom.fonts());
  if (!specimen.ok()) return specimen.fault();
  Result<std::unique_ptr<Outbox>> outbox = Outbox::open(options.out, "designs");
  if (!outbox.ok()) return outbox.fault();
  const Result<std::string> written = (*outbox)->put("designs.pdf", specimen->pdf);
  if (!written.ok()) return written.fault();
  if (auto fault = check_specimen(*written, specimen->ink)) return *std::move(fault);
  if (const auto picture = (*outbox)->put("designs.png", specimen->png); !picture.ok()) return picture.fault();
  auto files = (*outbox)->deliver();
  if (!files.ok()) return files.fault();
  account.items_set = designs.size();
  account.files = std::move(*files);
  return account;
}

}  // namespace ordinatio::inline shop
