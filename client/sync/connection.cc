#include "client/sync/connection.h"

#include <algorithm>
#include <boost/asio.hpp>
#include <boost/asio/experimental/awaitable_operators.hpp>
#include <boost/beast.hpp>
#include <deque>
#include <mutex>
#include <random>
#include <thread>
#include <utility>
#include <variant>

namespace squeezeout {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace websocket = beast::websocket;
using namespace asio::experimental::awaitable_operators;
using Stream = websocket::stream<beast::tcp_stream>;
using boost::system::error_code;

constexpr auto quietly = asio::as_tuple(asio::use_awaitable);
constexpr std::chrono::milliseconds kFirstDelay{250};
constexpr std::chrono::milliseconds kLastDelay{5000};
constexpr std::chrono::seconds kConnectTimeout{5};
constexpr std::size_t kMaxServerFrame = 256 * 1024 * 1024;  // a snapshot of a large shop

// What the network thread tells. Each link has a number, so that nothing meant for one goes out on
// the next.
struct Up {
  std::uint64_t link = 0;
};
struct Down {};
struct Incoming {
  Steady at;
  std::variant<Up, Down, ServerFrame> what;
};

}  // namespace

struct Connection::Impl {
  Impl(Address to, std::function<void()> wake_up)
      : address(std::move(to)), wake(std::move(wake_up)) {}

  // ---- network thread only ----
  asio::io_context io{1};
  Address address;
  std::function<void()> wake;
  std::uint64_t link = 0;
  bool heard = false;        // the server spoke on this link
  Stream* stream = nullptr;  // while a link is up
  std::deque<std::string> outgoing;
  asio::steady_timer something_to_send{io};
  std::minstd_rand jitter{std::random_device{}()};

  // ---- shared ----
  std::mutex mutex;
  std::deque<Incoming> incoming;
  std::string trouble;

  // ---- caller's thread only ----
  std::uint64_t drained_link = 0;  // the link that the replica knows of
  std::thread thread;

  void tell(std::variant<Up, Down, ServerFrame> what) {
    {
      const std::lock_guard lock(mutex);
      if (std::holds_alternative<Up>(what)) trouble.clear();
      incoming.push_back({std::chrono::steady_clock::now(), std::move(what)});
    }
    wake();
  }

  void complain(std::string words) {
    {
      const std::lock_guard lock(mutex);
      trouble = std::move(words);
    }
    wake();
  }

  std::string place() const { return address.host + ":" + address.port; }

  asio::awaitable<void> stay_connected() {
    auto delay = kFirstDelay;
    for (;;) {
      heard = false;
      co_await one_link();
      if (heard) delay = kFirstDelay;
      asio::steady_timer pause(io);
      pause.expires_after(delay * std::uniform_int_distribution<int>(75, 125)(jitter) / 100);
      co_await pause.async_wait(quietly);
      delay = std::min(delay * 2, kLastDelay);
    }
  }

  // One link from its making to its end.
  asio::awaitable<void> one_link() {
    Stream ws(io);
    if (const std::string why = co_await open(ws); !why.empty()) {
      complain("No connection to " + place() + ": " + why + ".");
      co_return;
    }
    ++link;
    stream = &ws;
    outgoing.clear();
    tell(Up{link});
    const auto ended = co_await (receive(ws) || send(ws));
    stream = nullptr;
    const std::string why = ended.index() == 0 ? std::get<0>(ended) : std::get<1>(ended);
    tell(Down{});
    complain("Connection to " + place() + " lost: " + why + ".");
  }

  // Empty when the link is up, else why not.
  asio::awaitable<std::string> open(Stream& ws) {
    asio::ip::tcp::resolver resolver(io);
    auto [no_name, hosts] = co_await resolver.async_resolve(address.host, address.port, quietly);
    if (no_name) co_return no_name.message();
    auto& tcp = beast::get_lowest_layer(ws);
    tcp.expires_after(kConnectTimeout);
    auto [no_link, end] = co_await tcp.async_connect(hosts, quietly);
    if (no_link) co_return no_link.message();
    tcp.expires_never();
    error_code ignored;
    tcp.socket().set_option(asio::ip::tcp::no_delay(true), ignored);

    ws.set_option(websocket::stream_base::timeout{kConnectTimeout, kNotLive, false});
    ws.read_message_max(kMaxServerFrame);
    ws.binary(true);
    auto [no_shake] = co_await ws.async_handshake(place(), "/v1", quietly);
    co_return no_shake ? "it does not answer as a squeezeout server (" + no_shake.message() + ")"
                       : "";
  }

  // Both return why they ended. The socket is closed then, so that the other one ends too.
  asio::awaitable<std::string> receive(Stream& ws) {
    const std::string why = co_await read_all(ws);
    beast::get_lowest_layer(ws).close();
    co_return why;
  }

  asio::awaitable<std::string> read_all(Stream& ws) {
    beast::flat_buffer buffer;
    for (;;) {
      auto [failed, size] = co_await ws.async_read(buffer, quietly);
      if (failed == websocket::error::closed) {
        const auto& said = ws.reason().reason;
        co_return said.empty() ? "the server closed it" : std::string(said.data(), said.size());
      }
      if (failed == beast::error::timeout) co_return "nothing heard for 10 s";
      if (failed) co_return failed.message();
      const auto bytes = buffer.cdata();
      auto frame = decode_server_frame({static_cast<const char*>(bytes.data()), bytes.size()});
      if (!frame)
        co_return "the server sent what this client cannot read (" + frame.error().what + ")";
      buffer.consume(size);
      heard = true;
      tell(std::move(*frame));
    }
  }

  asio::awaitable<std::string> send(Stream& ws) {
    for (;;) {
      while (outgoing.empty()) {
        something_to_send.expires_at(Steady::max());
        co_await something_to_send.async_wait(quietly);
        if ((co_await asio::this_coro::cancellation_state).cancelled() !=
            asio::cancellation_type::none)
          co_return "";
      }
      const std::string bytes = std::move(outgoing.front());
      outgoing.pop_front();
      auto [failed, size] = co_await ws.async_write(asio::buffer(bytes), quietly);
      if (failed) {
        beast::get_lowest_layer(ws).close();
        co_return failed.message();
      }
    }
  }
};

Connection::Connection(Address server, std::function<void()> wake)
    : impl_(std::make_unique<Impl>(std::move(server), std::move(wake))) {
  asio::co_spawn(impl_->io, impl_->stay_connected(), asio::detached);
  impl_->thread = std::thread([impl = impl_.get()] { impl->io.run(); });
}

Connection::~Connection() {
  impl_->io.stop();
  impl_->thread.join();
}

void Connection::exchange(Replica& replica) {
  std::deque<Incoming> incoming;
  {
    const std::lock_guard lock(impl_->mutex);
    incoming.swap(impl_->incoming);
  }
  for (const Incoming& in : incoming) {
    if (const auto* up = std::get_if<Up>(&in.what)) {
      impl_->drained_link = up->link;
      replica.connected(in.at);
    } else if (std::holds_alternative<Down>(in.what)) {
      replica.disconnected(in.at);
    } else {
      replica.received(std::get<ServerFrame>(in.what), in.at);
    }
  }
  std::vector<std::string> frames;
  for (const ClientFrame& frame : replica.take_outgoing()) frames.push_back(encode(frame));
  const bool anew = replica.wants_reconnect();
  if (frames.empty() && !anew) return;
  asio::post(impl_->io, [impl = impl_.get(), link = impl_->drained_link, anew,
                         frames = std::move(frames)]() mutable {
    if (link != impl->link || !impl->stream) return;
    for (std::string& frame : frames) impl->outgoing.push_back(std::move(frame));
    impl->something_to_send.cancel();
    if (anew) beast::get_lowest_layer(*impl->stream).close();
  });
}

std::string Connection::trouble() const {
  const std::lock_guard lock(impl_->mutex);
  return impl_->trouble;
}

std::optional<Address> parse_address(std::string_view text) {
  Address address;
  std::string_view host = text;
  std::string_view port;
  if (const auto bracket = text.find(']'); !text.empty() && text.front() == '[') {
    if (bracket == std::string_view::npos) return std::nullopt;
    host = text.substr(1, bracket - 1);
    text.remove_prefix(bracket + 1);
    if (!text.empty() && text.front() != ':') return std::nullopt;
    port = text.empty() ? text : text.substr(1);
  } else if (const auto colon = text.find(':'); colon != std::string_view::npos) {
    host = text.substr(0, colon);
    port = text.substr(colon + 1);
    if (port.empty()) return std::nullopt;
  }
  const bool digits =
      std::all_of(port.begin(), port.end(), [](char c) { return c >= '0' && c <= '9'; });
  if (!digits || port.size() > 5 || (!port.empty() && std::stoi(std::string(port)) > 65535))
    return std::nullopt;
  if (!host.empty()) address.host = host;
  if (!port.empty()) address.port = port;
  return address;
}

}  // namespace squeezeout
