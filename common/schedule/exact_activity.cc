#include "common/schedule/exact_activity.h"

#include <algorithm>

namespace squeezeout::schedule::exact {

namespace {
constexpr std::size_t kMostAtoms = 20'000;
std::uint64_t key_of(Pred p) {
  return (std::uint64_t{p.side} << 32) | static_cast<std::uint32_t>(p.least);
}
}  // namespace

void Activity::bump(Pred p) {
  if (p.side & 1) p = !p;
  const auto [it, fresh] = of_.try_emplace(key_of(p), static_cast<Index>(atoms_.size()));
  if (fresh) {
    atoms_.push_back({p});
    insert(it->second);
  }
  Atom& atom = atoms_[it->second];
  atom.activity += gain_;
  if (atom.activity > 1e100) {
    for (Atom& each : atoms_) each.activity *= 1e-100;
    gain_ *= 1e-100;
  }
  if (atom.place != kNone) rise(atom.place);
}

void Activity::step_back(std::uint32_t level) {
  while (!aside_.empty() && aside_.back().level > level) {
    insert(aside_.back().atom);
    aside_.pop_back();
  }
}

void Activity::forget() {
  if (atoms_.size() < kMostAtoms) return;
  std::vector<Atom> kept = atoms_;
  std::nth_element(kept.begin(), kept.begin() + kMostAtoms / 2, kept.end(),
                   [](const Atom& a, const Atom& b) { return a.activity > b.activity; });
  kept.resize(kMostAtoms / 2);
  atoms_ = std::move(kept);
  heap_.clear();
  aside_.clear();
  of_.clear();
  for (Index a = 0; a < atoms_.size(); ++a) {
    atoms_[a].place = kNone;
    of_[key_of(atoms_[a].pred)] = a;
    insert(a);
  }
}

void Activity::pop() {
  atoms_[heap_.front()].place = kNone;
  const Index moved = heap_.back();
  heap_.pop_back();
  if (heap_.empty()) return;
  heap_.front() = moved;
  atoms_[moved].place = 0;
  sink(0);
}

void Activity::insert(Index atom) {
  if (atoms_[atom].place != kNone) return;
  heap_.push_back(atom);
  atoms_[atom].place = static_cast<Index>(heap_.size() - 1);
  rise(atoms_[atom].place);
}

void Activity::rise(Index place) {
  const Index atom = heap_[place];
  while (place > 0) {
    const Index parent = (place - 1) / 2;
    if (atoms_[heap_[parent]].activity >= atoms_[atom].activity) break;
    heap_[place] = heap_[parent];
    atoms_[heap_[place]].place = place;
    place = parent;
  }
  heap_[place] = atom;
  atoms_[atom].place = place;
}

void Activity::sink(Index place) {
  const Index atom = heap_[place];
  const auto size = static_cast<Index>(heap_.size());
  for (;;) {
    Index child = 2 * place + 1;
    if (child >= size) break;
    if (child + 1 < size && atoms_[heap_[child + 1]].activity > atoms_[heap_[child]].activity)
      ++child;
    if (atoms_[heap_[child]].activity <= atoms_[atom].activity) break;
    heap_[place] = heap_[child];
    atoms_[heap_[place]].place = place;
    place = child;
  }
  heap_[place] = atom;
  atoms_[atom].place = place;
}

}  // namespace squeezeout::schedule::exact
