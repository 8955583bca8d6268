#pragma once
// What an alarm says: what is wrong, and what to do about it.

#include <string>

#include "client/alarm/alarm.h"
#include "client/words/words.h"

namespace squeezeout::alarm {

struct Line {
  std::string what;  // "No. 14 · bridge: clamps on by 14:14, 48 s left."
  std::string next;  // "Put the clamps on now."
};
[[nodiscard]] Line line_of(const words::Context& c, const Alarm& a);
// Of the most urgent, and how many more there are; one line for all when there are too many. Empty: nothing alarms.
[[nodiscard]] Line line_of(const words::Context& c, const Told& told);

}  // namespace squeezeout::alarm
