#pragma once
// The things of one list of a shop by key: each has its own, and others refer to it by that.
//   Refuses  a key that is missing or another's, ids that do not rise, a reference to nothing

#include <fmt/format.h>

#include <map>
#include <string>
#include <string_view>

#include "proto/fields.h"
#include "proto/shop_convert.h"

namespace squeezeout {

template <class IdType>
class Keys {
 public:
  Keys(std::string_view thing, Ids ids) : thing_(thing), ids_(ids) {}

  // Takes the key of the next thing in; the thing's id. `at` is the thing, `key_at` where its key is written.
  IdType add(const At& at, const At& key_at, const std::string& key, std::uint32_t given) {
    const IdType id{ids_ == Ids::by_order ? last_.value + 1 : given};
    if (id <= last_) at("id").wrong(fmt::format("is {}", id.value), "let ids rise, from 1 on");
    last_ = std::max(last_, id);
    if (key.empty()) {
      key_at.wrong("is missing", fmt::format("give the {} a key of its own", thing_));
    } else if (const std::string checked = text(key_at, key);
               !checked.empty() && !by_key_.emplace(checked, id).second) {
      key_at.wrong(fmt::format("\"{}\" is already another {}'s", key, thing_),
                   "give each a key of its own");
    }
    return id;
  }

  template <class M>
  IdType add(const At& at, const M& m) {
    return add(at, at("key"), m.key(), m.id());
  }

  // The id of what a field refers to.
  IdType find(const At& at, const std::string& key) const {
    const auto it = by_key_.find(key);
    if (it != by_key_.end()) return it->second;
    const std::string checked = text(at, key);
    if (at.enough()) return {};
    std::vector<std::string> choices;
    for (const auto& [k, id] : by_key_) choices.push_back(k);
    at.wrong(fmt::format("no {} has the key \"{}\"", thing_, checked),
             use_one_of(checked, choices));
    return {};
  }

 private:
  std::string_view thing_;
  Ids ids_;
  IdType last_;
  std::map<std::string, IdType> by_key_;
};

// `at` is the thing.
[[nodiscard]] inline std::string name_of(const At& at, const std::string& name) {
  if (name.empty()) at("name").wrong("is missing", "give it a name that people say");
  return text(at("name"), name);
}

}  // namespace squeezeout
