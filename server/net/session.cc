#include "server/net/session.h"

#include <array>
#include <boost/asio/as_tuple.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>
#include <boost/beast/websocket.hpp>
#include <memory>
#include <optional>
#include <utility>

#include "server/net/climate_post.h"
#include "server/net/origin.h"

namespace squeezeout {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;
namespace websocket = beast::websocket;
using Request = http::request<http::string_body>;

constexpr auto kAwait = asio::as_tuple(asio::use_awaitable);
constexpr std::chrono::seconds kHandshake{5}, kIdle{10}, kLastWords{1};
constexpr std::size_t kOneGo = 64 * 1024;
constexpr std::uint32_t kMaxHeader = 8 * 1024;
constexpr std::uint64_t kMaxBody = 4 * 1024;
// Whoever posts: sensors do not say who they are, and share one device's rate.
constexpr DeviceId kSensor{
    {'s', 'e', 'n', 's', 'o', 'r', ' ', 'o', 'v', 'e', 'r', ' ', 'H', 'T', 'T', 'P'}};

std::string_view text(beast::string_view s) { return {s.data(), s.size()}; }

using Response = http::response<http::string_body>;
Response respond(const Request& request, http::status status, std::string type, std::string body) {
  Response response{status, request.version()};
  if (status != http::status::no_content) response.set(http::field::content_type, type);
  response.set("X-Content-Type-Options", "nosniff");
  response.set("Content-Security-Policy", "default-src 'none'");
  response.set(http::field::cache_control, "no-store");
  response.keep_alive(false);
  const std::size_t size = body.size();
  if (request.method() != http::verb::head) response.body() = std::move(body);
  if (status != http::status::no_content) response.content_length(size);
  return response;
}

// What lies below Beast's WebSocket: reads come from the socket, writes go into the outbox.
class Line {
 public:
  using executor_type = beast::tcp_stream::executor_type;
  Line(beast::tcp_stream& socket, Peer& peer) : socket_(&socket), peer_(&peer) {}
  executor_type get_executor() { return socket_->get_executor(); }

  template <class Buffers, class Token>
  auto async_read_some(const Buffers& buffers, Token&& token) {
    return socket_->async_read_some(buffers, std::forward<Token>(token));
  }
  template <class Buffers, class Token>
  auto async_write_some(const Buffers& buffers, Token&& token) {
    const std::size_t size = accept(beast::buffers_to_string(buffers));
    return asio::async_initiate<Token, void(beast::error_code, std::size_t)>(
        [executor = get_executor(), size](auto handler) {
          asio::post(executor,
                     beast::bind_front_handler(std::move(handler), beast::error_code{}, size));
        },
        token);
  }

  // Beast asks for these by name: the session closes its socket when the outbox is empty; a timeout closes it at once.
  friend void beast_close_socket(Line& line) { line.socket_->close(); }
  friend void teardown(beast::role_type, Line&, beast::error_code& error) { error = {}; }
  template <class Handler>
  friend void async_teardown(beast::role_type, Line& line, Handler&& handler) {
    asio::post(line.get_executor(),
               beast::bind_front_handler(std::forward<Handler>(handler), beast::error_code{}));
  }

 private:
  std::size_t accept(std::string bytes);

  beast::tcp_stream* socket_;
  Peer* peer_;
};

class Session final : public Peer, public std::enable_shared_from_this<Session> {
 public:
  Session(asio::ip::tcp::socket socket, Hub& hub, const std::function<std::string()>& health_json);

  asio::awaitable<void> run();

  Outbox& outbox() override { return outbox_; }
  void wake() override;
  void hang_up(std::uint16_t code) override;

 private:
  asio::awaitable<std::optional<Request>> read_request();
  asio::awaitable<void> answer(Request request);
  asio::awaitable<Response> look(const Request& request);
  asio::awaitable<Response> post_climate(const Request& request);
  asio::awaitable<void> send_response(Response response);
  asio::awaitable<void> talk(Request request);
  asio::awaitable<void> read_frames(SessionId id);
  asio::awaitable<void> finish();
  void flush();
  void written(beast::error_code error);

  Hub& hub_;
  const std::function<std::string()>& health_json_;
  beast::tcp_stream socket_;
  beast::flat_buffer buffer_;
  Outbox outbox_;
  std::optional<beast::websocket::stream<Line>> websocket_;
  std::vector<Bytes> going_out_;
  std::string gathered_;  // small frames on their way, in one piece
  bool writing_ = false, scheduled_ = false, closing_ = false;
};

std::size_t Line::accept(std::string bytes) {
  constexpr char kCloseFrame = '\x88';
  const bool closes = !bytes.empty() && bytes.front() == kCloseFrame;
  const std::size_t size = bytes.size();
  peer_->outbox().push(Outbox::Kind::control,
                       std::make_shared<const std::string>(std::move(bytes)));
  if (closes) peer_->outbox().seal();
  peer_->wake();
  return size;
}

Session::Session(asio::ip::tcp::socket socket, Hub& hub,
                 const std::function<std::string()>& health_json)
    : hub_(hub), health_json_(health_json), socket_(std::move(socket)) {}

asio::awaitable<void> Session::run() {
  auto request = co_await read_request();
  if (!request) co_return;
  const bool wanted = websocket::is_upgrade(*request) && request->target() == "/v1";
  if (wanted &&
      may_connect(text((*request)[http::field::host]), text((*request)[http::field::origin]))) {
    co_await talk(std::move(*request));
  } else {
    co_await answer(std::move(*request));
  }
}

asio::awaitable<std::optional<Request>> Session::read_request() {
  http::request_parser<http::string_body> parser;
  parser.header_limit(kMaxHeader);
  parser.body_limit(kMaxBody);
  socket_.expires_after(kHandshake);
  const auto [error, size] = co_await http::async_read(socket_, buffer_, parser, kAwait);
  if (error == http::error::body_limit) {
    co_await send_response(respond(parser.get(), http::status::payload_too_large, "text/plain",
                                   "nothing was taken: the body is longer than " +
                                       std::to_string(kMaxBody) + " bytes; send less at once\n"));
    co_return std::nullopt;
  }
  // Frames that come before the handshake is answered break the protocol.
  if (error || buffer_.size() != 0) co_return std::nullopt;
  co_return parser.release();
}

asio::awaitable<void> Session::answer(Request request) {
  if (may_connect(text(request[http::field::host]), text(request[http::field::origin]))) {
    co_await send_response(co_await look(request));
  } else {
    co_await send_response(respond(request, http::status::forbidden, "text/plain",
                                   "only pages of this server may ask\n"));
  }
}

asio::awaitable<Response> Session::look(const Request& request) {
  const auto plain = [&](http::status status, std::string says) {
    return respond(request, status, "text/plain", std::move(says));
  };
  const auto only = [&](const char* methods) {
    Response response =
        plain(http::status::method_not_allowed, std::string(methods) + " only here\n");
    response.set(http::field::allow, methods);
    return response;
  };
  const bool reads = request.method() == http::verb::get || request.method() == http::verb::head;
  if (request.target() == "/climate") {
    if (request.method() != http::verb::post) co_return only("POST");
    co_return co_await post_climate(request);
  }
  if (!reads) co_return only("GET, HEAD");
  if (request.target() == "/healthz")
    co_return respond(request, http::status::ok, "application/json", health_json_() + "\n");
  co_return plain(http::status::not_found,
                  "there is /healthz, /climate for a sensor, and /v1 for a WebSocket\n");
}

// A reading goes the way of every command, and is answered when it is durable.
asio::awaitable<Response> Session::post_climate(const Request& request) {
  const auto respond_with = [&](const Said& said) {
    return respond(request, http::int_to_status(said.status), "text/plain", said.text);
  };
  const Instant now{std::chrono::floor<Seconds>(std::chrono::milliseconds{hub_.now_ms()})};
  const auto reading = climate_of(text(request[http::field::content_type]), request.body(), now);
  if (!reading) co_return respond_with(reading.error());
  std::optional<ServerFrame> answer;
  asio::steady_timer patience(socket_.get_executor(), kHandshake);
  const SessionId asked =
      hub_.ask(kSensor, *reading, std::chrono::steady_clock::now(), [&](const ServerFrame& frame) {
        answer = frame;
        patience.cancel();
      });
  if (!answer) co_await patience.async_wait(kAwait);
  hub_.forget(asked);
  co_return respond_with(climate_said(answer.value_or(
      Error{ErrorCode::busy, "the server did not decide in time; send it again later", {}})));
}

asio::awaitable<void> Session::send_response(Response response) {
  socket_.expires_after(kHandshake);
  co_await http::async_write(socket_, response, kAwait);
  beast::error_code ignored;
  socket_.socket().shutdown(asio::ip::tcp::socket::shutdown_send, ignored);
  // What still comes in is read for a while: closed at once, the client could lose the response.
  socket_.expires_after(kLastWords);
  std::array<char, 4'096> rest{};
  for (std::size_t size = 0; size < kOneGo;) {
    const auto [error, more] = co_await socket_.async_read_some(asio::buffer(rest), kAwait);
    if (error) break;
    size += more;
  }
}

asio::awaitable<void> Session::talk(Request request) {
  socket_.expires_never();  // the WebSocket has its own timeouts
  websocket_.emplace(socket_, static_cast<Peer&>(*this));
  websocket_->set_option(websocket::stream_base::timeout{kHandshake, kIdle, true});
  websocket_->read_message_max(0);  // read_frames() watches it, so that an error can be told first
  const auto [error] = co_await websocket_->async_accept(request, kAwait);
  if (!error) {
    const SessionId id = hub_.join(*this);
    co_await read_frames(id);
    hub_.leave(id);
  }
  co_await finish();
}

asio::awaitable<void> Session::read_frames(SessionId id) {
  buffer_.clear();
  for (;;) {
    const std::size_t room = kMaxClientFrame + 1 - buffer_.size();
    const auto [error, size] = co_await websocket_->async_read_some(buffer_, room, kAwait);
    if (error) co_return;
    if (buffer_.size() > kMaxClientFrame) {
      hub_.refuse(id, ErrorCode::too_large,
                  "the frame is longer than " + std::to_string(kMaxClientFrame) +
                      " bytes; send less at once");
      if (!std::exchange(closing_, true)) {
        buffer_.clear();
        co_await websocket_->async_close(
            websocket::close_reason{static_cast<websocket::close_code>(close_code::kTooLarge),
                                    "the frame is too long"},
            kAwait);
      }
      co_return;
    }
    if (!websocket_->is_message_done()) continue;
    if (websocket_->got_text()) {
      hub_.refuse(id, ErrorCode::malformed, "the message is text; send binary ones");
    } else {
      const auto bytes = buffer_.cdata();
      hub_.frame(id, {static_cast<const char*>(bytes.data()), bytes.size()},
                 std::chrono::steady_clock::now());
    }
    buffer_.clear();
  }
}

// Lets what is in the outbox go out, but not for long.
asio::awaitable<void> Session::finish() {
  outbox_.seal();
  asio::steady_timer timer(socket_.get_executor());
  const auto deadline = std::chrono::steady_clock::now() + kLastWords;
  while ((writing_ || scheduled_ || !outbox_.empty()) && socket_.socket().is_open() &&
         std::chrono::steady_clock::now() < deadline) {
    timer.expires_after(std::chrono::milliseconds{10});
    co_await timer.async_wait(kAwait);
  }
  beast::error_code ignored;
  socket_.socket().shutdown(asio::ip::tcp::socket::shutdown_both, ignored);
  socket_.close();
}

void Session::wake() {
  if (writing_ || scheduled_) return;
  scheduled_ = true;
  asio::post(socket_.get_executor(), [self = shared_from_this()] {
    self->scheduled_ = false;
    self->flush();
  });
}

void Session::flush() {
  if (writing_ || outbox_.empty() || !socket_.socket().is_open()) return;
  going_out_ = outbox_.take(kOneGo);
  asio::const_buffer buffer = asio::buffer(*going_out_.front());
  if (going_out_.size() > 1) {
    gathered_.clear();
    for (const Bytes& frame : going_out_) gathered_ += *frame;
    buffer = asio::buffer(gathered_);
  }
  writing_ = true;
  asio::async_write(
      socket_, buffer,
      [self = shared_from_this()](beast::error_code error, std::size_t) { self->written(error); });
}

void Session::written(beast::error_code error) {
  writing_ = false;
  going_out_.clear();
  if (error) {
    socket_.close();  // the reading side ends, too
  } else {
    flush();
  }
}

void Session::hang_up(std::uint16_t code) {
  if (!websocket_ || std::exchange(closing_, true)) return;
  websocket_->async_close(websocket::close_reason{static_cast<websocket::close_code>(code)},
                          [self = shared_from_this()](beast::error_code) {});
}

}  // namespace

asio::awaitable<void> serve_connection(asio::ip::tcp::socket socket, Hub& hub,
                                       const std::function<std::string()>& health_json) {
  const auto session = std::make_shared<Session>(std::move(socket), hub, health_json);
  co_await session->run();
}

}  // namespace squeezeout
