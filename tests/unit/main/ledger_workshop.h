// A workshop with a ledger, for tests of the built program.
#pragma once

#include "workshop.h"

namespace ordinatio {

/// The new workshop as it ships, with a ledger and without its sample orders. Times count on by a minute a command.
class LedgerWorkshop : public Workshop {
 public:
  LedgerWorkshop() {
    fs::remove(shop() / "orders.csv");
    // Exports here have the columns that a test is about: none is missed.
    edit("shop.toml", "quantity = \"Quantity\"", "");
    edit("shop.toml", "design = \"Design\"", "");
    write("shop.toml", read("shop.toml") + "\n[ledger]\nfile = \"workshop.ledger\"\n");
  }
  /// SVG and manifest alone where sheets are written.
  [[nodiscard]] Run day(const std::string& more = "") const { return at("day --no-dxf --no-pdf " + more); }
  /// The command, a minute after the one before.
  [[nodiscard]] Run at(const std::string& arguments) const {
    const int minute = ++minutes_;
    const auto two = [](int n) { return (n < 10 ? "0" : "") + std::to_string(n); };
    return run(arguments + " --now 2026-11-25T" + two(8 + minute / 60) + ":" + two(minute % 60) + ":00Z");
  }
  [[nodiscard]] Run intake(const std::string& name, std::string_view rows) const {
    write(name, rows);
    return at("intake " + name);
  }
  /// A command that must do what it is asked, whatever it has to say of it.
  std::string must(const Run& done) const {
    INFO(done.out << done.err);
    REQUIRE(done.code < 2);
    return done.out;
  }

 private:
  mutable int minutes_ = 0;
};

inline bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace ordinatio
