// Benches and builders: added, named, taken out.
#include <fmt/format.h>

#include "client/panels/pages.h"
#include "client/setup/pages.h"
#include "client/words/say.h"

namespace squeezeout::setup {
namespace {

using look::Canvas;
using look::Look;
using look::Rect;
using What = draft::Edit::What;

void name_field(Canvas& canvas, const Scene& scene, Rect at, std::string id, std::string label,
                const std::string& text, int key) {
  text_field(canvas, scene, at,
             {.id = std::move(id),
              .label = std::move(label),
              .text = text,
              .most = draft::kMostLetters,
              .keys = key != 0 ? std::vector<int>{key} : std::vector<int>{}});
}

void remove_key(Canvas& canvas, Rect at, std::string id, const Intent& intent, std::size_t of) {
  canvas.button(at, {.id = std::move(id),
                     .label = "×",
                     .intent = intent,
                     .look = of > 1 ? Look::normal : Look::off});
}

void bench(Canvas& canvas, const Scene& scene, Rect row, const Shop& shop, int i, int key) {
  const Bench& b = shop.benches[static_cast<std::size_t>(i)];
  remove_key(canvas, row.cut_right(canvas.touch()), fmt::format("bench.remove.{}", i),
             edit(What::remove_bench, i), shop.benches.size());
  row.cut_right(canvas.gap());
  canvas.button(row.cut_right(canvas.px(32)),
                {.id = fmt::format("bench.one.{}", i),
                 .label = words::tr("for one alone"),
                 .intent = edit(What::one_at_a_time, i),
                 .look = b.one_at_a_time ? Look::chosen : Look::normal});
  row.cut_right(canvas.gap());
  name_field(canvas, scene, row, fmt::format("bench.{}", i), words::tr("Bench"), b.name, key);
}

void builder(Canvas& canvas, const Scene& scene, Rect row, const Shop& shop, int i, int key) {
  const Builder& b = shop.builders[static_cast<std::size_t>(i)];
  remove_key(canvas, row.cut_right(canvas.touch()), fmt::format("builder.remove.{}", i),
             edit(What::remove_builder, i), shop.builders.size());
  row.cut_right(canvas.gap());
  std::string where = words::tr("no bench");
  for (const Bench& bench : shop.benches)
    if (bench.id == b.bench) where = bench.name;
  canvas.button(row.cut_right(canvas.px(32)), {.id = fmt::format("builder.bench.{}", i),
                                               .label = where,
                                               .intent = edit(What::bench_of_builder, i)});
  row.cut_right(canvas.gap());
  name_field(canvas, scene, row, fmt::format("builder.{}", i), words::tr("Builder"), b.name, key);
}

void add_key(Canvas& canvas, Rect at, std::string id, std::string label, int letter, What what) {
  if (at.empty()) return;
  canvas.button(at, {.id = std::move(id),
                     .label = std::move(label),
                     .key_name = letter_name(letter),
                     .keys = {letter},
                     .intent = edit(what)});
}

}  // namespace

void people_page(Canvas& canvas, const Scene& scene, Rect body) {
  const Shop& shop = shown_shop(scene);
  Rect head = heading_row(canvas, scene, body);
  const int rows = static_cast<int>((body.h + canvas.gap()) / (canvas.touch() + canvas.gap())) - 1;
  const int benches = static_cast<int>(shop.benches.size());
  const int builders = static_cast<int>(shop.builders.size());
  const panels::Page page = panels::page_of(std::max(benches, builders), rows, scene.view.page);
  panels::page_keys(canvas, head, page, std::max(benches, builders));
  heading(canvas, head,
          {words::tr("Who works where"),
           words::tr("Press a name to type another. Each builder has a usual bench.")});
  Rect left = body.cut_left((body.w - 2 * canvas.gap()) / 2);
  body.cut_left(2 * canvas.gap());
  for (int i = page.first; i < std::min(benches, page.first + rows); ++i)
    bench(canvas, scene, row_of(canvas, left), shop, i, letter(i - page.first + 2));
  for (int i = page.first; i < std::min(builders, page.first + rows); ++i)
    builder(canvas, scene, row_of(canvas, body), shop, i, letter(i - page.first + 2 + rows));
  add_key(canvas, row_of(canvas, left), "bench.add", words::tr("Add a bench"), letter(0),
          What::add_bench);
  add_key(canvas, row_of(canvas, body), "builder.add", words::tr("Add a builder"), letter(1),
          What::add_builder);
}

}  // namespace squeezeout::setup
