#pragma once
// The committer: takes a batch of commands in order, decides each on the floor that the one before left, keeps all of it in
// ONE durable transaction, and only then hands out answers and deltas. No thread and no clock: writer.h has those.
//   Repeats  a command's id gets its first answer again, refusals included, also within one batch
//   Time     stamps never go back
//   Trouble  full: nothing was kept, the floor is read back from the store, the commands get an error and may be sent again.
//            Anything else: what is kept is unknown; the caller ends the program and a restart recovers.

#include <map>
#include <optional>
#include <span>
#include <unordered_map>
#include <vector>

#include "server/store/store.h"

namespace squeezeout {

using SessionId = std::uint64_t;

struct Ask {
  SessionId session = 0;
  DeviceId device;
  Asked asked;
};

struct Published {  // a revision, for everybody
  std::uint64_t revision = 0;
  Bytes frame;  // encode(Delta)
};
struct Reply {  // for one
  SessionId session = 0;
  Bytes frame;  // encode(Answer) or encode(Error)
};
struct Output {
  std::vector<Published> published;
  std::vector<Reply> replies;
};

class Committer {
 public:
  Committer(Store& store, Loaded loaded);

  // Settles what is due by `now`, too: an empty batch is a timer's.
  [[nodiscard]] Result<Output, Trouble> commit(std::span<const Ask> asks, Instant now);

  // An error for each: nothing can be written just now.
  [[nodiscard]] Output turn_away(std::span<const Ask> asks) const;

  const Floor& floor() const { return floor_; }
  std::uint64_t revision() const { return revision_; }
  Instant at() const { return at_; }
  // Why nothing can be written, if so: damage for good, a full disk until a commit succeeds again.
  const std::optional<Trouble>& trouble() const { return trouble_; }

  // Every so many revisions, and at the end.
  bool snapshot_due() const { return revision_ - snapshot_at_ >= kSnapshotEvery; }
  [[nodiscard]] Result<Done, Trouble> keep_snapshot();

  static constexpr std::uint64_t kSnapshotEvery = 10'000;

 private:
  struct Draft;  // a batch on its way

  void take(Draft& draft, const Ask& ask);
  void settle_and_decide(Draft& draft, const Ask& ask);
  [[nodiscard]] Result<Done, Trouble> reload();

  Store& store_;
  Floor floor_;
  std::uint64_t revision_;
  Instant at_;
  std::optional<Trouble> trouble_;
  std::uint64_t snapshot_at_;
};

}  // namespace squeezeout
