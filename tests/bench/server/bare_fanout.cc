#include "tests/bench/server/bare_fanout.h"

#include <atomic>
#include <boost/asio/as_tuple.hpp>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/websocket.hpp>
#include <deque>
#include <thread>
#include <vector>

namespace squeezeout::bench {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
using asio::ip::tcp;
constexpr auto kAwait = asio::as_tuple(asio::use_awaitable);

struct Client : std::enable_shared_from_this<Client> {
  explicit Client(tcp::socket socket) : websocket(std::move(socket)) { websocket.binary(true); }

  void send(const std::shared_ptr<const std::string>& message) {
    waiting.push_back(message);
    if (waiting.size() == 1) write();
  }
  void write() {
    websocket.async_write(asio::buffer(*waiting.front()),
                          [self = shared_from_this()](beast::error_code error, std::size_t) {
                            if (error) return;
                            self->waiting.pop_front();
                            if (!self->waiting.empty()) self->write();
                          });
  }
  asio::awaitable<void> read() {
    const auto self = shared_from_this();
    beast::flat_buffer buffer;
    for (;;) {
      const auto [error, size] = co_await websocket.async_read(buffer, kAwait);
      if (error) co_return;
      buffer.clear();
    }
  }

  beast::websocket::stream<beast::tcp_stream> websocket;
  std::deque<std::shared_ptr<const std::string>> waiting;
};

}  // namespace

struct BareFanout::Impl {
  Impl() {
    asio::co_spawn(io, accept(), asio::detached);
    thread = std::thread([this] { io.run(); });
  }
  ~Impl() {
    io.stop();
    thread.join();
  }
  asio::awaitable<void> accept() {
    for (;;) {
      auto [error, socket] = co_await acceptor.async_accept(kAwait);
      if (error) co_return;
      socket.set_option(tcp::no_delay(true));
      socket.set_option(asio::socket_base::send_buffer_size(64 * 1024));
      const auto client = std::make_shared<Client>(std::move(socket));
      const auto [refused] = co_await client->websocket.async_accept(kAwait);
      if (refused) continue;
      clients.push_back(client);
      ++connected;
      asio::co_spawn(io, client->read(), asio::detached);
    }
  }

  asio::io_context io{1};
  tcp::acceptor acceptor{io, {asio::ip::address_v4::loopback(), 0}};
  std::vector<std::shared_ptr<Client>> clients;
  std::atomic<std::size_t> connected = 0;
  std::thread thread;
};

BareFanout::BareFanout() : impl_(std::make_unique<Impl>()) {}
BareFanout::~BareFanout() = default;
std::uint16_t BareFanout::port() const { return impl_->acceptor.local_endpoint().port(); }
std::size_t BareFanout::clients() const { return impl_->connected; }

void BareFanout::publish(std::string message) {
  asio::post(impl_->io, [this, shared = std::make_shared<const std::string>(std::move(message))] {
    for (const auto& client : impl_->clients) client->send(shared);
  });
}

}  // namespace squeezeout::bench
