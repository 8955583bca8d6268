#pragma once
// The craft in words: figures with their band and what limits them, where each comes from, which glue suits and why, cautions.
//   Rules    a figure is never without its band, where it has one; a recalled or practised figure is never called published;
//            every value of every enumeration has its words

#include <string>

#include "client/words/words.h"
#include "common/craft/answer.h"

namespace squeezeout::words {

[[nodiscard]] std::string figure_name(FigureOf of);  // "time to get the clamps on"
// "14 deep clamps (9 to 25), set by an even line; the recipe says 12"
[[nodiscard]] std::string figure(const Context& c, const Figure& f);
// "Equilibrium moisture of wood: USDA Wood Handbook, ..., published; about 1 % moisture between species"
//   With inputs that are not published: "...; a quarter between boards; with densities (from memory) in it"
[[nodiscard]] std::string figure_source(const Figure& f);
[[nodiscard]] std::string input(const Input& in);  // "densities (from memory)"
[[nodiscard]] std::string source(FormulaId id);

[[nodiscard]] std::string rule(Rule r);        // "its water would bow the neck"
[[nodiscard]] std::string verdict(Verdict v);  // "does not suit"
// The reason that says most for the verdict; none: an empty answer.
[[nodiscard]] std::string worst_reason(const Fitness& f);
[[nodiscard]] std::string fitness_line(const Context& c, const Fitness& f);  // one line, as above
[[nodiscard]] std::string caution(const Context& c, Caution caution);
[[nodiscard]] std::string lot_age(LotAge age);  // "fresh", "old: try it on scrap first", ...

// "usually 7 min, n 12; 1 in 5 takes longer than the glue stays open"; with few glue-ups the recipe's time, and n.
[[nodiscard]] std::string learned(const AssemblyPlan& plan, const OverrunChance& chance);
[[nodiscard]] std::string left_out(const OutOfRange& why);
[[nodiscard]] std::string left_out(const UnknownMaterial& why);
// A figure that nobody has published for this wood.
[[nodiscard]] std::string unpublished(FigureOf of);

}  // namespace squeezeout::words
