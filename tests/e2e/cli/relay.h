#pragma once
// A relay between a client and the server that can be cut, or stopped so that nothing arrives and nobody is told.

#include <atomic>
#include <cstdint>
#include <mutex>
#include <thread>
#include <vector>

namespace squeezeout::test {

class Relay {
 public:
  explicit Relay(std::uint16_t to);
  ~Relay();
  Relay(const Relay&) = delete;
  Relay& operator=(const Relay&) = delete;

  std::uint16_t port() const { return port_; }
  void point_at(std::uint16_t to) { to_ = to; }
  void cut();                    // all links end, new ones are refused...
  void mend() { open_ = true; }  // ...until now
  void hold() { held_ = true; }  // bytes are no longer passed on
  void let_go() { held_ = false; }
  int links_made() const { return links_; }

 private:
  void accept_all();
  void pass_on(int client, int server);

  std::atomic<std::uint16_t> to_;
  std::uint16_t port_ = 0;
  int listener_ = -1;
  std::atomic<bool> open_{true}, held_{false}, over_{false};
  std::atomic<int> links_{0};
  std::mutex mutex_;
  std::vector<int> sockets_;          // of all links that are up
  std::vector<std::thread> threads_;  // one a link
  std::thread acceptor_;
};

}  // namespace squeezeout::test
