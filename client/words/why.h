#pragma once
// Why not earlier, and what else could be done, as a builder would say it.

#include <string>
#include <vector>

#include "client/words/words.h"
#include "common/floor/why.h"

namespace squeezeout::words {

inline constexpr std::size_t kBlockersTold = 3;

// "Not before 14:10: Maeve has 3 of the 3 deep clamps until then (bridge)." What ends last comes first; then how many more.
std::string not_before(const Context& c, const Why& why, std::size_t most = kBlockersTold);
// One of them alone: "Maeve has 3 of the 3 deep clamps until 14:10 (bridge)".
std::string blocker(const Context& c, const Blocker& b);
// "With fish glue: 11:05." "With 4 clamps instead of 6: 11:05." "With Tom's rosette moved 13:00 -> 15:20: 12:40."
std::string alternative(const Context& c, const Alternative& a);
// Whose it is: "Maeve's bridge", "Tomas' rosette".
std::string whose(const Context& c, GlueUpId id);
// One line a link: "15:40 Ida's bridge: Maeve has 3 of the 3 deep clamps until then (linings)."
std::vector<std::string> chain(const Context& c, const std::vector<ChainLink>& links);

}  // namespace squeezeout::words
