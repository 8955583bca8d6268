#pragma once
// Identifiers. Each thing of the floor has its own type, so that a bench never stands for a builder.
//   Shape   a number given by the floor's own state, counted from 1; 0 is "none" and never names a thing
//   Keys    the shop file names things by text keys ("deep-clamp"); the floor gives each key one number for good

#include <array>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <functional>

namespace squeezeout {

template <class Tag>
struct Id {
  std::uint32_t value = 0;
  constexpr explicit operator bool() const { return value != 0; }
  friend constexpr auto operator<=>(Id, Id) = default;
};

using BenchId = Id<struct BenchTag>;
using BuilderId = Id<struct BuilderTag>;
using GearKindId = Id<struct GearKindTag>;
using SheetId = Id<struct SheetTag>;
using RecipeId = Id<struct RecipeTag>;
using BuildId = Id<struct BuildTag>;
using GlueUpId = Id<struct GlueUpTag>;
using OutageId = Id<struct OutageTag>;
using LotId = Id<struct LotTag>;
using PotId = Id<struct PotTag>;
using PlanId = Id<struct PlanTag>;

// 128 random bits, made by whoever sends (a client, a timer): one id, one answer, for ever.
template <class Tag>
struct Id128 {
  std::array<std::uint8_t, 16> bytes{};
  friend constexpr auto operator<=>(const Id128&, const Id128&) = default;
};
using CommandId = Id128<struct CommandTag>;
using DeviceId = Id128<struct DeviceTag>;

}  // namespace squeezeout

template <class Tag>
struct std::hash<squeezeout::Id<Tag>> {
  std::size_t operator()(squeezeout::Id<Tag> id) const noexcept {
    return std::hash<std::uint32_t>{}(id.value);
  }
};
template <class Tag>
struct std::hash<squeezeout::Id128<Tag>> {
  std::size_t operator()(const squeezeout::Id128<Tag>& id) const noexcept {
    std::size_t h = 1469598103934665603ULL;  // FNV-1a; the ids are random already
    for (auto b : id.bytes) h = (h ^ b) * 1099511628211ULL;
    return h;
  }
};
