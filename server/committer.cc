#include "server/committer.h"

#include <algorithm>

#include "common/floor/decide.h"

namespace squeezeout {
namespace {

Bytes shared(std::string bytes) { return std::make_shared<const std::string>(std::move(bytes)); }

// A fact that came without a time happened when the server got it.
Body stamped(Body body, Instant now) {
  std::visit(
      [now](auto& b) {
        if constexpr (requires { b.at = now; }) {
          if (b.at == kAtServer) b.at = now;
        }
      },
      body);
  return body;
}

// The glue-up that was made or changed: the one that the command names, or the one that it reserved.
GlueUpId glue_up_of(const Body& body, const std::vector<Event>& events) {
  const GlueUpId named = std::visit(
      [](const auto& b) {
        if constexpr (requires { b.glue_up; }) return b.glue_up;
        return GlueUpId{};
      },
      body);
  if (named) return named;
  for (const Event& event : events) {
    const auto* changed = std::get_if<GlueUpChanged>(&event);
    if (changed != nullptr && changed->what == Change::reserved) return changed->after.id;
  }
  return {};
}

Bytes error(ErrorCode code, std::string text, CommandId command) {
  return shared(encode(ServerFrame{Error{code, std::move(text), command}}));
}

}  // namespace

struct Committer::Draft {
  Instant now{};
  std::uint64_t revision = 0;
  Batch batch;
  Output output;
  std::unordered_map<CommandId, Bytes> answered;  // in this batch
  std::optional<Trouble> trouble;

  void enter(std::optional<CommandId> command, DeviceId device, std::vector<Event> events) {
    if (events.empty()) return;
    ++revision;
    Delta delta{revision, now, command, std::move(events)};
    output.published.push_back({revision, shared(encode(ServerFrame{delta}))});
    Entry entry;
    entry.revision = revision;
    entry.at = now;
    entry.command = command;
    entry.device = device;
    entry.events = std::move(delta.events);
    batch.entries.push_back(std::move(entry));
  }
};

Committer::Committer(Store& store, Loaded loaded)
    : store_(store),
      floor_(std::move(loaded.floor)),
      revision_(loaded.revision),
      at_(loaded.at),
      trouble_(std::move(loaded.trouble)),
      snapshot_at_(loaded.snapshot) {}

Result<Output, Trouble> Committer::commit(std::span<const Ask> asks, Instant now) {
  Draft draft;
  draft.now = std::max(now, at_);
  draft.revision = revision_;
  if (trouble_ && trouble_->code != Trouble::Code::full) return turn_away(asks);

  for (const Ask& ask : asks) take(draft, ask);
  if (draft.trouble) return Unexpected(*draft.trouble);
  if (asks.empty())
    draft.enter(std::nullopt, {}, step(floor_, {{}, {}, draft.now, Tick{}}).settled);

  if (auto kept = store_.append(draft.batch); !kept) {
    if (kept.error().code != Trouble::Code::full) return Unexpected(std::move(kept).error());
    trouble_ = kept.error();
    if (auto read = reload(); !read) return Unexpected(std::move(read).error());
    return turn_away(asks);
  }
  trouble_.reset();
  revision_ = draft.revision;
  at_ = draft.now;
  return std::move(draft.output);
}

Output Committer::turn_away(std::span<const Ask> asks) const {
  CHECK(trouble_.has_value());
  Output output;
  for (const Ask& ask : asks) {
    output.replies.push_back(
        {ask.session,
         error(ErrorCode::read_only, trouble_->what + "; " + trouble_->next, ask.asked.id)});
  }
  return output;
}

void Committer::take(Draft& draft, const Ask& ask) {
  const CommandId id = ask.asked.id;
  if (const auto same = draft.answered.find(id); same != draft.answered.end()) {
    draft.output.replies.push_back({ask.session, same->second});
    return;
  }
  auto known = store_.answer(id);
  if (!known) {
    draft.trouble = std::move(known).error();
    return;
  }
  if (*known) {
    Bytes bytes = (*known)->empty() ? error(ErrorCode::stale_command,
                                            "this command was answered more than 30 days ago", id)
                                    : shared(**std::move(known));
    draft.output.replies.push_back({ask.session, std::move(bytes)});
    return;
  }
  settle_and_decide(draft, ask);
}

void Committer::settle_and_decide(Draft& draft, const Ask& ask) {
  const Stamped command{ask.asked.id, ask.device, draft.now, stamped(ask.asked.body, draft.now)};
  Step done = step(floor_, command);
  draft.enter(std::nullopt, {}, std::move(done.settled));
  Answer answer{command.id, 0, std::nullopt, {}};
  if (done.answer) {
    answer.glue_up = glue_up_of(command.body, *done.answer);
    draft.enter(command.id, command.by, std::move(done.answer).value());
  } else {
    answer.refusal = std::move(done.answer).error();
  }
  answer.revision = draft.revision;
  const Bytes bytes = shared(encode(ServerFrame{answer}));
  draft.batch.answers.push_back({command.id, draft.now, bytes});
  draft.answered.emplace(command.id, bytes);
  draft.output.replies.push_back({ask.session, bytes});
}

Result<Done, Trouble> Committer::reload() {
  auto loaded = store_.load();
  if (!loaded) return Unexpected(std::move(loaded).error());
  if (loaded->trouble) return Unexpected(*loaded->trouble);
  CHECK(loaded->revision == revision_);
  floor_ = std::move(loaded->floor);
  return Done{};
}

Result<Done, Trouble> Committer::keep_snapshot() {
  if (trouble_ || revision_ == snapshot_at_) return Done{};
  snapshot_at_ = revision_;
  return store_.keep_snapshot(floor_, at_);
}

}  // namespace squeezeout
