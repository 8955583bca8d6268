#pragma once
// The replica: this device's mirror of the floor. It changes only by what the server sends; screens
// and the command line read it.
//   Shape    feed it frames and the steady clock; it says what must be sent. It owns no socket and
//   no thread. Facts    (clamps on/off, scraped, late, spoiled, broken, climate) are stamped with
//   the shop's time at the press, queued, and
//            sent again with the same id until answered, over any number of reconnects. Pressed
//            before the first welcome, a fact is stamped when the shop's time becomes known, with
//            the time at the press all the same.
//   Requests (reserve, move, start, undo...) made while not live, or with no connection, are
//   answered `lost` at once: never
//            shown as granted. One that was handed on and not answered is sent again with its id:
//            it gets its first answer.
//   Replies  come out when the floor holds their effect: who reads "done" also reads the change in
//   floor() Store    another store than before (a restored backup, another shop): all that was not
//   answered is `lost`, for its
//            numbers name other things there
//   Clock    the shop's time is the server's, carried on by the steady clock between beats; a
//   bench's own clock is not asked

#include <chrono>
#include <cstdint>
#include <deque>
#include <optional>
#include <string>
#include <vector>

#include "proto/codec.h"

namespace squeezeout {

using Steady = std::chrono::steady_clock::time_point;

enum class Link {
  connecting,  // nothing from the server yet
  live,        // heard within 3 s
  late,        // 3 to 10 s ago
  not_live,    // longer, or the connection is gone for so long
};
inline constexpr Seconds kLate{3};
inline constexpr Seconds kNotLive{10};

struct Reply {  // the end of one command
  CommandId command;
  Body asked;
  enum class How { done, refused, lost, error } how = How::done;
  std::optional<Refusal> refusal;
  std::string error;  // text of an Error frame
  GlueUpId glue_up;
};

class Replica {
 public:
  explicit Replica(DeviceId device) : device_(device) {}

  // --- from the connection ---
  void connected(Steady now);
  void disconnected(Steady now);
  void received(const ServerFrame& frame, Steady now);
  // Frames to be sent, in order: the hello after a connect, then (once welcomed) commands.
  std::vector<ClientFrame> take_outgoing();
  // True while the mirror has missed a delta: the connection must be made anew, and then asks for a
  // snapshot.
  bool wants_reconnect() const { return connected_ && out_of_step_; }

  // --- from the screen ---
  // Random ids come from the caller (the Ids seam). Returns the id.
  CommandId ask(CommandId id, Body body, Steady now);
  std::vector<Reply> take_replies();

  // --- to read ---
  bool has_floor() const { return have_floor_; }
  // The floor as far as the welcome promised: false while a snapshot or deltas are still to come.
  bool caught_up() const {
    return welcomed_ && have_floor_ && !out_of_step_ && revision_ >= promised_;
  }
  const Floor& floor() const { return floor_; }
  std::uint64_t revision() const { return revision_; }
  // The floor holds nothing that ended earlier.
  Instant since() const { return since_; }
  Instant now(Steady now) const;  // the shop's time; meaningless before the first welcome
  std::int64_t now_ms(Steady now) const;
  Link link(Steady now) const;
  std::chrono::seconds silent_for(Steady now) const;
  std::size_t facts_waiting() const;
  std::size_t unanswered() const { return pending_.size(); }
  // The server's last word that names no command ("update this client", "going down"); gone at the
  // next welcome.
  const std::optional<Error>& complaint() const { return complaint_; }
  const std::string& server_version() const { return server_version_; }
  // Grows whenever something shown may have changed.
  std::uint64_t generation() const { return generation_; }

 private:
  struct Pending {
    CommandId id;
    Body body;
    Steady pressed;
    bool sent = false;
    bool put_off = false;  // the server was busy: again with its next beat
  };
  struct Answered {  // its effect is in a delta that has not come yet
    Reply reply;
    std::uint64_t revision = 0;
  };

  void welcome(const Welcome& frame, Steady now);
  void snapshot(const Snapshot& frame);
  void delta(const Delta& frame, Steady now);
  void answer(const Answer& frame);
  void beat(const Beat& frame, Steady now);
  void error(const Error& frame);
  void set_clock(std::int64_t server_ms, Steady now);
  void stamp(Pending& pending) const;
  void lose_pending();
  void release_answers();
  std::optional<Pending> take_pending(CommandId id);

  DeviceId device_;
  std::optional<StoreName> store_;
  std::string server_version_;
  Floor floor_;
  bool have_floor_ = false;
  std::uint64_t revision_ = 0;
  Instant since_ = Instant::min();
  std::uint64_t promised_ = 0;  // the welcome's revision
  bool out_of_step_ = false;    // the floor's revision is no base for the next delta
  bool connected_ = false;
  bool hello_due_ = false;
  bool welcomed_ = false;
  std::optional<Steady> heard_;
  std::int64_t server_ms_ = 0;
  std::optional<Steady> server_ms_at_;
  double clock_speed_ = 1;
  std::optional<Error> complaint_;
  std::deque<Pending> pending_;
  std::deque<Answered> answered_;
  std::vector<Reply> replies_;
  std::uint64_t generation_ = 0;
};

// Facts happened: they are kept and sent later. Everything else asks.
[[nodiscard]] bool is_fact(const Body& body);

}  // namespace squeezeout
