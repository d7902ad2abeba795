// What becomes of a call that is caught (caught_calls.cpp): it is counted, struck or recorded. Of this folder alone.
#pragma once

#include <sys/types.h>

#include "call_watch.h"

namespace ordinatio::crash {

/// What is to be done with a call.
enum class Verdict { make, halve, stop_halfway, refuse_full, refuse_failed, refuse_read_only };

/// Nothing where this process is not watched: none is, or it is a child of the one that is.
CallWatch* watch_of_this_process();
/// Nothing where calls are not recorded.
DiskRecord* record_of_this_process();

/// Counts the call, and ends the process if it is struck by a kill or a power cut. `lengthens`: it makes a file or a folder,
/// or makes one longer.
Verdict arrive(CallWatch& watch, const DiskCall& call, bool lengthens);
[[noreturn]] void die();
/// Sets errno; gives -1.
int refuse(Verdict verdict);
/// Whether opening for writing is refused, although it is no call that changes anything.
bool refuses_writers(const CallWatch& watch);

/// Pipes, terminals and the standard streams are no disk.
bool on_disk(int file);
DiskCall call_on_path(const char* name, const char* path);
DiskCall call_on_file(const char* name, int file, std::size_t bytes = 0);

}  // namespace ordinatio::crash
