#pragma once
// POST /climate: a sensor's reading as JSON, and what is said to it. Knows no socket.
//   Shape    {"celsius": 19.5, "humidity_percent": 48, "at": "2026-11-26T14:12:00+01:00"}; without `at` it is read `now`.
//            Members that we do not know are passed over
//   Refuses  what is no such thing: 400, 415. What the floor then refuses (an air that cannot be, an instant too far back): 400
//   Source   RFC 8259 (JSON), RFC 3339, RFC 9110 (status codes)

#include <string>
#include <string_view>

#include "proto/codec.h"

namespace squeezeout {

struct Said {
  unsigned status = 0;
  std::string text;  // what, why, what next: one line for a log; empty with 204
};

[[nodiscard]] Result<ReadClimate, Said> climate_of(std::string_view content_type,
                                                   std::string_view json, Instant now);
// Of the floor's answer, or of the error that came instead.
[[nodiscard]] Said climate_said(const ServerFrame& answer);

}  // namespace squeezeout
