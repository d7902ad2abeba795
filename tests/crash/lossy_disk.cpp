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
/// that was all but done, since what breaks a ledger is often a single sector that is missing, or a single one that is there.
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

LossyDisk::FileNumber LossyDisk::add(File file) {
  files_.push_back(std::move(file));
  return files_.size() - 1;
}

/// The file of that name; one that has not been told of lasts as it is.
LossyDisk::FileNumber LossyDisk::known(const fs::path& path) {
  if (const auto found = shown_.find(path); found != shown_.end() && found->second) return *found->second;
  const bool is_folder = fs::is_directory(path);
  const FileNumber number = add({path, is_folder ? "" : bytes_of(path), {}, is_folder});
  shown_[path] = lasting_names_[path] = number;
  return number;
}

LossyDisk::FileNumber LossyDisk::open(const fs::path& path, bool created) {
  if (!created) return known(path);
  const FileNumber number = add({path, "", {}, false});
  shown_[path] = number;
  names_since_.push_back({{path, number}});
  return number;
}

void LossyDisk::make_folder(const fs::path& path) {
  const FileNumber number = add({path, "", {}, true});
  shown_[path] = number;
  names_since_.push_back({{path, number}});
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
  known(path);
  shown_[path] = std::nullopt;
  names_since_.push_back({{path, std::nullopt}});
}

void LossyDisk::rename(const fs::path& from, const fs::path& to) {
  const FileNumber number = known(from);
  if (files_[number].is_folder) throw std::logic_error("a folder that is renamed is more than a lossy disk knows of");
  shown_[from] = std::nullopt;
  shown_[to] = number;
  files_[number].path = to;
  names_since_.push_back({{from, std::nullopt}, {to, number}});
}

bool LossyDisk::touch_same(const NameChange& a, const NameChange& b) {
  return std::ranges::any_of(a, [&](const auto& one) {
    return std::ranges::any_of(b, [&](const auto& other) { return one.first == other.first; });
  });
}

/// What is synced takes with it what happened to the same names before.
void LossyDisk::sync_folder(const fs::path& folder) {
  std::vector<NameChange> lasting, rest;
  for (auto change = names_since_.rbegin(); change != names_since_.rend(); ++change) {
    const bool precedes = std::ranges::any_of(lasting, [&](const NameChange& one) { return touch_same(*change, one); });
    (precedes || change->back().first.parent_path() == folder ? lasting : rest).push_back(*change);
  }
  for (auto change = lasting.rbegin(); change != lasting.rend(); ++change) {
    for (const auto& [path, file] : *change) lasting_names_[path] = file;
  }
  names_since_.assign(rest.rbegin(), rest.rend());
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
    if (!lasts) continue;
    for (const auto& [path, file] : names_since_[i]) names[path] = file;
  }
  return names;
}

/// Whether the folders that lead to the path are there.
bool LossyDisk::has_folders(const fs::path& path, const Names& names) const {
  for (fs::path folder = path.parent_path(); folder.has_relative_path(); folder = folder.parent_path()) {
    if (!shown_.contains(folder)) continue;
    const auto name = names.find(folder);
    if (name == names.end() || !name->second) return false;
  }
  return true;
}

void LossyDisk::cut(const Loss& loss) const {
  std::mt19937_64 random(loss.seed);
  const Names names = surviving_names(random);
  std::vector<fs::path> lost;
  for (const auto& [path, shown] : shown_) {  // a folder comes before what is in it
    const auto name = names.find(path);
    if (name == names.end() || !name->second || !has_folders(path, names)) {
      lost.push_back(path);
    } else if (files_[*name->second].is_folder) {
      fs::create_directory(path);
    } else {
      put_bytes(path, surviving(files_[*name->second], random, loss.sector));
    }
  }
  for (auto path = lost.rbegin(); path != lost.rend(); ++path) fs::remove(*path);
}

}  // namespace ordinatio::crash
