#include "tests/support/server/server_process.h"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <thread>
#include <utility>

namespace squeezeout::test {
namespace {

namespace fs = std::filesystem;

std::string read_file(const fs::path& path) {
  std::ostringstream text;
  text << std::ifstream(path).rdbuf();
  return text.str();
}

pid_t start(const std::vector<std::string>& arguments, const fs::path& log) {
  const std::string binary = server_binary();
  std::vector<char*> argv{const_cast<char*>(binary.c_str())};
  for (const std::string& a : arguments) argv.push_back(const_cast<char*>(a.c_str()));
  argv.push_back(nullptr);
  const pid_t pid = ::fork();
  if (pid < 0) throw std::runtime_error("cannot fork");
  if (pid == 0) {
    const int fd = ::open(log.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    ::dup2(fd, STDOUT_FILENO);
    ::dup2(fd, STDERR_FILENO);
    ::execv(binary.c_str(), argv.data());
    ::_exit(127);
  }
  return pid;
}

Ended wait_for(pid_t pid, const fs::path& log) {
  int status = 0;
  ::waitpid(pid, &status, 0);
  Ended ended;
  if (WIFEXITED(status)) ended.exit_code = WEXITSTATUS(status);
  if (WIFSIGNALED(status)) ended.signal = WTERMSIG(status);
  ended.output = read_file(log);
  return ended;
}

}  // namespace

ScratchFolder::ScratchFolder() {
  std::string name = (fs::temp_directory_path() / "squeezeout-test-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("cannot make a scratch folder");
  path_ = name;
}

ScratchFolder::~ScratchFolder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

std::string server_binary() {
  return (fs::read_symlink("/proc/self/exe").parent_path() / "squeezeout-server").string();
}

Ended run_server(const std::vector<std::string>& arguments) {
  const ScratchFolder scratch;
  const fs::path log = scratch.path() / "log";
  return wait_for(start(arguments, log), log);
}

ServerProcess::ServerProcess(fs::path data, std::vector<std::string> arguments)
    : data_(std::move(data)) {
  const fs::path port_file = data_.string() + ".port";
  fs::remove(port_file);
  std::vector<std::string> all{"--data", data_.string(), "--port",
                               "0",      "--port-file",  port_file.string()};
  all.insert(all.end(), arguments.begin(), arguments.end());
  pid_ = start(all, data_.string() + ".log");
  const auto deadline = std::chrono::steady_clock::now() + std::chrono::seconds{20};
  while (!fs::exists(port_file)) {
    int status = 0;
    const bool ended = ::waitpid(pid_, &status, WNOHANG) == pid_;
    if (ended || std::chrono::steady_clock::now() > deadline) {
      if (ended) pid_ = -1;
      const std::string words = said();
      end(SIGKILL);
      throw std::runtime_error("the server does not listen; it said: " + words);
    }
    std::this_thread::sleep_for(std::chrono::milliseconds{2});
  }
  port_ = static_cast<std::uint16_t>(std::stoi(read_file(port_file)));
}

ServerProcess::~ServerProcess() { end(SIGKILL); }

Ended ServerProcess::stop() { return end(SIGTERM); }
Ended ServerProcess::kill() { return end(SIGKILL); }
std::string ServerProcess::said() const { return read_file(data_.string() + ".log"); }

Ended ServerProcess::end(int signal) {
  if (pid_ < 0) return {};
  ::kill(pid_, signal);
  return wait_for(std::exchange(pid_, -1), data_.string() + ".log");
}

std::size_t ServerProcess::resident_bytes() const {
  std::ifstream status("/proc/" + std::to_string(pid_) + "/status");
  for (std::string line; std::getline(status, line);) {
    if (line.starts_with("VmRSS:")) return std::stoul(line.substr(6)) * 1024;
  }
  return 0;
}

std::string small_shop_file() { return "tests/support/server/small_shop.textproto"; }

}  // namespace squeezeout::test
