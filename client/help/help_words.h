#pragma once
// What each screen is for, and what its marks mean.

#include <string>
#include <vector>

#include "client/look/intent.h"

namespace squeezeout::help {

[[nodiscard]] std::string name_of(Screen screen);
// Sentences, what is done here most first.
[[nodiscard]] std::vector<std::string> purpose(Screen screen);
// Whether the phases of glue-ups are drawn on it.
enum class Draws { words, phases };
[[nodiscard]] Draws draws(Screen screen);
// What else is drawn on it, each as one sentence.
[[nodiscard]] std::vector<std::string> marks(Screen screen);

}  // namespace squeezeout::help
