#include "version.h"

const char* ordinatio::program_version() { return ORDINATIO_VERSION; }
