// The tape label: what to write on it, or files of it.

#include "client/label/label_draw.h"
#include "tools/cli/times.h"
#include "tools/cli/verbs.h"

namespace squeezeout::cli {
namespace {

struct LabelArgs {
  std::uint32_t glue_up = 0;
  std::string png, pdf;
};

void written(const std::optional<words::Told>& trouble) {
  if (trouble) throw Stop{Exit::wrong_use, *trouble, {}};
}

void make_label(Tool& tool, const LabelArgs& args) {
  const words::Context c = tool.session().context();
  const GlueUpId id{args.glue_up};
  const auto label = label::label_of(c.floor, id, c.now);
  if (!label) throw Stop{Exit::refused, label.error(), {}};
  if (!args.png.empty()) written(label::write_png(*label, args.png));
  if (!args.pdf.empty()) written(label::write_pdf(*label, args.pdf));
  const std::string text = label::to_write(*label);
  tool.print(text + "\n", {{"glue_up", id.value},
                           {"text", text},
                           {"off", time_json(c, c.floor.glue_up(id)->times.release_begin)},
                           {"length_mm", label::length_mm(*label)},
                           {"tape_mm", label::kTapeMm}});
}

}  // namespace

void add_label_verb(CLI::App& app, Tool& tool) {
  const auto args = std::make_shared<LabelArgs>();
  CLI::App& verb = add_verb(app, tool, "label",
                            "The tape label of a glue-up: when its clamps come off, in numerals of "
                            "20 mm, its name and its glue. With no file: what to write by hand",
                            "squeezeout label 14 --pdf label.pdf\n  squeezeout label 14",
                            [args](Tool& t) { make_label(t, *args); });
  verb.add_option("glue-up", args->glue_up, "Its number (squeezeout list)")
      ->required()
      ->type_name("N");
  verb.add_option("--png", args->png, "Draw it into this file, 300 dots an inch")
      ->type_name("FILE");
  verb.add_option("--pdf", args->pdf, "Draw it into this file, to be printed at its own size")
      ->type_name("FILE");
}

}  // namespace squeezeout::cli
