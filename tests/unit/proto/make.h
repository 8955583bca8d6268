#pragma once
// Makes records with every field set to something allowed, at random from a seed: what the codec must carry.

#include <cstdint>
#include <random>

#include "proto/codec.h"

namespace squeezeout::testing {

class Make {
 public:
  explicit Make(std::uint64_t seed) : random_(seed) {}

  std::int64_t between(std::int64_t least, std::int64_t most) {
    return std::uniform_int_distribution<std::int64_t>(least, most)(random_);
  }
  bool coin() { return between(0, 1) == 1; }

  Shop shop();  // with ids in order from 1
  GlueUp glue_up();

  // The i-th alternative of each variant; the caller goes through them all.
  Body body(std::size_t i);  // any but Tick, which no client sends
  Event event(std::size_t i);
  Refusal refusal(std::size_t i);
  Asked asked(std::size_t i) { return {id128<CommandTag>(), body(i)}; }
  Hello hello();
  Welcome welcome();
  Delta delta();
  Answer answer(std::size_t refusal);
  Beat beat() { return {number64(), between(0, 1) ? 0 : between(0, 1LL << 60)}; }
  Error error(int code);

 private:
  std::uint64_t number64() {
    return static_cast<std::uint64_t>(between(0, std::numeric_limits<std::int64_t>::max()));
  }
  std::uint32_t number32() {
    return static_cast<std::uint32_t>(between(0, std::numeric_limits<std::uint32_t>::max()));
  }
  template <class IdType>
  IdType id() {
    return {number32()};
  }
  template <class Tag>
  Id128<Tag> id128() {
    Id128<Tag> id;
    for (auto& b : id.bytes) b = static_cast<std::uint8_t>(between(0, 255));
    return id;
  }
  template <class E>
  E one_of(int choices) {
    return static_cast<E>(between(0, choices - 1));
  }
  template <class T, class F>
  std::vector<T> some(F make, int most = 3) {
    std::vector<T> all;
    for (std::int64_t n = between(0, most); n > 0; --n) all.push_back(make());
    return all;
  }
  std::string text();
  double real(double least, double most) {
    return std::uniform_real_distribution<double>(least, most)(random_);
  }
  int count(int least = 1) { return static_cast<int>(between(least, 10'000)); }
  Instant instant();
  std::optional<Instant> maybe_instant() {
    return coin() ? std::optional(instant()) : std::nullopt;
  }
  Celsius celsius() { return {real(-40, 100)}; }
  Percent percent() { return {real(0, 100)}; }
  Instant any_instant();  // "never" and "always" too
  Seconds length() { return Seconds{between(0, kMaxClaim.count())}; }
  Span span() { return {any_instant(), any_instant()}; }
  WeekHours hours();
  GearNeed need();
  GearKind gear(std::uint32_t id);
  PhaseTimes times();
  HeldBy held_by();
  Fact fact();
  Hindrance hindrance() { return {span(), fact()}; }
  Slot slot();
  Unfit unfit();
  std::vector<AirPoint> air();  // instants rising
  Lot lot(std::uint32_t id);
  Pot pot();
  AdhesiveSheet sheet(std::uint32_t id);
  Face face() { return {text(), text()}; }
  Joint joint();
  Recipe recipe(std::uint32_t id, std::uint32_t sheets);

  std::mt19937_64 random_;
};

}  // namespace squeezeout::testing
