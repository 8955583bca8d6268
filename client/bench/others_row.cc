#include "client/bench/others_row.h"

#include <fmt/format.h>

#include "client/panels/room.h"
#include "client/sync/overload.h"
#include "client/words/say.h"
#include "client/words/why.h"

namespace squeezeout::bench {
namespace {

using look::Align;
using look::Canvas;
using look::Rect;
using look::Role;
using look::Type;

// What the tile says, in full and in short, and what it does.
struct Offered {
  std::vector<std::string> label, sub;
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
                 return {{sheet == nullptr ? words::tr("Another glue") : sheet->name},
                         {words::say("{}, ready {}", start, words::clock(c, a.ready)), start},
                         Pick{other}};
               },
               [&](const FewerPieces& by) -> Offered {
                 return {{words::say("{} pieces, not {}", by.need.count, by.usual)},
                         {words::say("{}: why these figures", start), start},
                         ShowFigures{}};
               },
               [&](const AskHolder& by) -> Offered {
                 const GlueUp* g = scene.floor.glue_up(by.glue_up);
                 const std::string who =
                     g == nullptr ? words::tr("the holder") : words::builder(c, g->builder);
                 const std::string move = words::clock(c, by.from) + " → " + words::clock(c, by.to);
                 std::vector<std::string> sub{move};
                 if (g != nullptr)
                   sub.insert(sub.begin(), words::recipe(c, g->recipe) + " " + move);
                 return {{words::say("Ask {}: {}", who, start), words::say("Ask {}", who)},
                         std::move(sub),
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
    Rect text = tile.inset(canvas.px(2.5F), canvas.px(2));
    Rect first = text.cut_top(canvas.line_px(Type::strong));
    canvas.words(first.cut_right(canvas.width(Type::small, "W") + 1), std::string(1, letter),
                 Type::small, {Role::muted, Role::background}, Align::right);
    first.cut_right(canvas.px(2));
    canvas.one_of(first, offer.label, Type::strong, {});
    canvas.one_of(text, offer.sub, Type::small, {Role::muted, Role::background});
    canvas.press({fmt::format("other.{}", i),
                  offer.label.front(),
                  tile,
                  {letter},
                  offer.intent,
                  look::Kind::button});
  }
}

}  // namespace squeezeout::bench
