#include "client/bench/others_row.h"

#include <fmt/format.h>

#include "client/sync/overload.h"
#include "client/words/why.h"

namespace squeezeout::bench {
namespace {

using look::Align;
using look::Canvas;
using look::Rect;
using look::Role;
using look::Type;

// What the tile says, and what it does.
struct Offered {
  std::string label, sub;
  Intent intent;
};

Offered offered(const Scene& scene, const Alternative& a) {
  const words::Context c = scene.context();
  const Reserve& wanted = scene.view.wanted;
  const std::string start = words::clock(c, a.start);
  return std::visit(
      Overload{[&](const OtherGlue& by) -> Offered {
                 const AdhesiveSheet* sheet = scene.floor.sheet(by.sheet);
                 Reserve other = wanted;
                 other.sheet = by.sheet;
                 other.lot = {};
                 return {sheet == nullptr ? "Another glue" : sheet->name,
                         start + ", ready " + words::clock(c, a.ready), Pick{other}};
               },
               [&](const FewerPieces& by) -> Offered {
                 return {fmt::format("{} pieces, not {}", by.need.count, by.usual),
                         start + ": why these figures", ShowFigures{}};
               },
               [&](const AskHolder& by) -> Offered {
                 const GlueUp* g = scene.floor.glue_up(by.glue_up);
                 const std::string who =
                     g == nullptr ? "the holder" : words::builder(c, g->builder);
                 const std::string what = g == nullptr ? "" : words::recipe(c, g->recipe) + " ";
                 return {"Ask " + who + ": " + start,
                         what + words::clock(c, by.from) + " → " + words::clock(c, by.to),
                         AskHolderToMove{by.glue_up, by.to, a.start}};
               }},
      a.by);
}

}  // namespace

const std::vector<Alternative>& others_of(const Scene& scene) {
  return scene.quotes.others(scene.floor, scene.view.wanted, scene.now);
}

void others_row(Canvas& canvas, Rect at, const Scene& scene) {
  const auto& others = others_of(scene);
  const float gap = canvas.gap();
  const float width = (at.w - gap * static_cast<float>(kMaxAlternatives - 1)) /
                      static_cast<float>(kMaxAlternatives);
  for (std::size_t i = 0; i < others.size(); ++i) {
    const Offered offer = offered(scene, others[i]);
    const Rect tile = at.cut_left(width);
    at.cut_left(gap);
    const char letter = static_cast<char>('G' + static_cast<char>(i));
    canvas.edge(tile, Role::edge, 0.35F);
    Rect text = tile.inset(canvas.px(3), canvas.px(2.5F));
    Rect first = text.cut_top(canvas.line_px(Type::strong));
    canvas.words(first.cut_right(canvas.width(Type::small, "W") + 1), std::string(1, letter),
                 Type::small, {Role::muted, Role::background}, Align::right);
    first.cut_right(canvas.px(2));
    canvas.words(first, offer.label, Type::strong, {});
    canvas.paragraph(text, offer.sub, Type::small, {Role::muted, Role::background}, 2);
    canvas.press({fmt::format("other.{}", i),
                  offer.label,
                  tile,
                  {letter},
                  offer.intent,
                  look::Kind::button});
  }
}

}  // namespace squeezeout::bench
