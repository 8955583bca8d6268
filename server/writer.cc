#include "server/writer.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <utility>

#include "common/floor/decide.h"

namespace squeezeout {
namespace {

constexpr auto kRetry = std::chrono::seconds{1};

void say(const Trouble& trouble) { std::fputs(to_text(trouble).c_str(), stderr); }

[[noreturn]] void give_up(const Trouble& trouble) {
  say(trouble);
  std::_Exit(kExitStore);
}

}  // namespace

Writer::Writer(Committer committer, ShopClock& clock, Outlet out)
    : committer_(std::move(committer)),
      clock_(clock),
      out_(std::move(out)),
      revision_(committer_.revision()),
      writable_(!committer_.trouble()) {}

void Writer::start() {
  thread_ = std::thread([this] { run(); });
}

void Writer::stop() {
  if (!thread_.joinable()) return;
  {
    const std::lock_guard lock(mutex_);
    stopping_ = true;
  }
  wake_.notify_one();
  thread_.join();
}

bool Writer::submit(Ask ask) {
  {
    const std::lock_guard lock(mutex_);
    if (stopping_ || waiting_.size() >= kMaxWaiting) return false;
    waiting_.push_back(std::move(ask));
  }
  wake_.notify_one();
  return true;
}

void Writer::want_snapshot(SessionId session) {
  {
    const std::lock_guard lock(mutex_);
    snapshots_wanted_.push_back(session);
  }
  wake_.notify_one();
}

Writer::Work Writer::wait_for_work() {
  const auto something = [this] {
    return stopping_ || !waiting_.empty() || !snapshots_wanted_.empty();
  };
  auto sleep = std::chrono::steady_clock::duration{std::chrono::hours{1}};
  if (const auto due = next_due(committer_.floor()); due && writable_) sleep = clock_.until(*due);
  if (!writable_) sleep = kRetry;

  std::unique_lock lock(mutex_);
  wake_.wait_for(lock, sleep, something);
  Work work;
  const auto end =
      waiting_.begin() + static_cast<std::ptrdiff_t>(std::min(waiting_.size(), kMaxBatch));
  work.asks.assign(std::move_iterator(waiting_.begin()), std::move_iterator(end));
  waiting_.erase(waiting_.begin(), end);
  work.snapshots = std::exchange(snapshots_wanted_, {});
  work.stopping = stopping_ && waiting_.empty();
  return work;
}

void Writer::run() {
  for (bool stopping = false; !stopping;) {
    Work work = wait_for_work();
    const auto due = next_due(committer_.floor());
    if (!work.asks.empty() || (due && *due <= clock_.now())) commit(work.asks);
    if (!work.snapshots.empty()) hand_out_snapshot(std::move(work.snapshots));
    if (committer_.snapshot_due()) keep_snapshot();
    stopping = work.stopping;
  }
  keep_snapshot();
}

void Writer::commit(const std::vector<Ask>& asks) {
  const auto now = std::chrono::steady_clock::now();
  if (committer_.trouble() && now < retry_at_) {
    out_.committed(committer_.turn_away(asks));
    return;
  }
  const bool was_writable = writable_;
  auto output = committer_.commit(asks, clock_.now());
  if (!output) give_up(output.error());
  revision_ = committer_.revision();
  ++commits_;
  writable_ = !committer_.trouble();
  if (!writable_) retry_at_ = now + kRetry;
  if (was_writable && !writable_) say(*committer_.trouble());
  out_.committed(std::move(output).value());
}

void Writer::hand_out_snapshot(std::vector<SessionId> sessions) {
  const Instant since = std::max(committer_.at(), clock_.now()) - kKeepClaims;
  auto frame = std::make_shared<const std::string>(
      encode_snapshot(committer_.revision(), committer_.floor(), since));
  out_.snapshot({committer_.revision(), std::move(frame), std::move(sessions)});
}

void Writer::keep_snapshot() {
  const auto kept = committer_.keep_snapshot();
  if (kept) return;
  if (kept.error().code != Trouble::Code::full) give_up(kept.error());
  say(kept.error());  // without a snapshot the next start takes longer, and that is all
}

}  // namespace squeezeout
