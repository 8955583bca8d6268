#include "tools/cli/tool.h"

#include <fmt/format.h>

#include <cstdio>

namespace squeezeout::cli {
namespace {

void print_line(std::FILE* to, const std::string& line) { fmt::print(to, "{}\n", line); }

std::string told_text(const words::Told& told) {
  std::string out;
  for (const std::string* part : {&told.what, &told.why, &told.next})
    if (!part->empty()) out += (out.empty() ? "" : " ") + *part;
  return out;
}

// The floor would take it if the builder says so knowingly.
bool can_be_overridden(const Body& asked, const Refusal& r) {
  return std::holds_alternative<TooEarly>(r) ||
         (std::holds_alternative<Start>(asked) && std::holds_alternative<DoesNotFit>(r));
}

// What was put on record without a reply naming it: its kind and number.
struct Made {
  const char* what = "";
  std::uint32_t number = 0;
};
std::optional<Made> made(const Floor& f, const Body& asked) {
  std::optional<Made> out;
  if (const auto* mix = std::get_if<MixPot>(&asked)) {
    for (const auto& [id, pot] : f.pots)
      if (pot.sheet == mix->sheet && pot.bench == mix->bench) out = {"pot", id.value};
  }
  if (const auto* put = std::get_if<PutLot>(&asked); put && !put->lot.id) {
    for (const auto& [id, lot] : f.lots)
      if (lot.sheet == put->lot.sheet && lot.label == put->lot.label) out = {"lot", id.value};
  }
  return out;
}

}  // namespace

Session& Tool::session() {
  if (!session_) {
    const auto address = parse_address(server);
    if (!address)
      wrong_use(fmt::format("\"{}\" is no address.", server), "It is not HOST:PORT.",
                "Say --server 127.0.0.1:7733.");
    const auto wait = std::chrono::milliseconds{static_cast<long>(wait_seconds * 1000)};
    session_ = std::make_unique<Session>(*address, wait);
  }
  return *session_;
}

void Tool::print(const std::string& text, const Json& for_scripts) const {
  if (json)
    print_line(stdout, for_scripts.dump());
  else
    fmt::print("{}", text);
}

void Tool::note(const std::string& text) const {
  if (!json) fmt::print("{}", text);
}

void Tool::ask(Body body) {
  const Reply reply = session().ask(std::move(body));
  const words::Context c = session().context();
  if (reply.how == Reply::How::refused) {
    words::Told told = words::refusal(c, reply.asked, *reply.refusal);
    if (can_be_overridden(reply.asked, *reply.refusal)) told.next += " Anyway is --anyway.";
    throw Stop{Exit::refused, std::move(told), refusal_json(c, *reply.refusal)};
  }
  const std::string said = words::done(c, reply.asked, reply.glue_up);
  Json out{{"done", true}, {"said", said}};
  std::string named;
  const GlueUp* g = c.floor.glue_up(reply.glue_up);
  if (g) out.update(glue_up_json(c, *g));
  if (g && std::holds_alternative<Reserve>(reply.asked))
    named = fmt::format("Glue-up {}, {}. ", g->id.value, words::title(c, *g));
  if (const auto thing = made(c.floor, reply.asked)) {
    out[thing->what] = thing->number;
    named = fmt::format("{} {}. ", thing->what == std::string_view{"pot"} ? "Pot" : "Bottle",
                        thing->number);
  }
  print(named + said + "\n", out);
}

void Tool::print(const Stop& stop) const {
  if (!json) return print_line(stderr, told_text(stop.told));
  Json out = told_json(stop.told);
  out["done"] = false;
  out["exit"] = static_cast<int>(stop.code);
  if (!stop.facts.is_null()) out["refusal"] = stop.facts;
  print_line(stdout, out.dump());
}

}  // namespace squeezeout::cli
