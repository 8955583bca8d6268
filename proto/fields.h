#pragma once
// Fields of a message from outside, read and checked one by one.
//   Shape    a mistake does not stop the reading: a default stands in for the wrong value and the mistake is kept under the
//            path of its field ("command.reserve.step"), counted from 0. Whoever reads looks at the mistakes before he uses
//            the value.
//   Limits   those of codec.h

#include <algorithm>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "proto/codec.h"

namespace squeezeout {

inline constexpr int kMaxCodePoints = 200;
inline constexpr int kMaxCount = 10'000;
inline constexpr int kMaxRepeated = 256;
inline constexpr int kMaxStep = 255;
inline constexpr std::size_t kMaxMistakes = 100;
inline constexpr Celsius kColdest{-40}, kHottest{100};
inline constexpr std::int64_t kLastInstant = 253'402'300'799;  // 9999-12-31T23:59:59Z

struct FieldMistake {
  std::string field, what, mend;
  ErrorCode code = ErrorCode::malformed;
};

// Where the reading is: a field within a message within ... the frame. Holds its parent by reference, so it is made on the
// way down and never kept.
class At {
 public:
  At(std::vector<FieldMistake>& mistakes, std::string_view root)
      : mistakes_(&mistakes), field_(root) {}

  At operator()(std::string_view field, int index = -1) const& { return At(*this, field, index); }
  At operator()(std::string_view field, int index = -1) const&& = delete;

  void wrong(std::string what, std::string mend, ErrorCode code = ErrorCode::malformed) const;
  // As many mistakes are kept as a person would read; more need not be worked out.
  bool enough() const { return mistakes_->size() >= kMaxMistakes; }
  bool any() const { return !mistakes_->empty(); }  // a mistake was found so far, here or before
  std::string path() const;

 private:
  At(const At& parent, std::string_view field, int index)
      : mistakes_(parent.mistakes_), parent_(&parent), field_(field), index_(index) {}

  std::vector<FieldMistake>* mistakes_;
  const At* parent_ = nullptr;
  std::string_view field_;
  int index_ = -1;
};

[[nodiscard]] int number(const At& at, std::int64_t v, int least, int most);
[[nodiscard]] double measure(const At& at, double v, double least, double most);
[[nodiscard]] std::string text(const At& at, const std::string& v);
[[nodiscard]] Instant instant(const At& at, std::int64_t v);
[[nodiscard]] Seconds length(const At& at, std::int64_t v);  // 0 to kMaxClaim
[[nodiscard]] Seconds minutes(const At& at, double v);       // 0 to kMaxClaim, to the second
[[nodiscard]] bool few_enough(const At& at, int size, int most = kMaxRepeated);

// An enum that travels as 1 + its number.
template <class E>
[[nodiscard]] E one_of(const At& at, std::int64_t v, int choices) {
  if (1 <= v && v <= choices) return static_cast<E>(v - 1);
  at.wrong("is " + std::to_string(v), "use 1 to " + std::to_string(choices), ErrorCode::unknown);
  return E{};
}

template <class Tag>
[[nodiscard]] Id128<Tag> id128(const At& at, std::string_view v) {
  Id128<Tag> id;
  if (v.size() == id.bytes.size())
    std::copy(v.begin(), v.end(), id.bytes.begin());
  else
    at.wrong("has " + std::to_string(v.size()) + " bytes", "use 16");
  return id;
}

// "use one of: deck, dish, mould": the nearest of the choices to what was written comes first.
[[nodiscard]] std::string use_one_of(std::string_view written, std::vector<std::string> choices);

}  // namespace squeezeout
