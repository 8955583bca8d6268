#pragma once
// What several sentences say alike. Of this folder alone.

#include <string>
#include <vector>

#include "client/words/words.h"

namespace squeezeout::words {

[[nodiscard]] std::string capital(
    std::string text);  // "Closed till 8:00."; other than a to z stays
// "deep clamps", "deep clamps or bar clamps", "a, b and c".
enum class Last { with_and, with_or };
[[nodiscard]] std::string listed(const std::vector<std::string>& items, Last last);
[[nodiscard]] std::string added(const std::string& list, const std::string& item);  // "a, b"
[[nodiscard]] std::string glue_of(const Context& c,
                                  SheetId id);  // "hide glue"; no such: "the glue"
[[nodiscard]] std::string titled(const Context& c,
                                 GlueUpId id);                   // as title(); no such: "glue-up 7"
[[nodiscard]] std::string owner(const Context& c, GlueUpId id);  // "Ida"; no such: "somebody"
[[nodiscard]] std::string of_owner(const std::string& name);     // "Ida's", "Tomas'"

[[nodiscard]] std::string no_such(Thing t, std::uint32_t id);  // "There is no recipe 7 here."
[[nodiscard]] std::string too_many(Thing t,
                                   int most);      // "The floor holds at most 500 of its pots."
[[nodiscard]] std::string too_many_next(Thing t);  // "Finish or cancel some first."

}  // namespace squeezeout::words
