#pragma once
// Store: where this device's settings and its draft of a shop lie, and how they get there: written whole and put in place at
// once, so that a crash leaves the old or the new, never half.
//   Shape    bench.conf in $XDG_CONFIG_HOME/squeezeout or ~/.config/squeezeout, or the file that --settings names; the draft beside
//            it with ".shop-draft" added
//   Refuses  in words, what, why and next

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
  // An empty name: nothing lies there.
  explicit Store(std::string file, Writes writes = Writes::yes)
      : file_(std::move(file)), writes_(writes) {}

  // No file yet: a device's first settings.
  [[nodiscard]] Result<Settings, std::string> read();
  // The draft that was left, if any. One that cannot be read is put aside under another name, and told in `trouble`.
  [[nodiscard]] draft::ShopState read_draft(std::string& trouble);

  // Written when they differ from what lies there. The trouble, if any.
  [[nodiscard]] std::optional<std::string> keep(const Settings& now);
  [[nodiscard]] std::optional<std::string> keep(
      const draft::ShopState& now);  // none: nothing is left

 private:
  std::string draft_file() const { return file_ + ".shop-draft"; }
  std::string file_;
  Writes writes_;
  Settings kept_;
  draft::ShopState kept_draft_;
};

// What an intent asks of the disk is done, and what became of it is the intent that it is exchanged for: ReadFile becomes FileRead,
// WriteShop becomes FileWritten. Others stay.
[[nodiscard]] Intent errand(Intent intent, const draft::ShopState& shop);

}  // namespace squeezeout::settings
