#pragma once
// The real server binary in a folder of its own: starts it, waits until it listens, stops or kills it.

#include <sys/types.h>

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace squeezeout::test {

// A fresh folder that goes when the object does.
class ScratchFolder {
 public:
  ScratchFolder();
  ~ScratchFolder();
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

struct Ended {
  int exit_code = -1;  // -1: ended by a signal
  int signal = 0;
  std::string output;  // what it said, both streams
};

// squeezeout-server beside this test program.
[[nodiscard]] std::string server_binary();
// Runs it to its end.
[[nodiscard]] Ended run_server(const std::vector<std::string>& arguments);

class ServerProcess {
 public:
  // --data, --port and --port-file are given by this; the folder must outlive it. Throws when it does not listen in 20 s.
  ServerProcess(std::filesystem::path data, std::vector<std::string> arguments);
  ~ServerProcess();
  ServerProcess(const ServerProcess&) = delete;
  ServerProcess& operator=(const ServerProcess&) = delete;

  std::uint16_t port() const { return port_; }
  pid_t pid() const { return pid_; }
  Ended stop();  // SIGTERM
  Ended kill();  // SIGKILL
  std::string said() const;
  std::size_t resident_bytes() const;

 private:
  Ended end(int signal);
  std::filesystem::path data_;
  pid_t pid_ = -1;
  std::uint16_t port_ = 0;
};

// A shop file on disk that tests share: 2 benches, 8 deep clamps, 4 bar clamps; see small_shop.textproto.
[[nodiscard]] std::string small_shop_file();

}  // namespace squeezeout::test
