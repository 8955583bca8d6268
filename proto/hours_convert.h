#pragma once
// Opening hours of shop.proto ("mon-fri" from "08:00" to "17:30", dates with their own hours) to WeekHours and back.
//   Refuses  unknown days, times that are none, a span that ends before it begins or overlaps another of its day, dates that
//            are none or come twice

#include "common/time/hours.h"
#include "proto/fields.h"

namespace google::protobuf {
template <class T>
class RepeatedPtrField;
}
namespace squeezeout::v1 {
class DayException;
class OpenHours;
}  // namespace squeezeout::v1

namespace squeezeout {

using OpenHoursList = google::protobuf::RepeatedPtrField<v1::OpenHours>;
using ExceptionList = google::protobuf::RepeatedPtrField<v1::DayException>;

[[nodiscard]] OpenHoursList weekdays_to_wire(const WeekHours& hours);
[[nodiscard]] ExceptionList exceptions_to_wire(const WeekHours& hours);
// `at` is the message that holds the fields `hours` and `exception`.
[[nodiscard]] WeekHours from_wire(const At& at, const OpenHoursList& hours,
                                  const ExceptionList& exceptions);

[[nodiscard]] std::string time_text(int minute);  // "08:00"
// Minutes after midnight; nullopt with a mistake. `last`: up to "24:00", or "23:59".
[[nodiscard]] std::optional<int> time_of_day(const At& at, const std::string& text,
                                             int last = 24 * 60);
[[nodiscard]] std::string date_text(Date date);  // "2026-12-24"
// A day of the calendar, year 1970 to 9999.
[[nodiscard]] std::optional<Date> parse_date(std::string_view text);

}  // namespace squeezeout
