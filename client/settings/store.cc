#include "client/settings/store.h"

#include <fmt/format.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "client/files.h"
#include "client/words/say.h"
#include "proto/shop_file.h"

namespace squeezeout::settings {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t kLargest = 4U << 20U;  // of a file that is read whole

Result<std::string, std::string> text_of(const std::string& path) {
  std::error_code error;
  if (!fs::is_regular_file(path, error)) return Unexpected(words::tr("it is no file"));
  if (fs::file_size(path, error) > kLargest || error)
    return Unexpected(words::tr("it is larger than 4 MB"));
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  if (!in || !text) return Unexpected(words::tr("this user may not read it"));
  return text.str();
}

std::optional<std::string> put(const std::string& path, const std::string& text) {
  std::error_code error;
  if (const fs::path folder = fs::path(path).parent_path(); !folder.empty())
    fs::create_directories(folder, error);
  if (replace_file(path, text)) return std::nullopt;
  return words::say("{} cannot be written. Next: make its folder writable for this user.", path);
}

std::string name_of(const std::string& path) { return fs::path(path).filename().string(); }

std::string whole(const std::string& path) {
  const char* home = std::getenv("HOME");
  if (path.starts_with("~/") && home != nullptr) return home + path.substr(1);
  std::error_code error;
  const fs::path all = path.empty() ? fs::path() : fs::absolute(path, error);
  return error ? path : all.lexically_normal().string();
}

// What stands there is moved aside, under a name that is free.
std::optional<std::string> put_beside(const std::string& path, const std::string& text) {
  std::error_code error;
  const auto trouble = words::say("{} is no file. Next: name a file.", path);
  if (path.empty() || fs::is_directory(path, error)) return trouble;
  if (!fs::exists(path, error)) return put(path, text);
  if (!fs::is_regular_file(path, error)) return trouble;
  if (const auto there = text_of(path); there && *there == text) return std::nullopt;
  std::string aside = path + ".before";
  for (int n = 2; fs::exists(aside, error); ++n) aside = fmt::format("{}.before-{}", path, n);
  fs::rename(path, aside, error);
  if (error)
    return words::say("{} cannot be kept as {}. Next: name another file.", path, name_of(aside));
  auto failed = put(path, text);
  if (failed) fs::rename(aside, path, error);
  return failed;
}

bool is_table(const std::string& path) {
  const std::string ending = fs::path(path).extension().string();
  return ending == ".csv" || ending == ".CSV";
}

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
  trouble = words::say("The draft of a shop could not be read: {}. It was put aside as {}.",
                       shop.error().empty() ? "" : shop.error().front().what,
                       name_of(path + ".unreadable"));
  return nullptr;
}

template <class T, class Write>
std::optional<std::string> Store::keep(const T& now, T& kept, std::optional<Failed<T>>& failed,
                                       const Write& write) {
  if (now == kept || writes_ == Writes::no) return std::nullopt;
  const bool told = failed && failed->what == now;
  if (told && Clock::now() < failed->again) return std::nullopt;
  auto trouble = write(now);
  if (trouble) {
    failed = Failed<T>{now, Clock::now() + again_};
    return told ? std::nullopt : std::move(trouble);
  }
  kept = now;
  failed.reset();
  return std::nullopt;
}

std::optional<std::string> Store::keep(const Settings& now) {
  return keep(now, kept_, failed_,
              [&](const Settings& s) { return put(file_, write_settings(s)); });
}

std::optional<std::string> Store::keep(const draft::ShopState& now) {
  return keep(now, kept_draft_, failed_draft_,
              [&](const draft::ShopState& shop) -> std::optional<std::string> {
                if (shop) return put(draft_file(), write_shop_file(*shop));
                std::error_code error;
                fs::remove(draft_file(), error);
                return std::nullopt;
              });
}

Intent errand(Intent intent, const draft::ShopState& shop) {
  if (const auto* read = std::get_if<ReadFile>(&intent)) {
    auto text = text_of(whole(read->path));
    if (!text) return FileRead{name_of(read->path), "", text.error()};
    return FileRead{name_of(read->path), std::move(*text), ""};
  }
  if (const auto* write = std::get_if<WriteShop>(&intent); write != nullptr && shop) {
    const std::string path = whole(write->path);
    const auto trouble =
        put_beside(path, is_table(path) ? write_gear_csv(shop->gear) : write_shop_file(*shop));
    return FileWritten{path, trouble.value_or("")};
  }
  return intent;
}

}  // namespace squeezeout::settings
