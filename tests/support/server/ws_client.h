#pragma once
// A small blocking WebSocket client over a plain socket, for tests and benchmarks: it can also send what no client should.
//   Failures  anything unexpected throws std::runtime_error: a test fails with its words

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "proto/codec.h"

namespace squeezeout::test {

class WsClient {
 public:
  static constexpr std::chrono::milliseconds kPatience{10'000};

  // Connects to 127.0.0.1 and upgrades `path`. `headers` go into the request as they are, each ending in CRLF.
  explicit WsClient(std::uint16_t port, const std::string& path = "/v1",
                    const std::string& headers = "");
  ~WsClient();
  WsClient(WsClient&& other) noexcept;
  WsClient(const WsClient&) = delete;
  WsClient& operator=(const WsClient&) = delete;

  void send_bytes(std::string_view bytes);                      // straight to the socket
  void send_message(std::string_view payload, int opcode = 2);  // one masked frame
  void send(const ClientFrame& frame) { send_message(encode(frame)); }

  // The next binary message; pings are answered on the way. nullopt: none within `patience`.
  std::optional<std::string> receive_message(std::chrono::milliseconds patience = kPatience);
  // The same, decoded; throws when none comes.
  ServerFrame receive(std::chrono::milliseconds patience = kPatience);
  // The next frame of this kind; others are passed over.
  template <class Frame>
  Frame receive_until(std::chrono::milliseconds patience = kPatience) {
    for (;;) {
      ServerFrame frame = receive(patience);
      if (auto* wanted = std::get_if<Frame>(&frame)) return std::move(*wanted);
    }
  }
  // Reads what is there by now, without waiting, and calls f(payload) for each whole binary message.
  template <class F>
  void each_waiting(F f) {
    fill(std::chrono::steady_clock::time_point{});
    int opcode = 0;
    while (const auto frame = peek_frame(opcode)) {
      if (opcode == 2) f(*frame);
      if (opcode == 9) send_message(*frame, 10);
    }
  }
  // Says hello and returns the welcome.
  Welcome hello(DeviceId device, std::optional<StoreName> store = {}, std::uint64_t revision = 0);

  // After the server closed: the code it gave; 0 when it gave none. Set once receive_message() returned nullopt or threw.
  int close_code() const { return close_code_; }
  bool closed() const { return closed_; }
  int fd() const { return fd_; }

 private:
  bool fill(std::chrono::steady_clock::time_point deadline);  // false: nothing came
  std::optional<std::string_view> peek_frame(
      int& opcode);  // steps over it; valid until the next fill()

  int fd_ = -1;
  std::string in_;
  std::size_t at_ = 0;  // how far in_ is read
  int close_code_ = 0;
  bool closed_ = false;
};

// One HTTP request on a connection of its own: the whole response.
[[nodiscard]] std::string http(std::uint16_t port, const std::string& request);
[[nodiscard]] std::string http_get(std::uint16_t port, const std::string& target,
                                   const std::string& headers = "");

// Ids that tell apart, the same in every run.
[[nodiscard]] CommandId command_id(std::uint64_t n, std::uint64_t salt = 0);
[[nodiscard]] DeviceId test_device(std::uint64_t n);

}  // namespace squeezeout::test
