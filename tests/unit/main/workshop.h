// A workshop of its own for a test, and the program run in it as a person would run it.
#pragma once

#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <string>

#include "base/base.h"

namespace ordinatio {
namespace fs = std::filesystem;

struct Run {
  int code = -1;
  std::string out, err;
};

class Workshop {
 public:
  Workshop() {
    static int count = 0;
    folder_ =
        fs::temp_directory_path() / ("ordinatio-test-" + std::to_string(::getpid()) + "-" + std::to_string(++count));
    fs::remove_all(folder_);
    fs::create_directories(folder_);
    REQUIRE(run("new " + shop().string()).code == 0);
  }
  ~Workshop() { fs::remove_all(folder_); }
  Workshop(const Workshop&) = delete;
  Workshop& operator=(const Workshop&) = delete;

  [[nodiscard]] fs::path shop() const { return folder_ / "shop"; }

  /// Runs `ordinatio ARGUMENTS` in the workshop, by way of `wrapper` where given.
  [[nodiscard]] Run run(const std::string& arguments, const std::string& wrapper = "") const {
    const fs::path out = folder_ / "stdout", err = folder_ / "stderr";
    const fs::path where = fs::exists(shop()) ? shop() : folder_;
    const std::string command = "cd '" + where.string() + "' && " + wrapper + " " + ORDINATIO + " " + arguments +
                                " >'" + out.string() + "' 2>'" + err.string() + "' </dev/null";
    const int status = std::system(command.c_str());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, *read_file(out), *read_file(err)};
  }

  void write(const std::string& name, std::string_view text) const { REQUIRE_FALSE(write_file(shop() / name, text)); }
  [[nodiscard]] std::string read(const std::string& name) const { return *read_file(shop() / name); }

  /// Puts `to` in place of the first `from` in a file of the workshop.
  void edit(const std::string& name, const std::string& from, const std::string& to) const {
    std::string text = read(name);
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    write(name, text.replace(at, from.size(), to));
  }

  /// Every file of the workshop and what is in it.
  [[nodiscard]] std::map<std::string, std::string> files() const {
    std::map<std::string, std::string> all;
    for (const auto& entry : fs::recursive_directory_iterator(shop())) {
      all[entry.path().lexically_relative(shop()).string()] = entry.is_regular_file() ? *read_file(entry.path()) : "";
    }
    return all;
  }

 private:
  fs::path folder_;
};

}  // namespace ordinatio
