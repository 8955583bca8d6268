#include "client/settings/store.h"

#include <fmt/format.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "client/files.h"
#include "proto/shop_file.h"

namespace squeezeout::settings {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t kLargest = 4U << 20U;  // of a file that is read whole

Result<std::string, std::string> text_of(const std::string& path) {
  std::error_code error;
  if (!fs::is_regular_file(path, error)) return Unexpected(std::string("it is no file"));
  if (fs::file_size(path, error) > kLargest || error)
    return Unexpected(std::string("it is larger than 4 MB"));
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  if (!in || !text) return Unexpected(std::string("this user may not read it"));
  return text.str();
}

std::optional<std::string> put(const std::string& path, const std::string& text) {
  std::error_code error;
  if (const fs::path folder = fs::path(path).parent_path(); !folder.empty())
    fs::create_directories(folder, error);
  if (replace_file(path, text)) return std::nullopt;
  return fmt::format("{} cannot be written. Next: make its folder writable for this user.", path);
}

std::string name_of(const std::string& path) { return fs::path(path).filename().string(); }

}  // namespace

std::string usual_file() {
  if (const char* config = std::getenv("XDG_CONFIG_HOME"); config != nullptr && *config != '\0')
    return std::string(config) + "/squeezeout/bench.conf";
  const char* home = std::getenv("HOME");
  return std::string(home != nullptr ? home : ".") + "/.config/squeezeout/bench.conf";
}

Result<Settings, std::string> Store::read() {
  if (!fs::exists(file_)) return kept_;
  const auto text = text_of(file_);
  if (!text)
    return Unexpected(
        fmt::format("{} cannot be read: {}. Next: mend that, or name another file "
                    "with --settings.",
                    file_, text.error()));
  auto settings = read_settings(*text);
  if (!settings) {
    std::string all;
    for (const LineMistake& m : settings.error())
      all += (all.empty() ? "" : "\n") + to_text(file_, m);
    return Unexpected(std::move(all));
  }
  kept_ = std::move(*settings);
  return kept_;
}

draft::ShopState Store::read_draft(std::string& trouble) {
  const std::string path = draft_file();
  if (file_.empty() || !fs::exists(path)) return nullptr;
  const auto text = text_of(path);
  auto shop = text ? read_shop_draft(path, *text)
                   : Result<Shop, std::vector<FileMistake>>(
                         Unexpected(std::vector{FileMistake{path, 0, 0, "", text.error(), ""}}));
  if (shop) return kept_draft_ = std::make_shared<const Shop>(std::move(*shop));
  std::error_code error;
  fs::rename(path, path + ".unreadable", error);
  trouble = fmt::format("The draft of a shop could not be read: {}. It was put aside as {}.",
                        shop.error().empty() ? "" : shop.error().front().what,
                        name_of(path + ".unreadable"));
  return nullptr;
}

std::optional<std::string> Store::keep(const Settings& now) {
  if (now == kept_ || writes_ == Writes::no) return std::nullopt;
  kept_ = now;
  return put(file_, write_settings(now));
}

std::optional<std::string> Store::keep(const draft::ShopState& now) {
  if (now == kept_draft_ || writes_ == Writes::no) return std::nullopt;
  kept_draft_ = now;
  if (now) return put(draft_file(), write_shop_file(*now));
  std::error_code error;
  fs::remove(draft_file(), error);
  return std::nullopt;
}

Intent errand(Intent intent, const draft::ShopState& shop) {
  if (const auto* read = std::get_if<ReadFile>(&intent)) {
    auto text = text_of(read->path);
    if (!text) return FileRead{name_of(read->path), "", text.error()};
    return FileRead{name_of(read->path), std::move(*text), ""};
  }
  if (const auto* write = std::get_if<WriteShop>(&intent); write != nullptr && shop) {
    const auto trouble = put(write->path, write_shop_file(*shop));
    return FileWritten{name_of(write->path), trouble.value_or("")};
  }
  return intent;
}

}  // namespace squeezeout::settings
