// Which glue suits, what can hurt, and what has been learned.

#include "client/words/craft.h"

#include <algorithm>
#include <cmath>

#include "client/words/parts.h"
#include "client/words/say.h"
#include "common/base/check.h"
#include "common/trade/bend.h"

namespace squeezeout::words {
namespace {

// What is true of every glue that is in the recipe, or of none: the other reasons say more.
bool says_little(Rule r) {
  return r == Rule::usual || r == Rule::in_recipe || r == Rule::not_in_recipe;
}

// "1 in 5", "7 in 10".
std::string one_in(double chance) {
  if (chance < 0.4) return say("1 in {:.0f}", 1 / chance);
  return say("{:.0f} in 10", std::min(9.0, std::round(chance * 10)));
}

}  // namespace

std::string rule(Rule r) {
  switch (r) {
    case Rule::usual:
      return tr("the usual glue here");
    case Rule::in_recipe:
      return tr("in the recipe");
    case Rule::holds_oily:
      return tr("holds oily wood");
    case Rule::no_water:
      return tr("no water beside the neck");
    case Rule::for_plastic:
      return tr("made for plastic");
    case Rule::comes_apart:
      return tr("comes apart again");
    case Rule::not_in_recipe:
      return tr("not in the recipe");
    case Rule::oily_wood:
      return tr("oily wood wants epoxy, or a solvent wipe just before");
    case Rule::not_for_plastic:
      return tr("plastic to wood wants solvent cement");
    case Rule::cement_on_wood:
      return tr("cement melts plastic, it does not hold wood");
    case Rule::stains_pale:
      return tr("stains pale wood");
    case Rule::water_beside_neck:
      return tr("its water would bow the neck");
    case Rule::softens_when_hot:
      return tr("softens in a hot car");
    case Rule::gap_too_wide:
      return tr("the gap is too wide, only epoxy fills");
    case Rule::not_reversible:
      return tr("does not come apart again");
    case Rule::wants_practice:
      return tr("wants warm parts and a dry run");
    case Rule::below_floor:
      return tr("the wood is too cold for it");
    case Rule::skins_first:
      return tr("skins before your clamps are on");
    case Rule::may_skin:
      return tr("may skin before your clamps are on");
    case Rule::stale_lot:
      return tr("its bottle is stale");
    case Rule::old_lot:
      return tr("its bottle is old");
    case Rule::banned_solvent:
      return tr("its solvent is not allowed");
    case Rule::sensitises:
      return tr("can make skin and lungs allergic");
  }
  CHECK(!"a rule outside the enumeration");
}

std::string verdict(Verdict v) {
  switch (v) {
    case Verdict::fits:
      return tr("fits");
    case Verdict::warn:
      return tr("fits with care");
    case Verdict::unfit:
      return tr("does not suit");
    case Verdict::blocked:
      return tr("cannot be used");
  }
  CHECK(!"a verdict outside the enumeration");
}

std::string worst_reason(const Fitness& f) {
  const Reason* best = nullptr;
  for (const Reason& r : f.reasons) {
    if (r.verdict != f.verdict) continue;
    if (!best || (says_little(best->rule) && !says_little(r.rule))) best = &r;
  }
  return best ? rule(best->rule) : "";
}

std::string fitness_line(const Context& c, const Fitness& f) {
  const AdhesiveSheet* sheet = c.floor.sheet(f.sheet);
  const std::string name = sheet ? sheet->name : say("Glue {}", f.sheet.value);
  const std::string why = worst_reason(f);
  return name + ": " + (why.empty() ? verdict(f.verdict) : added(verdict(f.verdict), why));
}

std::string caution(const Context& c, Caution caution) {
  switch (caution) {
    case Caution::solvent_vapour:
      return tr("Solvent vapour: fresh air, gloves, no flame.");
    case Caution::fire:
      return tr("It burns: no flame or spark near it.");
    case Caution::beside_hot_form:
      return tr("Never open solvent beside a hot form.");
    case Caution::hot_form:
      return say("The form burns skin from {}, safe to touch at {}.", degrees_whole(c, kHotToTouch),
                 degrees_whole(c, kSafeToTouch));
    case Caution::sensitises_skin:
      return tr("Can make skin allergic: gloves, and no bare hands on squeeze-out.");
    case Caution::no_sanding_uncured:
      return tr("No sanding before it has cured right through.");
    case Caution::isocyanates:
      return tr("Isocyanates: fresh air, gloves, eyes covered.");
    case Caution::bonds_skin:
      return tr("Bonds skin in seconds: keep fingers and eyes away.");
    case Caution::oily_wipe:
      return tr("Oily wood: wipe with solvent just before gluing.");
    case Caution::bracing_too_dry:
      return tr("The air is dry for bracing, and the plate remembers it.");
    case Caution::bracing_too_damp:
      return tr("The air is damp for bracing, and the plate remembers it.");
    case Caution::plate_will_move:
      return tr("The plate will move: where it will live its moisture differs by more than 1 %.");
    case Caution::pad_crushes:
      return tr("A bare pad would crush the wood: use a caul.");
    case Caution::rod_near_breaking:
      return tr("The go-bars bend close to breaking: shorter or thinner ones.");
    case Caution::strap_for_bend:
      return tr("The bend stretches the outside more than 2 %: use a strap.");
    case Caution::forecast_cold:
      return tr("It gets close to the coldest that this glue can take.");
    case Caution::dry_run_first:
      return tr("Do a dry run first.");
    case Caution::local_codes_decide:
      return tr("Local codes and the data sheet decide.");
  }
  CHECK(!"a caution outside the enumeration");
}

std::string lot_age(LotAge age) {
  switch (age) {
    case LotAge::unknown:
      return tr("age not known");
    case LotAge::fresh:
      return tr("fresh");
    case LotAge::old:
      return tr("old, try it on scrap");
    case LotAge::stale:
      return tr("stale");
  }
  CHECK(!"an age outside the enumeration");
}

std::string learned(const AssemblyPlan& plan, const OverrunChance& chance) {
  if (!plan.learned) return say("{} by the recipe; n {} of your own", exact(plan.planned), plan.n);
  const std::string usual = say("usually {}, n {}", exact(plan.planned), plan.n);
  return say("{}; {} takes longer than the glue stays open", usual, one_in(chance.chance));
}

std::string left_out(const OutOfRange& why) {
  return say("Not worked out: {} is {:g}, it can be {:g} to {:g}; {}.", tr(why.what), why.value,
             why.least, why.most, tr(why.mend));
}

std::string unpublished(FigureOf of) {
  return say(
      "{}: no figure is published for this wood; measure a strip of it in dry and in damp air.",
      capital(figure_name(of)));
}

std::string left_out(const UnknownMaterial& why) {
  return say("Not worked out: no wood or plastic is called \"{}\" here.", why.key);
}

}  // namespace squeezeout::words
