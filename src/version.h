#pragma once

namespace ordinatio {

/// "0.1.0": the project's version, as its CMakeLists.txt has it.
const char* program_version();

}  // namespace ordinatio
