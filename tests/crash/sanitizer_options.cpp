// AddressSanitizer's defaults keep a quarter of a gigabyte of freed memory, which every fork would have to copy the tables
// of. Thousands of forks are three times as quick without; the unit tests keep some.
extern "C" const char* __asan_default_options();
extern "C" const char* __asan_default_options() {
  return "quarantine_size_mb=0:thread_local_quarantine_size_kb=0:malloc_context_size=1";
}
