#pragma once
// Pictures, dumps and replays with no display. Each returns the program's exit code; what went wrong is told in words.

#include "client/device.h"

namespace squeezeout {

[[nodiscard]] int run_shot(const Options& options, Device& device);
[[nodiscard]] int run_shots(const Options& options,
                            Device& device);  // every screen, theme and size
[[nodiscard]] int run_dump(const Options& options, Device& device);
[[nodiscard]] int run_replay(const Options& options, Device& device);

}  // namespace squeezeout
