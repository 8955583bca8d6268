#pragma once
// Store: where this device's settings and its draft of a shop lie, and how they get there: written whole and put in place at
// once, so that a crash leaves the old or the new, never half.
//   Shape    bench.conf in $XDG_CONFIG_HOME/squeezeout or ~/.config/squeezeout, or the file that --settings names; the draft beside
//            it with ".shop-draft" added
//   Refuses  in words, what, why and next

#include <chrono>
#include <optional>
#include <string>

#include "client/draft/draft.h"
#include "client/look/intent.h"
#include "client/settings/settings.h"

namespace squeezeout::settings {

[[nodiscard]] std::string usual_file();

class Store {
 public:
  enum class Writes { yes, no };
  // An empty name: nothing lies there. What could not be written is tried again after `again`, and when it changes.
  explicit Store(std::string file, Writes writes = Writes::yes,
                 std::chrono::milliseconds again = std::chrono::seconds{10})
      : file_(std::move(file)), writes_(writes), again_(again) {}

  // No file yet: a device's first settings.
  [[nodiscard]] Result<Settings, std::string> read();
  // The draft that was left, if any. One that cannot be read is put aside under another name, and told in `trouble`.
  [[nodiscard]] draft::ShopState read_draft(std::string& trouble);

  // Written when they differ from what lies there. The trouble, if any: once for what is tried again.
  [[nodiscard]] std::optional<std::string> keep(const Settings& now);
  [[nodiscard]] std::optional<std::string> keep(
      const draft::ShopState& now);  // none: nothing is left

 private:
  std::string draft_file() const { return file_ + ".shop-draft"; }
  std::string file_;
  Writes writes_;
  using Clock = std::chrono::steady_clock;
  // What did not get there, and when it may be tried again.
  template <class T>
  struct Failed {
    T what;
    Clock::time_point again;
  };
  template <class T, class Write>
  std::optional<std::string> keep(const T& now, T& kept, std::optional<Failed<T>>& failed,
                                  const Write& write);
  std::chrono::milliseconds again_;
  Settings kept_;
  draft::ShopState kept_draft_;
  std::optional<Failed<Settings>> failed_;
  std::optional<Failed<draft::ShopState>> failed_draft_;
};

// What an intent asks of the disk is done, and what became of it is the intent that it is exchanged for: ReadFile becomes FileRead,
// WriteShop becomes FileWritten, with the whole path. Others stay.
//   Paths   ~/ is the person's folder; to a .csv goes the gear, as a table; what stood there stays beside it, with .before added
[[nodiscard]] Intent errand(Intent intent, const draft::ShopState& shop);

}  // namespace squeezeout::settings
