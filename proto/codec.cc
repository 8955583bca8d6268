#include "proto/codec.h"

#include <google/protobuf/io/coded_stream.h>
#include <google/protobuf/io/zero_copy_stream_impl_lite.h>
#include <google/protobuf/stubs/logging.h>

#include <cmath>

#include "proto/codec_parts.h"
#include "wire.pb.h"

namespace squeezeout {
namespace {

namespace pb = google::protobuf;

constexpr int kMaxDepth = 16;

// The same message has the same bytes: fields by number, and no maps.
std::string to_bytes(const pb::MessageLite& m) {
  std::string bytes;
  {
    pb::io::StringOutputStream out(&bytes);
    pb::io::CodedOutputStream coded(&out);
    coded.SetSerializationDeterministic(true);
    CHECK(m.SerializeToCodedStream(&coded));
  }
  return bytes;
}

template <class M>
bool parse(std::string_view bytes, M& m) {
  // A parse error is an answer to the sender, not a line in the log.
  [[maybe_unused]] static const bool kQuiet = (pb::SetLogHandler(nullptr), true);
  if (bytes.size() > static_cast<std::size_t>(std::numeric_limits<int>::max())) return false;
  pb::io::CodedInputStream in(reinterpret_cast<const std::uint8_t*>(bytes.data()),
                              static_cast<int>(bytes.size()));
  in.SetRecursionLimit(kMaxDepth);
  return m.ParseFromCodedStream(&in) && in.ConsumedEntireMessage();
}

// Parses bytes as an M and reads it with `read(At, M)`; the first mistake becomes the answer.
template <class M, class Read>
auto decode(std::string_view bytes, std::string_view root, Read read)
    -> Result<std::invoke_result_t<Read, const At&, const M&>, Malformed> {
  M m;
  if (!parse(bytes, m))
    return Unexpected(
        Malformed{ErrorCode::malformed, "the bytes are no message " + M::descriptor()->name(), {}});
  std::vector<FieldMistake> mistakes;
  auto value = read(At(mistakes, root), m);
  if (mistakes.empty()) return value;
  const FieldMistake& first = mistakes.front();
  return Unexpected(Malformed{first.code, first.field + ": " + first.what + "; " + first.mend, {}});
}

template <class Tag>
std::string bytes_of(const Id128<Tag>& id) {
  return {id.bytes.begin(), id.bytes.end()};
}

std::string bytes_of(const std::optional<CommandId>& id) {
  return id ? bytes_of(*id) : std::string();
}

template <class Tag>
std::optional<Id128<Tag>> optional_id128(const At& at, const std::string& v) {
  if (v.empty()) return std::nullopt;
  return id128<Tag>(at, v);
}

ClientFrame read_client_frame(const At& at, const v1::ClientFrame& m) {
  switch (m.what_case()) {
    case v1::ClientFrame::kHello: {
      const At here = at("hello");
      return Hello{m.hello().protocol(), id128<DeviceTag>(here("device"), m.hello().device()),
                   optional_id128<StoreTag>(here("store"), m.hello().store()),
                   m.hello().revision()};
    }
    case v1::ClientFrame::kCommand:
      return from_wire(at("command"), m.command());
    case v1::ClientFrame::WHAT_NOT_SET:
      at.wrong("is one that this server does not know", "send a Hello or a Command",
               ErrorCode::unknown);
  }
  return Hello{};
}

struct ServerFrameWriter {
  v1::ServerFrame& m;

  void operator()(const Welcome& f) {
    v1::Welcome* w = m.mutable_welcome();
    w->set_protocol(f.protocol);
    w->set_store(bytes_of(f.store));
    w->set_revision(f.revision);
    w->set_server_time_ms(f.server_time_ms);
    w->set_clock_speed(f.clock_speed);
    w->set_server_version(f.server_version);
  }
  void operator()(const Snapshot& f) { snapshot(f.revision, f.floor, f.since); }
  void snapshot(std::uint64_t revision, const Floor& floor, Instant since) {
    v1::Snapshot* s = m.mutable_snapshot();
    s->set_revision(revision);
    *s->mutable_floor() = to_wire(floor, since);
    s->set_since(seconds_of(since));
  }
  void operator()(const Delta& f) {
    v1::Delta* d = m.mutable_delta();
    d->set_revision(f.revision);
    d->set_at(seconds_of(f.at));
    d->set_command(bytes_of(f.command));
    *d->mutable_events() = to_wire(f.events);
  }
  void operator()(const Answer& f) {
    v1::Answer* a = m.mutable_answer();
    a->set_command(bytes_of(f.command));
    a->set_revision(f.revision);
    if (f.refusal) *a->mutable_refusal() = to_wire(*f.refusal);
    a->set_glue_up(f.glue_up.value);
  }
  void operator()(const Beat& f) {
    m.mutable_beat()->set_revision(f.revision);
    m.mutable_beat()->set_server_time_ms(f.server_time_ms);
  }
  void operator()(const Error& f) {
    v1::Error* e = m.mutable_error();
    e->set_code(static_cast<v1::Error::Code>(f.code));
    e->set_text(f.text);
    e->set_command(bytes_of(f.command));
  }
};

ServerFrame read_server_frame(const At& at, const v1::ServerFrame& m) {
  switch (m.what_case()) {
    case v1::ServerFrame::kWelcome: {
      const At here = at("welcome");
      const v1::Welcome& w = m.welcome();
      return Welcome{w.protocol(),    id128<StoreTag>(here("store"), w.store()),
                     w.revision(),    w.server_time_ms(),
                     w.clock_speed(), w.server_version()};
    }
    case v1::ServerFrame::kSnapshot: {
      const At here = at("snapshot");
      return Snapshot{m.snapshot().revision(), from_wire(here("floor"), m.snapshot().floor()),
                      Instant{Seconds{m.snapshot().since()}}};
    }
    case v1::ServerFrame::kDelta: {
      const At here = at("delta");
      const v1::Delta& d = m.delta();
      return Delta{d.revision(), instant(here("at"), d.at()),
                   optional_id128<CommandTag>(here("command"), d.command()),
                   from_wire(here("events"), d.events())};
    }
    case v1::ServerFrame::kAnswer: {
      const At here = at("answer");
      const v1::Answer& a = m.answer();
      Answer answer{
          id128<CommandTag>(here("command"), a.command()), a.revision(), {}, {a.glue_up()}};
      if (a.has_refusal()) answer.refusal = from_wire(here("refusal"), a.refusal());
      return answer;
    }
    case v1::ServerFrame::kBeat:
      return Beat{m.beat().revision(), m.beat().server_time_ms()};
    case v1::ServerFrame::kError: {
      const At here = at("error");
      const int code = m.error().code();
      if (code < v1::Error::CODE_MALFORMED || code > v1::Error::CODE_TOO_OLD)
        here("code").wrong("is " + std::to_string(code), "update this program", ErrorCode::unknown);
      return Error{static_cast<ErrorCode>(code), m.error().text(),
                   optional_id128<CommandTag>(here("command"), m.error().command())};
    }
    case v1::ServerFrame::WHAT_NOT_SET:
      at.wrong("is one that this program does not know", "update this program", ErrorCode::unknown);
  }
  return Beat{};
}

}  // namespace

std::string encode(const ClientFrame& frame) {
  v1::ClientFrame m;
  if (const auto* hello = std::get_if<Hello>(&frame)) {
    m.mutable_hello()->set_protocol(hello->protocol);
    m.mutable_hello()->set_device(bytes_of(hello->device));
    if (hello->store) m.mutable_hello()->set_store(bytes_of(*hello->store));
    m.mutable_hello()->set_revision(hello->revision);
  }
  if (const auto* asked = std::get_if<Asked>(&frame)) *m.mutable_command() = to_wire(*asked);
  return to_bytes(m);
}

Result<ClientFrame, Malformed> decode_client_frame(std::string_view bytes) {
  if (bytes.size() > kMaxClientFrame)
    return Unexpected(Malformed{ErrorCode::too_large,
                                "the frame has " + std::to_string(bytes.size()) + " bytes; use " +
                                    std::to_string(kMaxClientFrame) + " at most",
                                {}});
  std::optional<CommandId> command;
  auto frame = decode<v1::ClientFrame>(bytes, "", [&](const At& at, const v1::ClientFrame& m) {
    if (m.command().id().size() == command.emplace().bytes.size())
      std::copy(m.command().id().begin(), m.command().id().end(), command->bytes.begin());
    else
      command.reset();
    return read_client_frame(at, m);
  });
  if (frame) return frame;
  Malformed no = std::move(frame).error();
  no.command = command;
  return Unexpected(std::move(no));
}

std::string encode(const ServerFrame& frame) {
  v1::ServerFrame m;
  std::visit(ServerFrameWriter{m}, frame);
  return to_bytes(m);
}

std::string encode_snapshot(std::uint64_t revision, const Floor& floor, Instant since) {
  v1::ServerFrame m;
  ServerFrameWriter{m}.snapshot(revision, floor, since);
  return to_bytes(m);
}

Result<ServerFrame, Malformed> decode_server_frame(std::string_view bytes) {
  return decode<v1::ServerFrame>(bytes, "", read_server_frame);
}

std::string encode_events(const std::vector<Event>& events) { return to_bytes(to_wire(events)); }

Result<std::vector<Event>, Malformed> decode_events(std::string_view bytes) {
  return decode<v1::Events>(bytes, "",
                            [](const At& at, const v1::Events& m) { return from_wire(at, m); });
}

std::string encode_floor(const Floor& floor) { return to_bytes(to_wire(floor, Instant::min())); }

Result<Floor, Malformed> decode_floor(std::string_view bytes) {
  return decode<v1::Floor>(bytes, "",
                           [](const At& at, const v1::Floor& m) { return from_wire(at, m); });
}

std::string hex(const std::array<std::uint8_t, 16>& bytes) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  std::string text;
  for (std::uint8_t b : bytes) text += {kDigits[b >> 4], kDigits[b & 15]};
  return text;
}

}  // namespace squeezeout
