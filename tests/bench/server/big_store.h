#pragma once
// A store as a busy shop has it after years: 100,000 revisions, 100,000 claims on record.

#include <filesystem>

namespace squeezeout::bench {

inline constexpr int kGlueUps =
    25'000;  // each: reserved, started, clamps on, clamps off; four kinds of gear

enum class SnapshotOnDisk { none, at_the_end };
void make_big_store(const std::filesystem::path& data, SnapshotOnDisk snapshot);

}  // namespace squeezeout::bench
