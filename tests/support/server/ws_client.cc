#include "tests/support/server/ws_client.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <stdexcept>
#include <utility>

namespace squeezeout::test {
namespace {

[[noreturn]] void fail(const std::string& what) { throw std::runtime_error("WsClient: " + what); }

int connect_to(std::uint16_t port) {
  const int fd = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  if (fd < 0) fail(std::string{"socket: "} + std::strerror(errno));
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(port);
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  if (::connect(fd, reinterpret_cast<const sockaddr*>(&address), sizeof address) != 0) {
    const std::string why = std::strerror(errno);
    ::close(fd);
    fail("connect to port " + std::to_string(port) + ": " + why);
  }
  const int on = 1;
  ::setsockopt(fd, IPPROTO_TCP, TCP_NODELAY, &on, sizeof on);
  return fd;
}

void send_all(int fd, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t n = ::send(fd, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) fail(std::string{"send: "} + std::strerror(errno));
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
}

}  // namespace

WsClient::WsClient(std::uint16_t port, const std::string& path, const std::string& headers)
    : fd_(connect_to(port)) {
  try {
    send_bytes("GET " + path + " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port) +
               "\r\nUpgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Version: 13\r\n"
               "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n" +
               headers + "\r\n");
    const auto deadline = std::chrono::steady_clock::now() + kPatience;
    std::size_t end = std::string::npos;
    while ((end = in_.find("\r\n\r\n")) == std::string::npos) {
      if (!fill(deadline)) fail("no answer to the handshake: " + in_);
    }
    // The accept key of RFC 6455's own example.
    if (!in_.starts_with("HTTP/1.1 101") ||
        in_.find("s3pPLMBiTxaQ9kYGzzhZRbK+xOo=") == std::string::npos) {
      fail("refused: " + in_.substr(0, in_.find("\r\n")));
    }
    at_ = end + 4;
  } catch (...) {
    ::close(fd_);
    throw;
  }
}

WsClient::WsClient(WsClient&& other) noexcept
    : fd_(std::exchange(other.fd_, -1)),
      in_(std::move(other.in_)),
      at_(other.at_),
      close_code_(other.close_code_),
      closed_(other.closed_) {}

WsClient::~WsClient() {
  if (fd_ >= 0) ::close(fd_);
}

void WsClient::send_bytes(std::string_view bytes) { send_all(fd_, bytes); }

void WsClient::send_message(std::string_view payload, int opcode) {
  static constexpr char kMask[4] = {'\x11', '\x22', '\x33', '\x44'};
  std::string frame;
  frame += static_cast<char>(0x80 | opcode);
  const std::size_t size = payload.size();
  int length_bytes = 0;
  if (size <= 125) {
    frame += static_cast<char>(0x80 | size);
  } else if (size <= 0xffff) {
    frame += static_cast<char>(0x80 | 126);
    length_bytes = 2;
  } else {
    frame += static_cast<char>(0x80 | 127);
    length_bytes = 8;
  }
  for (int i = length_bytes - 1; i >= 0; --i) frame += static_cast<char>((size >> (8 * i)) & 0xff);
  frame.append(kMask, sizeof kMask);
  for (std::size_t i = 0; i < size; ++i) frame += static_cast<char>(payload[i] ^ kMask[i % 4]);
  send_bytes(frame);
}

bool WsClient::fill(std::chrono::steady_clock::time_point deadline) {
  const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(
      deadline - std::chrono::steady_clock::now());
  pollfd wait{fd_, POLLIN, 0};
  if (::poll(&wait, 1, static_cast<int>(std::max<std::int64_t>(left.count(), 0))) <= 0)
    return false;
  if (at_ > 0) {
    in_.erase(0, at_);
    at_ = 0;
  }
  char buffer[65'536];
  const ssize_t n = ::recv(fd_, buffer, sizeof buffer, 0);
  if (n <= 0) {
    closed_ = true;
    return false;
  }
  in_.append(buffer, static_cast<std::size_t>(n));
  return true;
}

std::optional<std::string_view> WsClient::peek_frame(int& opcode) {
  const std::string_view in = std::string_view{in_}.substr(at_);
  if (in.size() < 2) return std::nullopt;
  const auto byte = [&](std::size_t i) {
    return static_cast<std::uint64_t>(static_cast<unsigned char>(in[i]));
  };
  if ((byte(0) & 0x70) != 0 || (byte(1) & 0x80) != 0) fail("a frame with reserved bits or a mask");
  opcode = static_cast<int>(byte(0) & 0x0f);
  std::uint64_t size = byte(1);
  std::size_t head = 2;
  if (size >= 126) {
    const std::size_t length_bytes = size == 126 ? 2 : 8;
    if (in.size() < head + length_bytes) return std::nullopt;
    size = 0;
    for (std::size_t i = 0; i < length_bytes; ++i) size = size << 8 | byte(head + i);
    head += length_bytes;
  }
  if (in.size() < head + size) return std::nullopt;
  if ((byte(0) & 0x80) == 0) fail("a fragmented message; the server sends whole ones");
  at_ += head + size;
  return in.substr(head, size);
}

std::optional<std::string> WsClient::receive_message(std::chrono::milliseconds patience) {
  constexpr int kBinary = 2, kClose = 8, kPing = 9, kPong = 10;
  const auto deadline = std::chrono::steady_clock::now() + patience;
  for (;;) {
    int opcode = 0;
    const auto frame = peek_frame(opcode);
    if (!frame) {
      if (closed_ || !fill(deadline)) return std::nullopt;
      continue;
    }
    if (opcode == kBinary) return std::string{*frame};
    if (opcode == kPing) send_message(*frame, kPong);
    if (opcode == kClose) {
      if (frame->size() >= 2) {
        close_code_ =
            static_cast<unsigned char>((*frame)[0]) << 8 | static_cast<unsigned char>((*frame)[1]);
      }
      send_message(*frame, kClose);
      closed_ = true;
      return std::nullopt;
    }
  }
}

ServerFrame WsClient::receive(std::chrono::milliseconds patience) {
  const auto bytes = receive_message(patience);
  if (!bytes)
    fail(closed_ ? "the server closed, code " + std::to_string(close_code_)
                 : "nothing came in time");
  auto frame = decode_server_frame(*bytes);
  if (!frame) fail("the server sent what cannot be read: " + frame.error().what);
  return std::move(frame).value();
}

Welcome WsClient::hello(DeviceId device, std::optional<StoreName> store, std::uint64_t revision) {
  send(Hello{kProtocol, device, store, revision});
  return receive_until<Welcome>();
}

std::string http(std::uint16_t port, const std::string& request) {
  const int fd = connect_to(port);
  std::string response;
  try {
    send_all(fd, request);
  } catch (...) {
    ::close(fd);
    throw;
  }
  char buffer[4'096];
  for (ssize_t n = 0; (n = ::recv(fd, buffer, sizeof buffer, 0)) > 0;)
    response.append(buffer, static_cast<std::size_t>(n));
  ::close(fd);
  return response;
}

std::string http_get(std::uint16_t port, const std::string& target, const std::string& headers) {
  return http(port, "GET " + target + " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port) +
                        "\r\n" + headers + "\r\n");
}

CommandId command_id(std::uint64_t n, std::uint64_t salt) {
  CommandId id;
  std::memcpy(id.bytes.data(), &n, sizeof n);
  std::memcpy(id.bytes.data() + sizeof n, &salt, sizeof salt);
  id.bytes[15] = 0xC0;  // never all zero
  return id;
}

DeviceId test_device(std::uint64_t n) {
  DeviceId id;
  std::memcpy(id.bytes.data(), &n, sizeof n);
  id.bytes[15] = 0xDE;
  return id;
}

}  // namespace squeezeout::test
