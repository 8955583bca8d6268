#pragma once
// Sorted items in blocks of at most kMost, each block with a summary of its items: a search passes whole blocks at a time.
//   Shape    a tree of two levels. The summary's push(items) works what waits in it into the items, pull(items) sums them up
//            anew; neither changes an item's place in the order
//   Cost     find: two binary searches; insert and erase: one block; a pass over all: one step a block

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <utility>
#include <vector>

namespace squeezeout {

template <class Item, class Summary>
class Blocks {
 public:
  static constexpr std::size_t kMost = 64;

  struct Block {
    Item first;  // a copy, near at hand for the search
    Summary summary;
    std::vector<Item> items;  // never empty
  };
  // An item, or where one would stand: behind the last of its block. Holds until the next insert or erase.
  struct Place {
    std::size_t block = 0, index = 0;
    friend bool operator==(const Place&, const Place&) = default;
  };

  const std::vector<Block>& all() const { return blocks_; }
  bool holds(Place p) const {
    return p.block < blocks_.size() && p.index < blocks_[p.block].items.size();
  }
  const Item& item(Place p) const { return blocks_[p.block].items[p.index]; }

  // Where the items end for which `before` holds: all those stand in front.
  template <class Before>
  Place behind(Before before) const {
    const std::size_t block = count(blocks_, [&](const Block& b) { return before(b.first); });
    if (block == 0) return {};
    return {block - 1, count(blocks_[block - 1].items, before)};
  }
  // The same within one block.
  template <class Before>
  std::size_t behind_in(std::size_t block, Before before) const {
    return count(blocks_[block].items, before);
  }

  // The item at or after a place; one that is not held when there is none.
  Place here_or_next(Place p) const { return holds(p) ? p : Place{p.block + 1, 0}; }

  void insert(Place p, Item item) {
    if (blocks_.empty()) blocks_.push_back(empty());
    auto& items = edit(p.block);
    items.insert(at(items, p.index), std::move(item));
    if (items.size() > kMost) {
      // What grows at its end is left full.
      const bool appended = p.block + 1 == blocks_.size() && p.index + 1 == items.size();
      const auto half = at(items, appended ? kMost : items.size() / 2);
      Block upper = empty();
      upper.items.assign(half, items.end());
      items.erase(half, items.end());
      blocks_.insert(at(blocks_, p.block + 1), std::move(upper));
      sum_up(p.block + 1);
    }
    sum_up(p.block);
  }

  void erase(Place p) {
    auto& items = edit(p.block);
    items.erase(at(items, p.index));
    if (items.empty()) {
      blocks_.erase(at(blocks_, p.block));
      return;
    }
    const std::size_t next = p.block + 1;
    if (next < blocks_.size() && items.size() + blocks_[next].items.size() <= kMost / 2) {
      const auto& more = edit(next);
      items.insert(items.end(), more.begin(), more.end());
      blocks_.erase(at(blocks_, next));
    }
    sum_up(p.block);
  }

  // Changes the items of [from, to) with `item`, and of blocks that lie in it as a whole the summary alone, with `whole`.
  template <class OfItem, class OfWhole>
  void change(Place from, Place to, OfItem item, OfWhole whole) {
    for (std::size_t b = from.block; b <= to.block && b < blocks_.size(); ++b) {
      const std::size_t first = b == from.block ? from.index : 0;
      const std::size_t last = b == to.block ? to.index : blocks_[b].items.size();
      if (first >= last) continue;
      if (first == 0 && last == blocks_[b].items.size()) {
        whole(blocks_[b].summary);
        continue;
      }
      auto& items = edit(b);
      for (std::size_t i = first; i < last; ++i) item(items[i]);
      sum_up(b);
    }
  }

 private:
  // How many at the front are `before`; std::partition_point guesses at each step, and guesses wrong half of the time.
  template <class T, class Before>
  static std::size_t count(const std::vector<T>& sorted, Before before) {
    std::size_t found = 0;
    for (std::size_t left = sorted.size(); left > 0;) {
      const std::size_t half = (left + 1) / 2;
      found += before(sorted[found + half - 1]) ? half : 0;
      left -= half;
    }
    return found;
  }
  template <class T>
  static auto at(std::vector<T>& v, std::size_t i) {
    return v.begin() + static_cast<std::ptrdiff_t>(i);
  }
  static Block empty() {
    Block b{};
    b.items.reserve(kMost + 1);
    return b;
  }
  std::vector<Item>& edit(std::size_t block) {
    blocks_[block].summary.push(blocks_[block].items);
    return blocks_[block].items;
  }
  void sum_up(std::size_t block) {
    Block& b = blocks_[block];
    b.first = b.items.front();
    b.summary.pull(b.items);
  }

  std::vector<Block> blocks_;
};

}  // namespace squeezeout
