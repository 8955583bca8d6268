#include "tools/cli/session.h"

#include "tools/cli/stop.h"

namespace squeezeout::cli {

Session::Session(const Address& server, std::chrono::milliseconds wait)
    : wait_(wait), replica_(device_id(device_file("command-line"))), connection_(server, [this] {
        const std::lock_guard lock(mutex_);
        awake_ = true;
        woken_.notify_one();
      }) {
  const auto other_protocol = [this] {
    const auto& no = replica_.complaint();
    return no && (no->code == ErrorCode::too_new || no->code == ErrorCode::too_old);
  };
  if (!run_until([&] { return replica_.caught_up() || other_protocol(); }) || other_protocol())
    stop("No floor to look at.");
}

const Shop& Session::shop() const {
  if (!floor().shop)
    throw Stop{Exit::refused,
               {"No shop yet.", "The server holds no shop.", "squeezeout load SHOPFILE"},
               {}};
  return *floor().shop;
}

Reply Session::ask(Body body) {
  // What was worked out before may have taken longer than a silence: the server is heard first.
  connection_.exchange(replica_);
  const CommandId id =
      replica_.ask(new_command_id(), std::move(body), std::chrono::steady_clock::now());
  std::vector<Reply> replies;
  const bool answered = run_until([&] {
    replies = replica_.take_replies();
    return !replies.empty();
  });
  if (!answered) stop("Not answered: it may have been done or not. Look with squeezeout list.");
  CHECK(replies.size() == 1 && replies[0].command == id);
  Reply reply = std::move(replies[0]);
  if (reply.how == Reply::How::lost) stop("Not sent.");
  if (reply.how == Reply::How::error)
    throw Stop{Exit::lost, {"Not done.", reply.error, "Try again."}, {}};
  return reply;
}

bool Session::run_until(const std::function<bool()>& done) {
  const auto deadline = std::chrono::steady_clock::now() + wait_;
  for (;;) {
    connection_.exchange(replica_);
    if (done()) {
      connection_.exchange(replica_);
      return true;
    }
    std::unique_lock lock(mutex_);
    if (!woken_.wait_until(lock, deadline, [this] { return awake_; })) return false;
    awake_ = false;
  }
}

void Session::stop(const std::string& what) const {
  const auto& complaint = replica_.complaint();
  const std::string trouble = connection_.trouble();
  const std::string why = complaint          ? complaint->text
                          : !trouble.empty() ? trouble
                                             : "The server did not speak in time.";
  throw Stop{Exit::lost,
             {what, why, "Is squeezeout-server running there? Say where with --server HOST:PORT."},
             {}};
}

}  // namespace squeezeout::cli
