#include "lossy_disk.h"

#include <algorithm>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace ordinatio::crash {
namespace fs = std::filesystem;
namespace {

/// In [0, count).
std::size_t pick(std::mt19937_64& random, std::size_t count) { return static_cast<std::size_t>(random() % count); }
bool happens(std::mt19937_64& random, std::size_t percent) { return pick(random, 100) < percent; }

/// How much of what was not synced a cut lets through, in percent of the sectors: from a disk that had begun nothing to one
/// that was all but done, since what breaks a book is often a single sector that is missing, or a single one that is there.
std::size_t pick_share(std::mt19937_64& random) {
  static constexpr std::size_t shares[] = {0, 10, 50, 90, 97, 100};
  return shares[pick(random, std::size(shares))];
}

/// How far in a history of so many changes something has come.
std::size_t pick_reach(std::mt19937_64& random, std::size_t changes, std::size_t share) {
  return happens(random, share) ? changes : pick(random, changes + 1);
}

std::string bytes_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

void put_bytes(const fs::path& path, const std::string& bytes) {
  std::ofstream file(path, std::ios::binary | std::ios::trunc);
  file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  if (!file.flush()) throw std::runtime_error("cannot write " + path.string());
}

std::string rubbish(std::mt19937_64& random, std::size_t length) {
  std::string bytes(length, '\0');
  if (happens(random, 50)) std::ranges::generate(bytes, [&] { return static_cast<char>(random()); });
  return bytes;
}

/// The bytes [from, to) of a sector that a change has begun to write; half of them where power failed in the midst.
void tear(std::mt19937_64& random, std::size_t& from, std::size_t& to) {
  const std::size_t middle = from + pick(random, to - from + 1);
  (happens(random, 50) ? from : to) = middle;
}

}  // namespace

LossyDisk::FileNumber LossyDisk::open(const fs::path& path, bool created) {
  if (const auto known = shown_.find(path); known != shown_.end() && known->second) return *known->second;
  const FileNumber number = files_.size();
  files_.push_back({path, created ? "" : bytes_of(path), {}});
  shown_[path] = number;
  if (created) {
    names_since_.push_back({path, number});
  } else {
    lasting_names_[path] = number;
  }
  return number;
}

void LossyDisk::write(FileNumber file, std::size_t offset, std::string_view bytes) {
  files_[file].since.push_back({offset, std::string(bytes)});
}

void LossyDisk::truncate(FileNumber file, std::size_t length) { files_[file].since.push_back({length, std::nullopt}); }

void LossyDisk::sync(FileNumber file) {
  File& synced = files_[file];
  for (const Change& change : synced.since) apply(synced.lasting, change);
  synced.since.clear();
}

void LossyDisk::remove(const fs::path& path) {
  if (!shown_.contains(path)) open(path, false);
  shown_[path] = std::nullopt;
  names_since_.push_back({path, std::nullopt});
}

void LossyDisk::sync_folder(const fs::path& folder) {
  const auto elsewhere = std::ranges::stable_partition(
      names_since_, [&](const NameChange& change) { return change.path.parent_path() != folder; });
  for (const NameChange& change : elsewhere) lasting_names_[change.path] = change.file;
  names_since_.erase(elsewhere.begin(), elsewhere.end());
}

void LossyDisk::apply(std::string& bytes, const Change& change) {
  if (!change.bytes) {
    bytes.resize(change.offset, '\0');
    return;
  }
  bytes.resize(std::max(bytes.size(), change.offset + change.bytes->size()), '\0');
  std::ranges::copy(*change.bytes, bytes.begin() + static_cast<std::ptrdiff_t>(change.offset));
}

/// The file's length at its last sync, and after each change since.
std::vector<std::size_t> LossyDisk::lengths(const File& file) {
  std::vector<std::size_t> lengths{file.lasting.size()};
  for (const Change& change : file.since) {
    lengths.push_back(change.bytes ? std::max(lengths.back(), change.offset + change.bytes->size()) : change.offset);
  }
  return lengths;
}

std::string LossyDisk::surviving(const File& file, std::mt19937_64& random, std::size_t sector) {
  const std::size_t changes = file.since.size();
  if (changes == 0) return file.lasting;
  const std::vector<std::size_t> history = lengths(file);
  const std::size_t longest = std::ranges::max(history), share = pick_share(random);
  const std::size_t torn = share == 100 ? 0 : 20;  // percent of the sectors whose last change was under way
  std::vector<std::size_t> reach((longest + sector - 1) / sector);
  std::ranges::generate(reach, [&] { return pick_reach(random, changes, share); });

  std::string bytes = file.lasting + rubbish(random, longest - file.lasting.size());
  for (std::size_t i = 0; i < changes; ++i) {
    const Change& change = file.since[i];
    const std::size_t end = change.bytes ? change.offset + change.bytes->size() : longest;
    for (std::size_t at = change.offset; at < end;) {
      const std::size_t next = std::min(end, (at / sector + 1) * sector), reached = reach[at / sector];
      std::size_t from = at, to = reached > i ? next : at;
      if (reached == i + 1 && happens(random, torn)) tear(random, from, to);
      for (; from < to; ++from) bytes[from] = change.bytes ? (*change.bytes)[from - change.offset] : '\0';
      at = next;
    }
  }
  bytes.resize(history[pick_reach(random, changes, share)]);
  return bytes;
}

/// Either as a file system that keeps a journal of its names, up to some moment; or each as it happens to be.
LossyDisk::Names LossyDisk::surviving_names(std::mt19937_64& random) const {
  const bool in_order = happens(random, 50);
  const std::size_t reached = pick(random, names_since_.size() + 1);
  Names names = lasting_names_;
  for (std::size_t i = 0; i < names_since_.size(); ++i) {
    const bool lasts = in_order ? i < reached : happens(random, 50);
    if (lasts) names[names_since_[i].path] = names_since_[i].file;
  }
  return names;
}

void LossyDisk::cut(const Loss& loss) const {
  std::mt19937_64 random(loss.seed);
  const Names names = surviving_names(random);
  for (const auto& [path, shown] : shown_) {
    const auto name = names.find(path);
    if (name == names.end() || !name->second) {
      fs::remove(path);
    } else {
      put_bytes(path, surviving(files_[*name->second], random, loss.sector));
    }
  }
}

}  // namespace ordinatio::crash
