#include "tests/e2e/screens/display.h"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <thread>

namespace squeezeout::test {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

std::string number(double value) { return std::to_string(static_cast<int>(value + 0.5)); }

}  // namespace

Program::Program(std::vector<std::string> arguments, const fs::path& log,
                 const std::string& display) {
  std::vector<char*> argv;
  for (std::string& a : arguments) argv.push_back(a.data());
  argv.push_back(nullptr);
  pid_ = ::fork();
  if (pid_ < 0) throw std::runtime_error("cannot fork");
  if (pid_ > 0) return;
  const int fd = ::open(log.c_str(), O_WRONLY | O_CREAT | O_APPEND, 0600);
  ::dup2(fd, STDOUT_FILENO);
  ::dup2(fd, STDERR_FILENO);
  if (display.empty())
    ::unsetenv("DISPLAY");
  else
    ::setenv("DISPLAY", display.c_str(), 1);
  ::execvp(argv[0], argv.data());
  ::_exit(127);
}

Program::~Program() {
  if (pid_ <= 0) return;
  ::kill(pid_, SIGTERM);
  ::waitpid(pid_, nullptr, 0);
}

int Program::wait() {
  int status = 0;
  ::waitpid(pid_, &status, 0);
  pid_ = -1;
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

int run(std::vector<std::string> arguments, const fs::path& log, const std::string& display) {
  return Program(std::move(arguments), log, display).wait();
}

std::string read_file(const fs::path& path) {
  std::ostringstream text;
  text << std::ifstream(path).rdbuf();
  return text.str();
}

std::string program_beside_this(const std::string& name) {
  return (fs::read_symlink("/proc/self/exe").parent_path() / name).string();
}

Display::Display(const fs::path& folder, int width, int height) {
  const fs::path says = folder / ("xvfb-" + std::to_string(::getpid()) + "-" +
                                  std::to_string(reinterpret_cast<std::uintptr_t>(this)));
  const std::string screen = std::to_string(width) + "x" + std::to_string(height) + "x24";
  server_ = std::make_unique<Program>(std::vector<std::string>{"Xvfb", "-displayfd", "1", "-screen",
                                                               "0", screen, "-nolisten", "tcp"},
                                      says);
  for (int tries = 0; tries < 200; ++tries) {  // it says its number once it listens
    std::istringstream text(read_file(says));
    for (std::string line; std::getline(text, line);)
      if (!line.empty() && line.find_first_not_of("0123456789") == std::string::npos) {
        name_ = ":" + line;
        return;
      }
    std::this_thread::sleep_for(std::chrono::milliseconds{50});
  }
  throw std::runtime_error("Xvfb does not start: " + read_file(says));
}

BenchScreen::BenchScreen(const fs::path& folder, std::string name, int port, Size size,
                         const std::vector<std::string>& options)
    : folder_(folder), name_(std::move(name)), display_(folder, size.width, size.height) {
  // A device of its own: its settings and its number are in this test's folder.
  const std::string home = (folder / (name_ + "-home")).string();
  std::vector<std::string> all{"env",
                               "XDG_CONFIG_HOME=" + home,
                               "XDG_STATE_HOME=" + home,
                               program_beside_this("squeezeout-bench"),
                               "--server",
                               "127.0.0.1:" + std::to_string(port),
                               "--size",
                               std::to_string(size.width) + "x" + std::to_string(size.height),
                               "--dump-every-change",
                               (folder / (name_ + ".json")).string(),
                               "--record",
                               (folder / (name_ + ".record")).string(),
                               "--settings",  // not those of the person who runs the tests
                               (folder / (name_ + ".conf")).string()};
  // A wall of these few pixels stands for one of full size.
  if (std::find(options.begin(), options.end(), "--wall") == options.end())
    all.insert(all.end(), {"--mm-per-px", "0.27"});
  all.insert(all.end(), options.begin(), options.end());
  client_ = std::make_unique<Program>(std::move(all), folder / (name_ + ".log"), display_.name());
}

json BenchScreen::dump() const {
  const std::string text = read_file(folder_ / (name_ + ".json"));
  return text.empty() ? json::object() : json::parse(text);
}

bool BenchScreen::wait_until(const std::function<bool(const json&)>& wanted,
                             std::chrono::milliseconds patience) const {
  const auto until = std::chrono::steady_clock::now() + patience;
  while (true) {
    if (wanted(dump())) return true;
    if (std::chrono::steady_clock::now() > until) return false;
    std::this_thread::sleep_for(std::chrono::milliseconds{20});
  }
}

bool BenchScreen::wait_for_text(const std::string& part, std::chrono::milliseconds patience) const {
  return wait_until([&](const json& d) { return says(d, part); }, patience);
}

bool BenchScreen::wait_for_widget(const std::string& id_begin,
                                  std::chrono::milliseconds patience) const {
  return wait_until([&](const json& d) { return widget(d, id_begin) != nullptr; }, patience);
}

void BenchScreen::click(const std::string& id) const {
  const json d = dump();
  const json* w = widget(d, id);
  if (w == nullptr) throw std::runtime_error(name_ + " shows no " + id);
  const auto& r = (*w)["rect"];
  const double x = r[0].get<double>() + r[2].get<double>() / 2;
  const double y = r[1].get<double>() + r[3].get<double>() / 2;
  run({"xdotool", "mousemove", number(x), number(y), "sleep", "0.1", "click", "1"},
      folder_ / "xdotool.log", display_.name());
}

void BenchScreen::key(const std::string& xkey) const {
  run({"xdotool", "key", xkey}, folder_ / "xdotool.log", display_.name());
}

void BenchScreen::type(const std::string& text) const {
  run({"xdotool", "type", "--delay", "30", text}, folder_ / "xdotool.log", display_.name());
}

void BenchScreen::crash() const { ::kill(client_->pid(), SIGKILL); }

std::vector<json> BenchScreen::presses() const {
  std::vector<json> out;
  std::istringstream text(read_file(folder_ / (name_ + ".record")));
  for (std::string line; std::getline(text, line);) out.push_back(json::parse(line));
  return out;
}

void BenchScreen::picture(const fs::path& file) const {
  run({"import", "-window", "root", file.string()}, folder_ / "import.log", display_.name());
}

std::size_t BenchScreen::resident_bytes() const {
  std::istringstream text(read_file("/proc/" + std::to_string(client_->pid()) + "/statm"));
  std::size_t all = 0, resident = 0;
  text >> all >> resident;
  return resident * static_cast<std::size_t>(::sysconf(_SC_PAGESIZE));
}

double BenchScreen::cpu_seconds() const {
  std::string text = read_file("/proc/" + std::to_string(client_->pid()) + "/stat");
  text.erase(0, text.rfind(')') + 2);  // the name may hold anything
  std::istringstream fields(text);
  std::string skip;
  for (int i = 0; i < 11; ++i) fields >> skip;
  double user = 0, system = 0;
  fields >> user >> system;
  return (user + system) / static_cast<double>(::sysconf(_SC_CLK_TCK));
}

const json* widget(const json& dump, const std::string& id_begin) {
  if (!dump.contains("widgets")) return nullptr;
  for (const json& w : dump["widgets"])
    if (w["id"].get_ref<const std::string&>().rfind(id_begin, 0) == 0) return &w;
  return nullptr;
}

const json* widget_with_label(const json& dump, const std::string& label) {
  if (!dump.contains("widgets")) return nullptr;
  for (const json& w : dump["widgets"])
    if (w["label"] == label) return &w;
  return nullptr;
}

bool says(const json& dump, const std::string& part) {
  if (!dump.contains("texts")) return false;
  for (const json& t : dump["texts"])
    if (t["text"].get_ref<const std::string&>().find(part) != std::string::npos) return true;
  return false;
}

}  // namespace squeezeout::test
