// AddressSanitizer's defaults keep a quarter of a gigabyte of freed memory, which every fork would have to copy the tables
// of. Thousands of forks are quicker without.
extern "C" const char* __asan_default_options();
extern "C" const char* __asan_default_options() { return "quarantine_size_mb=1:malloc_context_size=4"; }
