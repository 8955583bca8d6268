#pragma once
// A store in memory: for tests, and for benchmarks that leave the disk out. It forgets everything when it ends.
//   fail_next   the next append() fails with this trouble and keeps nothing

#include <map>

#include "server/store/store.h"

namespace squeezeout {

class MemoryStore final : public Store {
 public:
  explicit MemoryStore(StoreName name) : name_(name) {}

  StoreName name() const override { return name_; }
  Result<Loaded, Trouble> load() override;
  Result<Done, Trouble> append(const Batch& batch) override;
  Result<std::optional<std::string>, Trouble> answer(CommandId command) override;
  Result<Done, Trouble> keep_snapshot(const Floor&, Instant) override { return Done{}; }
  void close() override {}

  void fail_next(Trouble trouble) { fail_next_ = std::move(trouble); }
  const std::vector<Entry>& journal() const { return journal_; }
  std::size_t appends() const { return appends_; }

 private:
  StoreName name_;
  std::vector<Entry> journal_;
  std::map<CommandId, Bytes> answers_;
  std::optional<Trouble> fail_next_;
  std::size_t appends_ = 0;
};

}  // namespace squeezeout
