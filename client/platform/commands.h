#pragma once
// Commands of the shop's own, run through /bin/sh beside the program: a lamp that is switched, a label that is printed.
//   Shape    one after another, in the order asked; nobody waits for them. Look now and then: it begins and reaps them
//   Safe     names come in as arguments or in the environment: the shell never reads them as its own text
//   Limits   one that has not ended after kPatient is killed with all that it began; kMostWaiting wait, more are refused

#include <sys/types.h>

#include <chrono>
#include <deque>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace squeezeout::platform {

struct Command {
  std::string shell;                   // as the person wrote it: "lp -d labels"
  std::vector<std::string> arguments;  // appended to it
  std::vector<std::pair<std::string, std::string>> environment;
  std::string about{};  // told again should it fail
};

struct Failed {
  std::string shell;
  std::string why;    // "exit code 1: no such printer"
  std::string about;  // the command's
};

class Commands {
 public:
  explicit Commands(std::chrono::seconds patient = kPatient) : patient_(patient) {}
  ~Commands();  // what runs goes on; what waits is not begun
  Commands(const Commands&) = delete;
  Commands& operator=(const Commands&) = delete;

  // False: too many wait already.
  [[nodiscard]] bool run(Command command);
  // Begins the next, and tells of one that failed.
  std::optional<Failed> look();
  // Kills what runs, with all that it began, and forgets what waits.
  void stop();
  bool idle() const { return !running_ && waiting_.empty(); }

  static constexpr std::chrono::seconds kPatient{20};
  static constexpr std::size_t kMostWaiting = 16;

 private:
  struct Running {
    pid_t pid = 0;
    int errors = -1;  // the end of the pipe that is read
    std::string said, shell, about;
    std::chrono::steady_clock::time_point begun;
  };
  std::optional<Failed> begin(const Command& command);
  std::optional<Failed> reap();
  void listen();
  void kill_running();
  std::chrono::seconds patient_;
  std::deque<Command> waiting_;
  std::optional<Running> running_;
};

}  // namespace squeezeout::platform
