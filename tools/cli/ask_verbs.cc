// A question about a glue-up that is not reserved yet: when at the earliest. It changes nothing.

#include <fmt/format.h>

#include "common/floor/ask.h"
#include "tools/cli/times.h"
#include "tools/cli/verbs.h"
#include "tools/cli/wanted.h"

namespace squeezeout::cli {
namespace {

constexpr std::size_t kAlternatives = 3;

[[noreturn]] void refuse(const words::Context& c, const Reserve& wanted, const Refusal& r) {
  words::Told told = words::refusal(c, wanted, r);
  told.what = wanted.start ? "Not at " + words::clock(c, *wanted.start) + "." : "Not to be had.";
  throw Stop{Exit::refused, told, refusal_json(c, r)};
}

struct Alternative {
  std::string says;  // "with fish glue"
  Quote quote;
};

void add_alternative(std::vector<Alternative>& to, const words::Context& c, const Reserve& wanted,
                     std::string says) {
  if (auto quote = earliest(c.floor, wanted, c.now))
    to.push_back({std::move(says), std::move(*quote)});
}

Instant next_midnight(const words::Context& c, Instant after) {
  return c.floor.zone->day(c.floor.zone->date(after)).end;
}

// Other ways that are really there, each computed: another glue of the recipe, another builder who is free sooner, after
// hours, another day. The soonest first, at most three.
std::vector<Alternative> alternatives(const words::Context& c, const Reserve& wanted,
                                      const Quote& first) {
  std::vector<Alternative> sooner, others;
  for (SheetId glue : c.floor.recipe(wanted.recipe)->glues) {
    if (glue == first.sheet) continue;
    Reserve other = wanted;
    other.sheet = glue;
    add_alternative(others, c, other, "with " + words::small(c.floor.sheet(glue)->name));
  }
  for (const Builder& b : c.floor.shop->builders) {
    if (b.id == wanted.builder) continue;
    Reserve other = wanted;
    other.builder = b.id;
    other.bench = {};
    add_alternative(sooner, c, other, "by " + b.name);
  }
  if (wanted.hours == Override::no) {
    Reserve other = wanted;
    other.hours = Override::knowingly;
    add_alternative(sooner, c, other, "outside hours (--anyway)");
  }
  const Instant start = first.slot.times.stage_begin;
  std::erase_if(sooner,
                [&](const Alternative& a) { return a.quote.slot.times.stage_begin >= start; });
  Reserve another_day = wanted;
  another_day.start.reset();
  another_day.after = next_midnight(c, start);
  add_alternative(others, c, another_day, "another day");

  const auto by_start = [](const Alternative& a, const Alternative& b) {
    return a.quote.slot.times.stage_begin < b.quote.slot.times.stage_begin;
  };
  std::stable_sort(sooner.begin(), sooner.end(), by_start);
  std::stable_sort(others.begin(), others.end(), by_start);
  if (sooner.size() > 1) sooner.resize(1);
  for (Alternative& other : others) sooner.push_back(std::move(other));
  if (sooner.size() > kAlternatives) sooner.resize(kAlternatives);
  return sooner;
}

std::string what(const words::Context& c, const Reserve& wanted, const Quote& q) {
  std::string out = words::recipe(c, wanted.recipe);
  if (wanted.build) out = c.floor.build(wanted.build)->name + " · " + out;
  if (q.sheet) out += ", " + words::small(c.floor.sheet(q.sheet)->name);
  return out + ", " + words::builder(c, wanted.builder);
}

std::string cautions(const words::Context& c, const Reserve& wanted, const Quote& q) {
  std::string out;
  const AdhesiveSheet* sheet = c.floor.sheet(q.sheet);
  if (sheet && !sheet->caution.empty()) out += "caution   " + sheet->caution + "\n";
  const Recipe* recipe = c.floor.recipe(wanted.recipe);
  if (recipe && !recipe->caution.empty()) out += "caution   " + recipe->caution + "\n";
  return out;
}

void say_earliest(Tool& tool, const Wanted& args) {
  const Session& session = tool.session();
  const Reserve wanted = read_wanted(session, args);
  const words::Context c = session.context();
  const auto quote = earliest(c.floor, wanted, c.now);
  if (!quote) refuse(c, wanted, quote.error());
  const std::vector<Alternative> others = alternatives(c, wanted, *quote);

  const PhaseTimes& t = quote->slot.times;
  std::string text = what(c, wanted, *quote) + "\n";
  text += fmt::format("EARLIEST  {}\n", words::clock(c, t.stage_begin));
  text += fmt::format("off about {}, clamped {}\n", words::clock(c, t.release_begin),
                      words::length(quote->demand.dwell));
  if (t.ready_at > t.release_end)
    text += fmt::format("ready     {}\n", words::clock(c, t.ready_at));
  text += fmt::format("gear      {}\n", words::gear(c, quote->slot.held));
  text += cautions(c, wanted, *quote);
  if (quote->waited_for_gear > Seconds{0})
    text += fmt::format("gear makes it wait {}; squeezeout why says who has it\n",
                        words::length(quote->waited_for_gear));
  Json list = Json::array();
  for (const Alternative& a : others) {
    const PhaseTimes& other = a.quote.slot.times;
    text += fmt::format("or        {}: {}, off about {}\n", a.says,
                        words::clock(c, other.stage_begin), words::clock(c, other.release_begin));
    Json one = quote_json(c, a.quote);
    one["says"] = a.says;
    list.push_back(std::move(one));
  }
  Json out = quote_json(c, *quote);
  out["alternatives"] = std::move(list);
  tool.print(text, out);
}

}  // namespace

void add_ask_verbs(CLI::App& app, Tool& tool) {
  const auto asked = std::make_shared<Wanted>();
  CLI::App& earliest_verb = add_verb(
      app, tool, "earliest", "When a glue-up could be, with what gear, and what else could be done",
      "squeezeout earliest bridge --builder ida", [asked](Tool& t) { say_earliest(t, *asked); });
  add_wanted(earliest_verb, *asked);
}

}  // namespace squeezeout::cli
