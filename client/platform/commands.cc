#include "client/platform/commands.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>

extern char** environ;

namespace squeezeout::platform {
namespace {

constexpr std::size_t kMostSaid = 400;
constexpr int kMostReads = 16;  // a look, so that one who never stops talking holds up nobody

std::string first_line(const std::string& text) { return text.substr(0, text.find('\n')); }

// The environment of this program, with those names set anew.
std::vector<std::string> surroundings(const Command& command) {
  std::vector<std::string> out;
  for (char** entry = environ; entry != nullptr && *entry != nullptr; ++entry) {
    const std::string one = *entry;
    bool replaced = false;
    for (const auto& [name, value] : command.environment)
      replaced = replaced || one.rfind(name + "=", 0) == 0;
    if (!replaced) out.push_back(one);
  }
  for (const auto& [name, value] : command.environment) out.push_back(name + "=" + value);
  return out;
}

std::vector<char*> pointers(std::vector<std::string>& texts) {
  std::vector<char*> out;
  for (std::string& text : texts) out.push_back(text.data());
  out.push_back(nullptr);
  return out;
}

struct Actions {
  posix_spawn_file_actions_t files{};
  posix_spawnattr_t attributes{};
  Actions() {
    posix_spawn_file_actions_init(&files);
    posix_spawnattr_init(&attributes);
  }
  ~Actions() {
    posix_spawn_file_actions_destroy(&files);
    posix_spawnattr_destroy(&attributes);
  }
  Actions(const Actions&) = delete;
  Actions& operator=(const Actions&) = delete;
};

// How it ended, when that was no success.
std::string trouble(int status) {
  if (WIFEXITED(status) && WEXITSTATUS(status) == 0) return "";
  if (WIFEXITED(status)) return fmt::format("exit code {}", WEXITSTATUS(status));
  return fmt::format("ended by signal {}", WTERMSIG(status));
}

}  // namespace

Commands::~Commands() {
  if (running_) ::close(running_->errors);
}

bool Commands::run(Command command) {
  if (waiting_.size() >= kMostWaiting) return false;
  waiting_.push_back(std::move(command));
  return true;
}

std::optional<Failed> Commands::look() {
  if (auto failed = reap()) return failed;
  while (!running_ && !waiting_.empty()) {
    const Command next = std::move(waiting_.front());
    waiting_.pop_front();
    if (auto failed = begin(next)) return failed;
  }
  return std::nullopt;
}

std::optional<Failed> Commands::begin(const Command& command) {
  int ends[2];
  if (::pipe2(ends, O_CLOEXEC) != 0)
    return Failed{command.shell, std::strerror(errno), command.about};
  ::fcntl(ends[0], F_SETFL, O_NONBLOCK);
  Actions actions;
  posix_spawn_file_actions_addopen(&actions.files, 0, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_addopen(&actions.files, 1, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_adddup2(&actions.files, ends[1], 2);
  posix_spawn_file_actions_addclosefrom_np(&actions.files, 3);
  sigset_t broken_pipe;
  sigemptyset(&broken_pipe);
  sigaddset(&broken_pipe, SIGPIPE);
  posix_spawnattr_setsigdefault(&actions.attributes, &broken_pipe);
  posix_spawnattr_setflags(&actions.attributes, POSIX_SPAWN_SETPGROUP | POSIX_SPAWN_SETSIGDEF);
  posix_spawnattr_setpgroup(&actions.attributes, 0);

  std::vector<std::string> arguments{"sh", "-c", command.shell + " \"$@\"", "sh"};
  if (command.arguments.empty()) arguments[2] = command.shell;
  arguments.insert(arguments.end(), command.arguments.begin(), command.arguments.end());
  std::vector<std::string> around = surroundings(command);
  pid_t pid = 0;
  const int error = ::posix_spawn(&pid, "/bin/sh", &actions.files, &actions.attributes,
                                  pointers(arguments).data(), pointers(around).data());
  ::close(ends[1]);
  if (error != 0) {
    ::close(ends[0]);
    return Failed{command.shell, std::strerror(error), command.about};
  }
  running_ =
      Running{pid, ends[0], "", command.shell, command.about, std::chrono::steady_clock::now()};
  return std::nullopt;
}

void Commands::listen() {
  char some[4096];
  for (int i = 0; i < kMostReads; ++i) {
    const ssize_t got = ::read(running_->errors, some, sizeof some);
    if (got <= 0) return;
    std::string& said = running_->said;
    said.append(some, std::min(static_cast<std::size_t>(got), kMostSaid - said.size()));
  }
}

void Commands::kill_running() {
  int status = 0;
  ::kill(-running_->pid, SIGKILL);
  ::waitpid(running_->pid, &status, 0);
}

void Commands::stop() {
  waiting_.clear();
  if (!running_) return;
  kill_running();
  ::close(running_->errors);
  running_.reset();
}

std::optional<Failed> Commands::reap() {
  if (!running_) return std::nullopt;
  int status = 0;
  const pid_t ended = ::waitpid(running_->pid, &status, WNOHANG);
  listen();
  const bool late = std::chrono::steady_clock::now() - running_->begun > patient_;
  if (ended == 0 && !late) return std::nullopt;
  std::string why;
  if (ended == running_->pid) {
    why = trouble(status);
  } else if (late) {
    kill_running();
    why = fmt::format("it did not end within {} s", patient_.count());
  }
  const Running over = std::move(*running_);
  running_.reset();
  ::close(over.errors);
  if (why.empty()) return std::nullopt;
  if (const std::string line = first_line(over.said); !line.empty()) why += ": " + line;
  return Failed{over.shell, why, over.about};
}

}  // namespace squeezeout::platform
