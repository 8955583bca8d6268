#include "client/view/offer.h"

#include <algorithm>

#include "client/words/say.h"

namespace squeezeout {

std::string reason_words(const std::string& reason) {
  const bool ours = std::find(kReasons.begin(), kReasons.end(), reason) != kReasons.end();
  return ours ? words::tr(reason.c_str()) : reason;
}

Offer offer_of(const Scene& scene) {
  const Reserve& wanted = scene.view.wanted;
  Reserve with_reason = wanted;
  with_reason.reason = kReasons.front();
  const auto& plain = scene.quotes.earliest_for_wanted(scene.floor, wanted, scene.now);
  const bool refused = !plain && std::holds_alternative<NotPossible>(plain.error());
  const auto& quote =
      refused ? scene.quotes.earliest_for_wanted(scene.floor, with_reason, scene.now) : plain;
  const bool helps = refused && quote;
  const Instant minute = std::chrono::floor<Minutes>(scene.now);
  const Instant at = quote ? quote->slot.times.open_begin : minute;
  return {helps || !refused ? quote : plain, helps ? Offer::Wants::reason : Offer::Wants::nothing,
          at, scene.quotes.joint(scene.floor, wanted, at, scene.now)};
}

Reserve asked_of(const GlueUp& g) {
  return {.recipe = g.recipe,
          .build = g.build,
          .step = g.step,
          .builder = g.builder,
          .bench = g.bench,
          .sheet = g.sheet,
          .lot = g.lot,
          .reason = g.reason};
}

const Figure* figure_of(const JointAnswer& answer, FigureOf of) {
  const auto it = std::find_if(answer.figures.begin(), answer.figures.end(),
                               [&](const Figure& f) { return f.of == of; });
  return it == answer.figures.end() ? nullptr : &*it;
}

}  // namespace squeezeout
