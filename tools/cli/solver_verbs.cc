// Gear on paper: how long a go-bar, how many of them, what a screw clamp gives. They ask no server.

#include <fmt/format.h>

#include <array>
#include <optional>
#include <regex>

#include "client/words/craft.h"
#include "common/trade/elastica.h"
#include "common/trade/screw.h"
#include "tools/cli/craft_json.h"
#include "tools/cli/verbs.h"

namespace squeezeout::cli {
namespace {

constexpr double kStiffnessOff = 0.2;  // of a rod, from one to the next

[[noreturn]] void out_of_range(const OutOfRange& why) {
  throw Stop{
      Exit::wrong_use,
      {"No such gear.",
       fmt::format("{} is {:g}; it can be {:.4g} to {:.4g}.", why.what, why.value, why.least,
                   why.most),
       std::string(1, static_cast<char>(std::toupper(static_cast<unsigned char>(*why.mend)))) +
           (why.mend + 1) + "."},
      out_of_range_json(why)};
}

template <class T>
T or_stop(Result<T, OutOfRange> result) {
  if (!result) out_of_range(result.error());
  return std::move(result).value();
}

std::string band_words(const Band& b, const char* unit, int digits) {
  return fmt::format("{:.{}f} {} ({:.{}f} to {:.{}f})", b.value, digits, unit, b.low, digits,
                     b.high, digits);
}
Json band_json(const Band& b) { return {{"low", b.low}, {"value", b.value}, {"high", b.high}}; }

struct Bar {
  std::string section;
  double stiffness = 0, gap = 0;
  std::optional<double> force, length, wanted, strength;
};

Rod section_of(const Bar& bar) {
  static const std::regex kSection(R"((\d+(?:\.\d+)?)x(\d+(?:\.\d+)?))");
  std::smatch part;
  if (!std::regex_match(bar.section, part, kSection))
    wrong_use(fmt::format("\"{}\" is no section.", bar.section), "It is not width x thickness.",
              "Write it in millimetres, as 12x5.");
  return {{}, {std::stod(part[1])}, {std::stod(part[2])}, {bar.stiffness}};
}

// What the rod gives when it is a fifth softer, as said, and a fifth stiffer: it decides the band, nothing else does.
std::array<Rod, 3> as_rods_are(const Rod& rod) {
  std::array<Rod, 3> out{rod, rod, rod};
  out[0].modulus = rod.modulus * (1 - kStiffnessOff);
  out[2].modulus = rod.modulus * (1 + kStiffnessOff);
  return out;
}

// The length that gives the force. Of the softer and the stiffer rod none may give it at all: then the band ends at the value.
Band length_band(const Rod& section, const Bar& bar) {
  const Newton force{*bar.force};
  const auto rods = as_rods_are(section);
  const double value = or_stop(length_for(section, {bar.gap}, force)).value;
  const auto softer = length_for(rods[0], {bar.gap}, force);
  const auto stiffer = length_for(rods[2], {bar.gap}, force);
  return {softer ? softer->value : value, value, stiffer ? stiffer->value : value};
}

void say_go_bar(Tool& tool, const Bar& bar) {
  if (!bar.force && !bar.length)
    wrong_use("Nothing to work out.", "Neither the bar's length nor a force is given.",
              "Say --length 700 for what it gives, or --force 35 for how long it has to be.");
  if (bar.force && bar.length)
    wrong_use("Too much is given.", "Length and force follow from each other.",
              "Leave out --force, or --length.");
  Rod rod = section_of(bar);
  std::string text;
  Json out = Json::object();
  if (bar.force) {
    const Band length = length_band(rod, bar);
    rod.length = {length.value};
    text += fmt::format("length    {}\n", band_words(length, "mm", 0));
    out["length_mm"] = band_json(length);
  } else {
    rod.length = {*bar.length};
  }
  const Sprung it = or_stop(sprung(rod, {bar.gap}));
  const Band force{it.force.value * (1 - kStiffnessOff), it.force.value,
                   it.force.value * (1 + kStiffnessOff)};
  text += fmt::format("force     {}, each, on either deck\n", band_words(force, "N", 1));
  text += fmt::format("bow       {:.0f} mm, ends sloping {:.0f} degrees\n", it.bow.value,
                      it.end_slope_degrees);
  text += fmt::format("bending   {:.0f} MPa{}\n", it.bending.value,
                      bar.strength ? fmt::format(", {:.0f} % of its strength",
                                                 100 * it.bending.value / *bar.strength)
                                   : "; keep well under the wood's strength");
  out.update(Json{{"force_newton", band_json(force)},
                  {"bow_mm", it.bow.value},
                  {"end_slope_degrees", it.end_slope_degrees},
                  {"bending_mpa", it.bending.value}});
  if (bar.wanted) {
    const auto rods = as_rods_are(rod);
    const auto count = [&](const Rod& r) { return or_stop(bars_for({*bar.wanted}, r, {bar.gap})); };
    const Band bars{static_cast<double>(count(rods[2])), static_cast<double>(count(rods[1])),
                    static_cast<double>(count(rods[0]))};
    text += fmt::format("how many  {:.0f} ({:.0f} to {:.0f}) for {:g} N\n", bars.value, bars.low,
                        bars.high, *bar.wanted);
    out["bars"] = band_json(bars);
  }
  text += "Its force hangs on the rod, hardly on the bow: weigh one on a scale.\n";
  text += words::source(FormulaId::go_bar) + "\n";
  out["formula"] = formula_json(FormulaId::go_bar);
  tool.print(text, out);
}

struct ClampArgs {
  std::string thread;
  std::optional<double> torque, force;
};

// The torque for a force, where friction is 0.10, as given, 0.20.
Band torque_band(const Screw& screw, Newton force) {
  Screw slick = screw, dry = screw;
  slick.friction = slick.collar_friction = 0.10;
  dry.friction = dry.collar_friction = 0.20;
  return {or_stop(torque_up(slick, force)).value, or_stop(torque_up(screw, force)).value,
          or_stop(torque_up(dry, force)).value};
}

void say_clamp(Tool& tool, const ClampArgs& args) {
  const auto screw = screw_of(args.thread);
  if (!screw)
    wrong_use(fmt::format("\"{}\" is no thread that is known.", args.thread),
              "It is neither trapezoidal nor metric.", "Write it as Tr12x3, Tr14x6P3, M6 or M8x1.");
  if (args.torque.has_value() == args.force.has_value())
    wrong_use("One of the two.", "Force and torque follow from each other.",
              "Say --torque 6 or --force 2000.");
  std::string text;
  Json out = Json::object();
  if (args.torque) {
    (void)or_stop(force_of(*screw, {*args.torque}));
    const Band force = force_band(*screw, {*args.torque});
    text = fmt::format("force     {}\n", band_words(force, "N", 0));
    out["force_newton"] = band_json(force);
  } else {
    const Band torque = torque_band(*screw, {*args.force});
    text = fmt::format("torque    {}\n", band_words(torque, "N m", 1));
    out["torque_newton_metre"] = band_json(torque);
  }
  const double reaches = efficiency(*screw);
  text += fmt::format("          {:.0f} % of the work on the handle reaches the joint\n",
                      reaches * 100);
  text += words::source(FormulaId::screw_force) + "\n";
  out["efficiency"] = reaches;
  out["formula"] = formula_json(FormulaId::screw_force);
  tool.print(text, out);
}

}  // namespace

void add_solver_verbs(CLI::App& app, Tool& tool) {
  const auto bar = std::make_shared<Bar>();
  CLI::App& rod = add_verb(
      app, tool, "go-bar", "How long a go-bar, how many, and what one gives",
      "squeezeout go-bar --section 12x5 --stiffness 13.5 --gap 665 --length 700 --wanted 300\n  "
      "squeezeout go-bar --section 12x5 --stiffness 13.5 --gap 665 --force 35",
      [bar](Tool& t) { say_go_bar(t, *bar); });
  rod.add_option("--section", bar->section, "Width x thickness in millimetres")
      ->required()
      ->type_name("WxT");
  rod.add_option("--stiffness", bar->stiffness, "Modulus along the grain: ash has about 13.5")
      ->required()
      ->type_name("GPA");
  rod.add_option("--gap", bar->gap, "Between the decks, less the work")
      ->required()
      ->type_name("MM");
  rod.add_option("--force", bar->force, "How long for this force of one")->type_name("N");
  rod.add_option("--length", bar->length, "What one of this length gives")->type_name("MM");
  rod.add_option("--wanted", bar->wanted, "How many for this force together")->type_name("N");
  rod.add_option("--strength", bar->strength, "Bending strength, to hold the stress against")
      ->type_name("MPA")
      ->check(CLI::PositiveNumber);

  const auto args = std::make_shared<ClampArgs>();
  CLI::App& clamp = add_verb(app, tool, "clamp", "What force a screw clamp gives, or what it takes",
                             "squeezeout clamp --thread Tr12x3 --torque 6",
                             [args](Tool& t) { say_clamp(t, *args); });
  clamp.add_option("--thread", args->thread, "As Tr12x3, M8")->required()->type_name("THREAD");
  clamp.add_option("--torque", args->torque, "By hand, on the handle")->type_name("NM");
  clamp.add_option("--force", args->force, "What torque this force takes")->type_name("N");
}

}  // namespace squeezeout::cli
