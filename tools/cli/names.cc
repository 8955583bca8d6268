#include "tools/cli/names.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <numeric>

#include "tools/cli/stop.h"

namespace squeezeout::cli {
namespace {

constexpr std::size_t kNearest = 3;

std::string lower(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(),
                 [](unsigned char ch) { return static_cast<char>(std::tolower(ch)); });
  return out;
}

bool is_number(const std::string& text) {
  return !text.empty() && text.size() <= 9 &&
         std::all_of(text.begin(), text.end(),
                     [](unsigned char ch) { return std::isdigit(ch) != 0; });
}

// How many letters must be changed, added or left out.
std::size_t distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t changed = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, changed});
    }
  }
  return row[b.size()];
}

std::string joined(const std::vector<std::string>& keys) {
  std::string out;
  for (const auto& key : keys) out += (out.empty() ? "" : ", ") + key;
  return out;
}

std::string nearest(const std::vector<Named>& things, const std::string& wanted) {
  std::vector<std::pair<std::size_t, std::string>> by_distance;
  for (const Named& t : things)
    by_distance.emplace_back(
        std::min(distance(wanted, lower(t.key)), distance(wanted, lower(t.name))), t.key);
  std::sort(by_distance.begin(), by_distance.end());
  std::vector<std::string> keys;
  for (std::size_t i = 0; i < std::min(kNearest, by_distance.size()); ++i)
    keys.push_back(by_distance[i].second);
  return joined(keys);
}

template <class Matches>
std::vector<const Named*> matching(const std::vector<Named>& things, Matches matches) {
  std::vector<const Named*> out;
  for (const Named& t : things)
    if (matches(t)) out.push_back(&t);
  return out;
}

template <class T>
std::vector<Named> named(const std::vector<T>& things) {
  std::vector<Named> out;
  for (const T& t : things) out.push_back({t.id.value, t.key, t.name});
  return out;
}

}  // namespace

std::uint32_t find_named(std::string_view what, const std::vector<Named>& things,
                         const std::string& text) {
  const std::string wanted = lower(text);
  const auto whole = matching(
      things, [&](const Named& t) { return lower(t.key) == wanted || lower(t.name) == wanted; });
  if (!whole.empty()) return whole.front()->id;
  if (is_number(wanted)) {
    const auto last =
        matching(things, [&](const Named& t) { return lower(t.name).ends_with(" " + wanted); });
    if (last.size() == 1) return last.front()->id;
    const auto own = matching(things, [&](const Named& t) { return t.id == std::stoul(wanted); });
    if (!own.empty()) return own.front()->id;
  }
  const auto begins = matching(things, [&](const Named& t) {
    return !wanted.empty() &&
           (lower(t.key).starts_with(wanted) || lower(t.name).starts_with(wanted));
  });
  if (begins.size() == 1) return begins.front()->id;
  if (begins.size() > 1) {
    std::vector<std::string> keys;
    for (const Named* t : begins) keys.push_back(t->key);
    wrong_use(fmt::format("\"{}\" is not clear.", text),
              fmt::format("{} {}s begin so.", begins.size(), what),
              "Say one of: " + joined(keys) + ".");
  }
  if (things.empty())
    wrong_use(fmt::format("No {} is called \"{}\".", what, text), "The shop has none.",
              "Load a shop file.");
  wrong_use(fmt::format("No {} is called \"{}\".", what, text),
            "It is given by its key, its name or its number.",
            "Nearest: " + nearest(things, wanted) + ".");
}

RecipeId find_recipe(const Shop& s, const std::string& text) {
  return {find_named("recipe", named(s.recipes), text)};
}
BuildId find_build(const Shop& s, const std::string& text) {
  return {find_named("build", named(s.builds), text)};
}
BuilderId find_builder(const Shop& s, const std::string& text) {
  return {find_named("builder", named(s.builders), text)};
}
BenchId find_bench(const Shop& s, const std::string& text) {
  return {find_named("bench", named(s.benches), text)};
}
SheetId find_glue(const Shop& s, const std::string& text) {
  return {find_named("glue", named(s.sheets), text)};
}
GearKindId find_gear(const Shop& s, const std::string& text) {
  return {find_named("gear kind", named(s.gear), text)};
}
LotId find_lot(const Floor& f, const std::string& text) {
  if (is_number(text)) {
    const LotId id{static_cast<std::uint32_t>(std::stoul(text))};
    if (f.lot(id)) return id;
  }
  std::vector<Named> bottles;
  for (const auto& [id, lot] : f.lots) bottles.push_back({id.value, lot.label, lot.label});
  if (bottles.empty())
    wrong_use(fmt::format("No bottle is called \"{}\".", text), "None is on record.",
              "Put one on record: squeezeout lot add GLUE --label \"A 12\".");
  return {find_named("bottle", bottles, text)};
}

}  // namespace squeezeout::cli
