// Sentences about a thing of the floor by its number, one a kind of thing: languages bend them each in its own way.

#include "client/words/parts.h"
#include "client/words/say.h"
#include "common/base/check.h"

namespace squeezeout::words {

std::string no_such(Thing t, std::uint32_t id) {
  switch (t) {
    case Thing::shop:
      return say("There is no shop {} here.", id);
    case Thing::bench:
      return say("There is no bench {} here.", id);
    case Thing::builder:
      return say("There is no builder {} here.", id);
    case Thing::gear_kind:
      return say("There is no gear kind {} here.", id);
    case Thing::sheet:
      return say("There is no glue {} here.", id);
    case Thing::recipe:
      return say("There is no recipe {} here.", id);
    case Thing::build:
      return say("There is no build {} here.", id);
    case Thing::glue_up:
      return say("There is no glue-up {} here.", id);
    case Thing::outage:
      return say("There is no outage {} here.", id);
    case Thing::lot:
      return say("There is no bottle {} here.", id);
    case Thing::pot:
      return say("There is no pot {} here.", id);
    case Thing::air_point:
      return say("There is no point of air {} here.", id);
    case Thing::plan:
      return say("There is no plan {} here.", id);
  }
  CHECK(!"a thing outside the enumeration");
}

std::string too_many(Thing t, int most) {
  switch (t) {
    case Thing::shop:
      return say("The floor holds at most {} of its shops.", most);
    case Thing::bench:
      return say("The floor holds at most {} of its benches.", most);
    case Thing::builder:
      return say("The floor holds at most {} of its builders.", most);
    case Thing::gear_kind:
      return say("The floor holds at most {} of its gear kinds.", most);
    case Thing::sheet:
      return say("The floor holds at most {} of its glues.", most);
    case Thing::recipe:
      return say("The floor holds at most {} of its recipes.", most);
    case Thing::build:
      return say("The floor holds at most {} of its builds.", most);
    case Thing::glue_up:
      return say("The floor holds at most {} of its glue-ups.", most);
    case Thing::outage:
      return say("The floor holds at most {} of its outages.", most);
    case Thing::lot:
      return say("The floor holds at most {} of its bottles.", most);
    case Thing::pot:
      return say("The floor holds at most {} of its pots.", most);
    case Thing::air_point:
      return say("The floor holds at most {} of its points of air.", most);
    case Thing::plan:
      return say("The floor holds at most {} of its plans.", most);
  }
  CHECK(!"a thing outside the enumeration");
}

std::string too_many_next(Thing t) {
  switch (t) {
    case Thing::lot:
      return tr("Mark bottles as used up, and use their records again.");
    case Thing::pot:
      return tr("Pots leave the record after two days.");
    case Thing::air_point:
      return tr("Give fewer, further apart.");
    default:
      return tr("Finish or cancel some first.");
  }
}

}  // namespace squeezeout::words
