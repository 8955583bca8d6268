#pragma once
// The writer: the one thread that owns the floor and the store. It takes what waits, commits it as one batch, hands out what
// came of it; while one batch is on its way to the disk the next gathers. Between batches it sleeps until something is due.
//   Thread   submit, want_snapshot, revision and trouble may be called from any thread; `out` is called from the writer's
//   Trouble  a full disk: see committer.h; it is tried again every second. Anything else ends the program with kExitStore.

#include <atomic>
#include <condition_variable>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

#include "server/committer.h"
#include "server/shop_clock.h"

namespace squeezeout {

inline constexpr int kExitStore = 3;  // what is kept is unknown; start again

// The whole floor, for sessions that have none.
struct FreshSnapshot {
  std::uint64_t revision = 0;
  Bytes frame;  // encode(Snapshot)
  std::vector<SessionId> sessions;
};

class Writer {
 public:
  struct Outlet {
    std::function<void(Output)> committed;
    std::function<void(FreshSnapshot)> snapshot;
  };
  Writer(Committer committer, ShopClock& clock, Outlet out);
  ~Writer() { stop(); }

  void start();
  // Commits what was taken so far, keeps a snapshot, ends the thread.
  void stop();

  // False: too many wait already.
  [[nodiscard]] bool submit(Ask ask);
  void want_snapshot(SessionId session);

  std::uint64_t revision() const { return revision_; }
  std::uint64_t commits() const { return commits_; }  // since the start
  bool writable() const { return writable_; }

  static constexpr std::size_t kMaxBatch = 256;
  static constexpr std::size_t kMaxWaiting = 10'000;

 private:
  struct Work {
    std::vector<Ask> asks;
    std::vector<SessionId> snapshots;
    bool stopping = false;
  };
  void run();
  Work wait_for_work();
  void commit(const std::vector<Ask>& asks);
  void hand_out_snapshot(std::vector<SessionId> sessions);
  void keep_snapshot();

  Committer committer_;
  ShopClock& clock_;
  Outlet out_;
  std::chrono::steady_clock::time_point retry_at_{};  // after a full disk

  std::mutex mutex_;
  std::condition_variable wake_;
  std::deque<Ask> waiting_;
  std::vector<SessionId> snapshots_wanted_;
  bool stopping_ = false;

  std::atomic<std::uint64_t> revision_;
  std::atomic<std::uint64_t> commits_ = 0;
  std::atomic<bool> writable_;
  std::thread thread_;
};

}  // namespace squeezeout
