#include "server/store/memory/memory_store.h"

#include <utility>

#include "common/floor/apply.h"

namespace squeezeout {

Result<Loaded, Trouble> MemoryStore::load() {
  Loaded loaded;
  for (const Entry& entry : journal_) {
    for (const Event& event : entry.events) apply(loaded.floor, event);
    loaded.revision = entry.revision;
    loaded.at = entry.at;
  }
  return loaded;
}

Result<Done, Trouble> MemoryStore::append(const Batch& batch) {
  if (fail_next_) return Unexpected(*std::exchange(fail_next_, std::nullopt));
  for (const Entry& entry : batch.entries) {
    CHECK(entry.revision == journal_.size() + 1);
    journal_.push_back(entry);
  }
  for (const KeptAnswer& answer : batch.answers) {
    CHECK(answers_.emplace(answer.command, answer.bytes).second);
  }
  ++appends_;
  return Done{};
}

Result<std::optional<std::string>, Trouble> MemoryStore::answer(CommandId command) {
  const auto it = answers_.find(command);
  if (it == answers_.end()) return std::optional<std::string>{};
  return std::optional<std::string>{*it->second};
}

}  // namespace squeezeout
