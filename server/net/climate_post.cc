#include "server/net/climate_post.h"

#include <algorithm>
#include <cctype>
#include <nlohmann/json.hpp>

#include "common/time/rfc3339.h"

namespace squeezeout {
namespace {

using Json = nlohmann::json;

constexpr const char* kExample = R"(send {"celsius": 19.5, "humidity_percent": 48})";

Said no(unsigned status, const std::string& why, const std::string& next) {
  return {status, "the reading was not taken: " + why + "; " + next + "\n"};
}
Unexpected<Said> bad(const std::string& why) { return Unexpected{no(400, why, kExample)}; }

// "application/json", whatever parameters follow.
bool is_json(std::string_view type) {
  type = type.substr(0, type.find(';'));
  while (!type.empty() && type.back() == ' ') type.remove_suffix(1);
  constexpr std::string_view kJson = "application/json";
  return std::equal(type.begin(), type.end(), kJson.begin(), kJson.end(), [](char a, char b) {
    return std::tolower(static_cast<unsigned char>(a)) == b;
  });
}

std::string number(double v) { return Json(v).dump(); }
std::string between(const std::string& given, const std::string& least, const std::string& most) {
  return given + " lies outside " + least + " to " + most;
}

std::string not_between(const BadAir& air) {
  switch (air.what) {
    case BadAir::What::celsius:
      return "celsius: " + between(number(air.given), number(air.least), number(air.most));
    case BadAir::What::humidity:
      return "humidity_percent: " + between(number(air.given), number(air.least), number(air.most));
    case BadAir::What::instant:
      return "at: " + between(rfc3339(air.at), rfc3339(air.from), rfc3339(air.to));
  }
  CHECK(!"bad air outside the enumeration");
}

Said refused(const Refusal& r) {
  if (const auto* air = std::get_if<BadAir>(&r)) return no(400, not_between(*air), kExample);
  if (const auto* none = std::get_if<NoSuch>(&r); none && none->what == Thing::shop)
    return no(409, "the server holds no shop", "load a shop file, then send it again");
  return no(409, "the floor refuses it", "look at the clocks of the server and of the sensor");
}

}  // namespace

Result<ReadClimate, Said> climate_of(std::string_view content_type, std::string_view text,
                                     Instant now) {
  if (!is_json(content_type))
    return Unexpected{no(415, "its Content-Type is not JSON", "send it as application/json")};
  const Json json = Json::parse(text, nullptr, false);
  if (json.is_discarded() || !json.is_object()) return bad("the body is not a JSON object");
  AirPoint point{now, {}, {}};
  const auto celsius = json.find("celsius"), humidity = json.find("humidity_percent");
  if (celsius == json.end() || !celsius->is_number()) return bad("celsius is no number");
  if (humidity == json.end() || !humidity->is_number()) return bad("humidity_percent is no number");
  point.air = {celsius->get<double>()};
  point.humidity = {humidity->get<double>()};
  if (const auto at = json.find("at"); at != json.end()) {
    const auto time = at->is_string() ? parse_rfc3339(at->get<std::string>()) : std::nullopt;
    if (!time) return bad("at is no time of RFC 3339, such as \"2026-11-26T14:12:00+01:00\"");
    point.at = *time;
  }
  return ReadClimate{{point}};
}

Said climate_said(const ServerFrame& frame) {
  if (const auto* answer = std::get_if<Answer>(&frame))
    return answer->refusal ? refused(*answer->refusal) : Said{204, ""};
  const auto* error = std::get_if<Error>(&frame);
  return {503, "the reading was not taken: " + (error ? error->text : "the answer is none") + "\n"};
}

}  // namespace squeezeout
