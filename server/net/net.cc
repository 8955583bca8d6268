#include "server/net/net.h"

#include <boost/asio/as_tuple.hpp>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <csignal>

#include "server/net/session.h"

namespace squeezeout {
namespace {

namespace asio = boost::asio;
using asio::ip::tcp;
constexpr auto kAwait = asio::as_tuple(asio::use_awaitable);
constexpr std::chrono::seconds kBeat{1};
constexpr std::chrono::milliseconds kLookAgain{20};
constexpr int kLastLooks = 50;
constexpr std::size_t kMaxSessions = 1'000;
constexpr int kSendBuffer = 64 * 1024;

class BeastNet final : public Net {
 public:
  BeastNet(Hub& hub, std::function<std::string()> health_json)
      : hub_(hub), health_json_(std::move(health_json)) {}

  void open(std::uint16_t port) {  // throws boost::system::system_error
    const tcp::endpoint here(asio::ip::address_v4::loopback(), port);
    acceptor_.open(here.protocol());
    acceptor_.set_option(asio::socket_base::reuse_address(true));
    acceptor_.bind(here);
    acceptor_.listen();
  }

  std::uint16_t port() const override { return acceptor_.local_endpoint().port(); }
  void post(std::function<void()> task) override { asio::post(io_, std::move(task)); }

  void run(std::function<void()> stopping) override {
    asio::co_spawn(io_, accept(), asio::detached);
    asio::co_spawn(io_, beat(), asio::detached);
    asio::co_spawn(io_, wait_for_the_end(std::move(stopping)), asio::detached);
    io_.run();
  }

 private:
  asio::awaitable<void> accept() {
    while (acceptor_.is_open()) {
      auto [error, socket] = co_await acceptor_.async_accept(kAwait);
      if (error == asio::error::operation_aborted) co_return;
      if (error) {  // out of file descriptors, or the client is gone already
        asio::steady_timer pause(io_, kLookAgain);
        co_await pause.async_wait(kAwait);
        continue;
      }
      if (hub_.sessions() >= kMaxSessions) continue;
      boost::system::error_code ignored;
      socket.set_option(tcp::no_delay(true), ignored);
      socket.set_option(asio::socket_base::send_buffer_size(kSendBuffer), ignored);
      asio::co_spawn(io_, serve_connection(std::move(socket), hub_, health_json_), asio::detached);
    }
  }

  asio::awaitable<void> beat() {
    asio::steady_timer timer(io_);
    for (;;) {
      timer.expires_after(kBeat);
      co_await timer.async_wait(kAwait);
      hub_.beat(std::chrono::steady_clock::now());
    }
  }

  asio::awaitable<void> wait_for_the_end(std::function<void()> stopping) {
    co_await signals_.async_wait(kAwait);
    acceptor_.close();
    stopping();
    // The last answers were posted before this, and go out before the goodbye.
    asio::post(io_, [this] { hub_.going_down(); });
    asio::steady_timer timer(io_);
    for (int look = 0; look < kLastLooks; ++look) {
      timer.expires_after(kLookAgain);
      co_await timer.async_wait(kAwait);
      if (hub_.sessions() == 0) break;
    }
    io_.stop();
  }

  Hub& hub_;
  std::function<std::string()> health_json_;
  asio::io_context io_{1};
  asio::signal_set signals_{io_, SIGINT, SIGTERM};
  tcp::acceptor acceptor_{io_};
};

}  // namespace

Result<std::unique_ptr<Net>, Trouble> Net::listen(std::uint16_t port, Hub& hub,
                                                  std::function<std::string()> health_json) {
  auto net = std::make_unique<BeastNet>(hub, std::move(health_json));
  try {
    net->open(port);
  } catch (const boost::system::system_error& error) {
    const std::string here = "127.0.0.1:" + std::to_string(port);
    if (error.code() == asio::error::address_in_use) {
      return Unexpected(Trouble{Trouble::Code::port_in_use,
                                "port " + std::to_string(port) + " is in use",
                                "another program listens on " + here,
                                "stop it, or choose another port with --port (0: any free one)"});
    }
    return Unexpected(Trouble{Trouble::Code::network, "cannot listen on " + here,
                              error.code().message(), "choose another port with --port"});
  }
  return std::unique_ptr<Net>(std::move(net));
}

}  // namespace squeezeout
