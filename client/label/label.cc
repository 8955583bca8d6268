#include "client/label/label.h"

#include "client/words/say.h"

namespace squeezeout::label {
namespace {

using words::say;
using words::tr;

// Why there is none; empty: there is.
std::string refused(const GlueUp& g) {
  switch (g.progress) {
    case Progress::reserved:
    case Progress::open:
    case Progress::clamped:
      return "";
    case Progress::waiting:
      return tr("Its clamps are off already.");
    case Progress::displaced:
      return tr("It lost its place and has no time yet.");
    case Progress::done:
    case Progress::spoiled:
    case Progress::cancelled:
      return tr("It is over.");
  }
  CHECK(!"a progress outside the enumeration");
}

// "Fri 4 Dec 9:30" -> "Fri", "4 Dec": the days that a time is told with, when it is not today.
std::vector<std::string> day_of(const words::Context& c, Instant t) {
  const std::string whole = words::clock(c, t), time = words::clock_only(c, t);
  if (whole.size() <= time.size()) return {};
  const std::string day = whole.substr(0, whole.size() - time.size() - 1);
  const std::size_t space = day.find(' ');
  if (space == std::string::npos) return {day};
  return {day.substr(0, space), day.substr(space + 1)};
}

}  // namespace

Result<Label, words::Told> label_of(const Floor& floor, GlueUpId glue_up, Instant now) {
  const GlueUp* g = floor.glue_up(glue_up);
  if (g == nullptr)
    return Unexpected(
        words::Told{tr("No label."), say("There is no glue-up {}.", glue_up.value), ""});
  if (std::string why = refused(*g); !why.empty())
    return Unexpected(words::Told{tr("No label."), std::move(why), ""});
  if (g->times.release_begin == kNever)
    return Unexpected(words::Told{tr("No label."), tr("Its clamps have no time to come off."), ""});
  const words::Context c{floor, now};
  Label out;
  out.beside = {tr("OFF")};
  if (g->progress != Progress::clamped) out.beside.push_back(tr("about"));
  for (std::string& word : day_of(c, g->times.release_begin)) out.beside.push_back(std::move(word));
  const std::string time = words::clock_only(c, g->times.release_begin);
  const std::size_t space = time.find(' ');
  out.time = time.substr(0, space);
  if (space != std::string::npos) out.after = time.substr(space + 1);
  out.name = words::title(c, *g);
  out.glue = words::glue(c, *g);
  out.builder = words::builder(c, g->builder);
  return out;
}

std::string to_write(const Label& label) {
  std::string out;
  for (const std::string& word : label.beside) out += word + " ";
  out += label.time;
  if (!label.after.empty()) out += " " + label.after;
  return out + " · " + label.name + " · " + label.glue;
}

}  // namespace squeezeout::label
