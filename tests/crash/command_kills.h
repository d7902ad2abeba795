// In: a command, and the workshop as it finds it.
// Out: whether the command, struck anywhere and run again, leaves what it leaves when nothing happens to it, and says so.
// Never: compares times, or anything else that two unstruck runs would not have alike.
#pragma once

#include "kill_points.h"
#include "scratch.h"
#include "workshop.h"

namespace ordinatio::crash {

/// What a command has left: the ledger by what it says, all other files by their bytes.
struct Outcome {
  std::vector<std::string> ledger;
  FolderImage files;
};
Outcome outcome_of(const std::filesystem::path& folder);
/// What tells them apart, a line each; empty where nothing does.
std::string difference(const Outcome& expected, const Outcome& found);

/// How often a command was struck, and what went wrong.
struct Strikes {
  std::size_t killed = 0, torn = 0, killed_twice = 0, power_cuts = 0;
  std::vector<std::string> harms;
};

/// Which of a command's strikes are left out.
struct Thrift {
  std::size_t kill_every = 1;   // of the calls
  std::size_t torn_every = 1;   // of the writes that are among them
  std::size_t again_every = 3;  // of the kills
  std::size_t cut_every = 1;    // of the calls
};
/// What is left out unless ORDINATIO_STRIKES=all says otherwise. A command that draws takes long, most of it for its PDF, and
/// one that writes sheets makes many calls; what they do to the disk meanwhile is much alike.
Thrift thrift_for(const Command& command, std::size_t calls);

/// One command in one workshop, run as often as need be in the same folder.
class CommandKills {
 public:
  /// `before`: the workshop as the command finds it.
  CommandKills(const Command& command, const std::filesystem::path& before);

  /// What it leaves when nothing happens to it.
  [[nodiscard]] const Scratch& after() const { return after_; }
  [[nodiscard]] std::size_t calls() const { return calls_.size(); }

  /// Stops it at its calls, before them and in the midst of them, and runs it again on what a kill would have left; now and
  /// then kills the second run, and runs it a third time. first: the first call, 1 or 2, so that commands that are alike are
  /// struck at other calls.
  void kill_everywhere(std::size_t first, Strikes& strikes);
  /// The same with power cuts, at its calls and after its end.
  void cut_everywhere(Strikes& strikes);

 private:
  void begin_anew();
  void count_calls();
  void stop_at(const std::vector<Stop>& stops, Strikes& strikes);
  void look_after_kill(const Stop& stop, Strikes& strikes);
  void look_after_cut(const Stop& stop, Strikes& strikes);
  void look_at_halves(const std::string& where, Strikes& strikes) const;
  void run_again(const std::string& where, Strikes& strikes);
  [[nodiscard]] bool was_heard() const;
  int run();

  const Command& command_;
  Thrift thrift_;
  const std::filesystem::path& before_;
  Scratch after_, place_;
  SharedFlag heard_;  // the person has heard that it was done
  FolderImage files_before_;
  Outcome expected_;
  std::vector<std::string> expected_account_;
  std::vector<DiskCall> calls_;
};

}  // namespace ordinatio::crash
