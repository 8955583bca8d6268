#include "common/trade/material.h"

#include <gtest/gtest.h>

#include <set>

namespace squeezeout {
namespace {

TEST(Materials, EachIsFoundByItsKeyAndPlausible) {
  std::set<std::string_view> keys, names;
  for (const Material& m : materials()) {
    EXPECT_EQ(*material(m.key), &m);
    EXPECT_TRUE(keys.insert(m.key).second) << m.key << " twice";
    EXPECT_TRUE(names.insert(m.name).second) << m.name << " twice";
    EXPECT_EQ(m.key.find_first_not_of("abcdefghijklmnopqrstuvwxyz-"), std::string_view::npos);
    EXPECT_GE(m.specific_gravity, 0.3) << m.key;
    EXPECT_LE(m.specific_gravity, 2.0) << m.key;
    // Wood moves more along its rings than across them.
    EXPECT_GE(m.movement_tangential, m.movement_radial) << m.key;
    EXPECT_LT(m.movement_tangential, 0.005) << m.key;
    EXPECT_FALSE(m.oily && (m.pale || m.plastic)) << m.key;
  }
  EXPECT_GE(keys.size(), 22U);
}

TEST(Materials, TraitsThatFitnessAsksFor) {
  for (const char* key : {"rosewood", "cocobolo", "ebony", "ziricote"})
    EXPECT_TRUE((*material(key))->oily) << key;
  for (const char* key : {"celluloid-binding", "abs-binding"})
    EXPECT_TRUE((*material(key))->plastic) << key;
  for (const char* key : {"sitka-spruce", "sugar-maple"})
    EXPECT_TRUE((*material(key))->pale) << key;
  EXPECT_FALSE((*material("black-walnut"))->pale);
}

TEST(Materials, UnknownWoodIsRefusedByItsKey) {
  for (const char* key : {"", "unobtainium", "Sitka-Spruce", "sitka-spruce "})
    EXPECT_EQ(material(key).error().key, key);
}

}  // namespace
}  // namespace squeezeout
