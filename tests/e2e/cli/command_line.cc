#include "tests/e2e/cli/command_line.h"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <thread>

namespace squeezeout::test {
namespace {

namespace fs = std::filesystem;

std::string slurp(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

void redirect(int fd, const fs::path& file) {
  const int to = ::open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
  if (to < 0 || ::dup2(to, fd) < 0) ::_exit(126);
}

}  // namespace

Ran run_squeezeout(const fs::path& folder, const std::vector<std::string>& arguments) {
  const fs::path program = fs::read_symlink("/proc/self/exe").parent_path() / "squeezeout";
  const fs::path out = folder / "out", err = folder / "err";
  const pid_t pid = ::fork();
  if (pid < 0) throw std::runtime_error("cannot fork");
  if (pid == 0) {
    redirect(STDOUT_FILENO, out);
    redirect(STDERR_FILENO, err);
    ::setenv("XDG_STATE_HOME", folder.c_str(), 1);
    for (const char* name : {"SQUEEZEOUT_SERVER", "SQUEEZEOUT_BUILDER", "SQUEEZEOUT_BENCH"})
      ::unsetenv(name);
    std::vector<char*> argv{const_cast<char*>(program.c_str())};
    for (const std::string& a : arguments) argv.push_back(const_cast<char*>(a.c_str()));
    argv.push_back(nullptr);
    ::execv(program.c_str(), argv.data());
    ::_exit(127);
  }
  int status = 0;
  if (::waitpid(pid, &status, 0) != pid) throw std::runtime_error("cannot wait");
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, slurp(out), slurp(err)};
}

Ran CliShop::run(std::vector<std::string> arguments) {
  arguments.insert(arguments.begin(), {"--server", "127.0.0.1:" + std::to_string(server_.port())});
  return run_squeezeout(scratch_.path(), arguments);
}

nlohmann::json CliShop::json(std::vector<std::string> arguments, int exit_code) {
  const std::string verb = arguments.empty() ? "" : arguments.front();
  arguments.emplace_back("--json");
  const Ran ran = run(std::move(arguments));
  EXPECT_EQ(ran.exit_code, exit_code) << verb << ": " << ran.out << ran.err;
  EXPECT_EQ(ran.err, "") << verb;
  EXPECT_EQ(std::count(ran.out.begin(), ran.out.end(), '\n'), 1) << verb << ": one line of JSON";
  return nlohmann::json::parse(ran.out);
}

nlohmann::json CliShop::json_until(const std::vector<std::string>& arguments,
                                   const std::function<bool(const nlohmann::json&)>& done) {
  const auto deadline = std::chrono::steady_clock::now() + std::chrono::seconds{20};
  for (;;) {
    nlohmann::json said = json(arguments);
    if (done(said)) return said;
    if (std::chrono::steady_clock::now() > deadline)
      throw std::runtime_error("it never came: " + said.dump());
    std::this_thread::sleep_for(std::chrono::milliseconds{50});
  }
}

fs::path CliShop::write(const std::string& name, const std::string& text) const {
  const fs::path file = scratch_.path() / name;
  std::ofstream(file, std::ios::binary) << text;
  return file;
}

}  // namespace squeezeout::test
