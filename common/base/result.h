#pragma once
// Result<T, E>: a value, or the domain's honest no.
//   Names are a subset of std::expected's (which g++ 12 lacks). E is a struct of facts, never words.

#include <utility>
#include <variant>

#include "common/base/check.h"

namespace squeezeout {

template <class E>
class Unexpected {
 public:
  explicit Unexpected(E error) : error_(std::move(error)) {}
  const E& error() const& { return error_; }
  E&& error() && { return std::move(error_); }

 private:
  E error_;
};

template <class T, class E>
class [[nodiscard]] Result {
 public:
  using value_type = T;
  using error_type = E;

  Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}
  template <class G>
  Result(Unexpected<G> no) : state_(std::in_place_index<1>, std::move(no).error()) {}

  bool has_value() const { return state_.index() == 0; }
  explicit operator bool() const { return has_value(); }

  const T& value() const& {
    CHECK(has_value());
    return *std::get_if<0>(&state_);
  }
  T& value() & {
    CHECK(has_value());
    return *std::get_if<0>(&state_);
  }
  T&& value() && {
    CHECK(has_value());
    return std::move(*std::get_if<0>(&state_));
  }
  const T& operator*() const& { return value(); }
  T& operator*() & { return value(); }
  T&& operator*() && { return std::move(*this).value(); }
  const T* operator->() const { return &value(); }
  T* operator->() { return &value(); }

  const E& error() const& {
    CHECK(!has_value());
    return *std::get_if<1>(&state_);
  }
  E&& error() && {
    CHECK(!has_value());
    return std::move(*std::get_if<1>(&state_));
  }

 private:
  std::variant<T, E> state_;
};

}  // namespace squeezeout
