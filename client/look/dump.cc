#include "client/look/dump.h"

#include <fmt/format.h>

#include "client/look/key_name.h"

namespace squeezeout::look {
namespace {

std::string rect_json(Rect r, const Scale& scale) {
  return fmt::format(
      R"("rect":[{:.1f},{:.1f},{:.1f},{:.1f}],"rect_mm":[{:.1f},{:.1f},{:.1f},{:.1f}])", r.x, r.y,
      r.w, r.h, scale.mm(r.x), scale.mm(r.y), scale.mm(r.w), scale.mm(r.h));
}

std::string_view to_string(Kind kind) {
  switch (kind) {
    case Kind::bar:
      return "bar";
    case Kind::field:
      return "field";
    case Kind::button:
      break;
  }
  return "button";
}

std::string keys_json(const std::vector<int>& keys) {
  std::string out;
  for (const int key : keys) {
    if (!out.empty()) out += ' ';
    out += key_name(key);
  }
  return json_string(out);
}

}  // namespace

std::string dump_json(const DumpHead& head, const Frame& frame, const Palette& palette,
                      const Scale& scale) {
  std::string out = fmt::format(
      R"({{"screen":"{}","revision":{},"drawn_ms":{},"width":{},"height":{},"mm_per_px":{:.4f})",
      to_string(head.screen), head.revision, head.drawn_ms, frame.width, frame.height, scale.mm(1));
  out += ",\n\"widgets\":[";
  const char* separator = "\n";
  for (const Press& p : frame.presses) {
    out += fmt::format(R"({}{{"id":{},"label":{},"kind":"{}","clickable":true,{},"keys":{}}})",
                       separator, json_string(p.id), json_string(p.label), to_string(p.kind),
                       rect_json(p.at, scale), keys_json(p.keys));
    separator = ",\n";
  }
  out += "],\n\"texts\":[";
  separator = "\n";
  for (const Mark& mark : frame.marks) {
    const Words* w = std::get_if<Words>(&mark);
    if (w == nullptr) continue;
    out += fmt::format(R"({}{{"text":{},{},"cap_mm":{:.2f},"fg":"{}","bg":"{}","contrast":{:.2f},)"
                       R"("distance_m":{:.1f},"arc_minutes":{:.1f},"cut":{}}})",
                       separator, json_string(w->text), rect_json(w->at, scale),
                       scale.mm(scale.cap_px(w->type)), to_hex(palette[w->ink]),
                       to_hex(palette[w->on]), contrast(palette[w->ink], palette[w->on]),
                       distance_m(w->type),
                       arc_minutes(scale.mm(scale.cap_px(w->type)), distance_m(w->type)), w->cut);
    separator = ",\n";
  }
  out += "]";
  if (frame.typing)
    out += fmt::format(",\n\"typing\":{{\"field\":{},\"text\":{}}}",
                       json_string(frame.typing->field), json_string(frame.typing->text));
  return out += "}\n";
}

}  // namespace squeezeout::look
