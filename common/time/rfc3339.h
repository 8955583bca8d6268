#pragma once
// Times as text on the wire, in files and on the command line.
//   Source   RFC 3339, section 5.6 (date-time); fractions of a second are accepted and dropped, leap second 60 is refused

#include <optional>
#include <string>
#include <string_view>

#include "common/time/span.h"
#include "common/time/zone.h"

namespace squeezeout {

[[nodiscard]] std::string rfc3339(Instant t);                    // 2026-11-26T13:12:00Z
[[nodiscard]] std::string rfc3339(Instant t, const Zone& zone);  // 2026-11-26T14:12:00+01:00
[[nodiscard]] std::optional<Instant> parse_rfc3339(std::string_view text);

}  // namespace squeezeout
