#include "desk_command.h"

#include <fcntl.h>
#include <spawn.h>
#include <unistd.h>

#include <csignal>
#include <iostream>

#include "command_tree.h"
#include "desk/desk.h"
#include "version.h"

namespace ordinatio {
namespace {

struct DeskWords {
  std::filesystem::path shop = ".";
  int port = 0;
  bool no_open = false;
};

/// Shows the address in the person's own browser. Where there is none, the address stands on the terminal.
void open_browser(const std::string& address) {
  posix_spawn_file_actions_t silence;
  posix_spawn_file_actions_init(&silence);
  posix_spawn_file_actions_addopen(&silence, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_addopen(&silence, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  std::string program = "xdg-open", url = address;
  char* const words[] = {program.data(), url.data(), nullptr};
  pid_t browser = 0;
  posix_spawnp(&browser, "xdg-open", &silence, nullptr, words, environ);
  posix_spawn_file_actions_destroy(&silence);
}

int serve(const DeskWords& words) {
  sigset_t ends;
  sigemptyset(&ends);
  for (const int one : {SIGINT, SIGTERM, SIGHUP}) sigaddset(&ends, one);
  pthread_sigmask(SIG_BLOCK, &ends, nullptr);  // before there are threads, which take it over
  signal(SIGCHLD, SIG_IGN);                    // nobody waits for the browser
  const auto desk = Desk::open({words.shop, words.port, program_version(), clock_now});
  if (!desk.ok()) return report_fault(desk.fault());
  std::cout << "The desk is open: " << (*desk)->first_address() << "\n"
            << "The address works once, on this machine alone. Ctrl+C closes the desk; nothing is lost by that.\n"
            << std::flush;
  if (!words.no_open) open_browser((*desk)->first_address());
  int which = 0;
  sigwait(&ends, &which);
  std::cout << "The desk is closed.\n";
  return done;
}

}  // namespace

void add_desk_command(CLI::App& app, int& code) {
  CLI::App* command = app.add_subcommand("desk", "Work in the browser: orders, plaques, sheets, pieces");
  command->group(desk_commands);
  const auto words = std::make_shared<DeskWords>();
  command
      ->add_option("--shop", words->shop,
                   "the workshop's folder, or an empty place for a new one (default: this folder)")
      ->type_name("FOLDER");
  command->add_option("--port", words->port, "where it listens, on this machine alone (default: any that is free)")
      ->type_name("NUMBER");
  command->add_flag("--no-open", words->no_open, "open no browser, say the address");
  show_examples(*command, {{"ordinatio desk", "opens the browser on the workshop of this folder"},
                           {"ordinatio desk --shop my-workshop --no-open", "says the address, to be opened by hand"}});
  command->callback([words, &code] { code = serve(*words); });
}

}  // namespace ordinatio
