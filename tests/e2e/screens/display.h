#pragma once
// A display of its own (Xvfb), a bench client in it, and the person before it (xdotool).
//   Shape   what stands on the screen is read from the client's own dump, which it rewrites at each change

#include <sys/types.h>

#include <chrono>
#include <filesystem>
#include <functional>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace squeezeout::test {

// A program that is ended with its owner.
class Program {
 public:
  // Output goes to `log`; `display` is set for it when not empty.
  Program(std::vector<std::string> arguments, const std::filesystem::path& log,
          const std::string& display = "");
  ~Program();
  Program(const Program&) = delete;
  Program& operator=(const Program&) = delete;
  pid_t pid() const { return pid_; }
  int wait();  // its exit code; -1 after a signal

 private:
  pid_t pid_ = -1;
};

// The exit code of a program that is run to its end.
int run(std::vector<std::string> arguments, const std::filesystem::path& log,
        const std::string& display = "");
std::string read_file(const std::filesystem::path& path);
std::string program_beside_this(const std::string& name);

class Display {
 public:
  Display(const std::filesystem::path& folder, int width, int height);
  const std::string& name() const { return name_; }  // ":7"

 private:
  std::unique_ptr<Program> server_;
  std::string name_;
};

class BenchScreen {
 public:
  struct Size {
    int width, height;
  };
  // `name` names its files in `folder`.
  BenchScreen(const std::filesystem::path& folder, std::string name, int port, Size size,
              const std::vector<std::string>& options);

  nlohmann::json dump() const;
  // Waits until the dump is as wanted; false after the time.
  bool wait_until(const std::function<bool(const nlohmann::json&)>& wanted,
                  std::chrono::milliseconds patience) const;
  bool wait_for_text(const std::string& part, std::chrono::milliseconds patience) const;
  bool wait_for_widget(const std::string& id_begin, std::chrono::milliseconds patience) const;

  void click(const std::string& id) const;      // presses the widget with the mouse
  void key(const std::string& xkey) const;      // "space", "Escape", "2"
  void type(const std::string& text) const;     // letters, as they stand
  void crash() const;                           // the client is killed
  std::vector<nlohmann::json> presses() const;  // as recorded by the client
  void picture(const std::filesystem::path& file) const;
  std::size_t resident_bytes() const;
  double cpu_seconds() const;

 private:
  std::filesystem::path folder_;
  std::string name_;
  Display display_;
  std::unique_ptr<Program> client_;
};

// Of a dump.
const nlohmann::json* widget(const nlohmann::json& dump, const std::string& id_begin);
const nlohmann::json* widget_with_label(const nlohmann::json& dump, const std::string& label);
bool says(const nlohmann::json& dump, const std::string& part);

}  // namespace squeezeout::test
