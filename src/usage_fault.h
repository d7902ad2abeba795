// In: a command line that the option library refuses.
// Out: what is off and how it is mended, in the words of the commands' help.
// Never: the option library's own words.
#pragma once

#include "base/base.h"

namespace CLI {
class App;
class ParseError;
}  // namespace CLI

namespace ordinatio {

/// program: as it stands after the parse that threw the error. The Fault's place is the command.
Fault usage_fault(const CLI::App& program, const CLI::ParseError& error);

}  // namespace ordinatio
