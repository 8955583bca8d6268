#include "tests/e2e/cli/relay.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <stdexcept>

namespace squeezeout::test {
namespace {

constexpr int kPollMs = 20;

sockaddr_in loopback(std::uint16_t port) {
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(port);
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  return address;
}

bool send_all(int to, const char* bytes, std::size_t size) {
  while (size > 0) {
    const ssize_t sent = ::send(to, bytes, size, MSG_NOSIGNAL);
    if (sent <= 0) return false;
    bytes += sent;
    size -= static_cast<std::size_t>(sent);
  }
  return true;
}

}  // namespace

Relay::Relay(std::uint16_t to) : to_(to) {
  listener_ = ::socket(AF_INET, SOCK_STREAM, 0);
  sockaddr_in address = loopback(0);
  socklen_t size = sizeof address;
  if (listener_ < 0 || ::bind(listener_, reinterpret_cast<sockaddr*>(&address), size) != 0 ||
      ::listen(listener_, 8) != 0 ||
      ::getsockname(listener_, reinterpret_cast<sockaddr*>(&address), &size) != 0)
    throw std::runtime_error("the relay cannot listen");
  port_ = ntohs(address.sin_port);
  acceptor_ = std::thread([this] { accept_all(); });
}

Relay::~Relay() {
  over_ = true;
  acceptor_.join();
  cut();
  for (std::thread& t : threads_) t.join();
  ::close(listener_);
}

void Relay::cut() {
  open_ = false;
  const std::lock_guard lock(mutex_);
  for (int s : sockets_) ::shutdown(s, SHUT_RDWR);
}

void Relay::accept_all() {
  while (!over_) {
    pollfd ready{listener_, POLLIN, 0};
    if (::poll(&ready, 1, kPollMs) != 1) continue;
    const int client = ::accept(listener_, nullptr, nullptr);
    if (client < 0) continue;
    const int server = ::socket(AF_INET, SOCK_STREAM, 0);
    const sockaddr_in address = loopback(to_);
    if (!open_ ||
        ::connect(server, reinterpret_cast<const sockaddr*>(&address), sizeof address) != 0) {
      ::close(client);
      ::close(server);
      continue;
    }
    ++links_;
    const std::lock_guard lock(mutex_);
    sockets_.insert(sockets_.end(), {client, server});
    threads_.emplace_back([this, client, server] { pass_on(client, server); });
  }
}

void Relay::pass_on(int client, int server) {
  std::array<char, 65536> bytes;
  for (bool up = true; up && !over_;) {
    std::array<pollfd, 2> ready{pollfd{client, POLLIN, 0}, pollfd{server, POLLIN, 0}};
    if (held_ || ::poll(ready.data(), ready.size(), kPollMs) <= 0) {
      if (held_) std::this_thread::sleep_for(std::chrono::milliseconds{kPollMs});
      continue;
    }
    for (const pollfd& from : ready) {
      if (from.revents == 0) continue;
      const ssize_t size = ::recv(from.fd, bytes.data(), bytes.size(), 0);
      up = up && size > 0 &&
           send_all(from.fd == client ? server : client, bytes.data(),
                    static_cast<std::size_t>(size));
    }
  }
  const std::lock_guard lock(mutex_);
  std::erase_if(sockets_, [&](int s) { return s == client || s == server; });
  ::close(client);
  ::close(server);
}

}  // namespace squeezeout::test
