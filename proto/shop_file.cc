#include "proto/shop_file.h"

#include <fmt/format.h>
#include <google/protobuf/io/tokenizer.h>
#include <google/protobuf/text_format.h>

#include <algorithm>
#include <charconv>
#include <optional>
#include <regex>

#include "proto/shop_check.h"
#include "proto/shop_convert.h"
#include "proto/shop_form.h"
#include "shop.pb.h"

namespace squeezeout {
namespace {

namespace pb = google::protobuf;

constexpr int kMaxDepth = 16;
constexpr std::size_t kMatched =
    300;  // bytes that a pattern is held against: std::regex goes one call deeper with each

// ---- mistakes of writing ----

struct WritingError {
  int line = 0, column = 0;  // from 0, as the parser counts
  std::string message;
};

class FirstError : public pb::io::ErrorCollector {
 public:
  void AddError(int line, pb::io::ColumnNumber column, const std::string& message) override {
    if (!error) error = WritingError{line, column, message};
  }
  std::optional<WritingError> error;
};

std::optional<WritingError> parse(const std::string& text, v1::Shop& m,
                                  pb::TextFormat::ParseInfoTree* places) {
  FirstError errors;
  pb::TextFormat::Parser parser;
  parser.RecordErrorsTo(&errors);
  parser.WriteLocationsTo(places);
  parser.SetRecursionLimit(kMaxDepth);
  if (!parser.ParseFromString(text, &m) && !errors.error)
    errors.error = WritingError{0, 0, "is no shop file"};
  return errors.error;
}

template <class Enum>
std::vector<std::string> names(const Enum* described) {
  std::vector<std::string> all;
  for (int i = 1; i < described->value_count(); ++i) all.push_back(described->value(i)->name());
  return all;
}

std::vector<std::string> choices(const std::string& field) {
  if (field == "class") return names(v1::GearClass_descriptor());
  if (field == "chemistry") return names(v1::Chemistry_descriptor());
  if (field == "trait") return names(v1::Trait_descriptor());
  if (field == "limits") return names(v1::Limits_descriptor());
  if (field == "clock") return names(v1::Clock_descriptor());
  if (field == "lengths") return names(v1::Lengths_descriptor());
  if (field == "degrees") return names(v1::Degrees_descriptor());
  return {};
}

// What the parser says, as field, what and mend.
struct Explained {
  FileMistake mistake;
  std::string
      written;  // what is wrong, as it stands before the place that the parser tells; empty: it stands there
};

Explained explain(const std::string& whole) {
  const std::string message = whole.substr(0, kMatched);
  Explained e;
  FileMistake& m = e.mistake;
  std::smatch part;
  const auto says = [&](const char* pattern) {
    return std::regex_search(message, part, std::regex(pattern));
  };
  m.what = message.ends_with('.') ? message.substr(0, message.size() - 1) : message;
  m.mend = "write it as protobuf text: name: value, name: \"text\", name { ... }";
  if (says("Message type \"(.+)\" has no field named \"(.*)\"")) {
    m.field = e.written = part[2];
    const auto* type = v1::Shop::descriptor()->file()->pool()->FindMessageTypeByName(part[1]);
    std::vector<std::string> fields;
    for (int i = 0; type && i < type->field_count(); ++i)
      if (const std::string& name = type->field(i)->name(); name != "id") fields.push_back(name);
    m.what = fmt::format("{} has no such field", type ? type->name() : "this");
    m.mend = use_one_of(m.field, fields);
  } else if (says("Unknown enumeration value of \"(.*)\" for field \"(.*)\"")) {
    e.written = part[1];
    m.field = part[2];
    m.what = fmt::format("\"{}\" is none of its values", e.written);
    m.mend = use_one_of(e.written, choices(m.field));
  } else if (says("Non-repeated field \"(.*)\" is specified multiple times")) {
    m.field = e.written = part[1];
    m.what = "is given twice";
    m.mend = "keep one of them";
  } else if (says("Expected (integer|double|identifier or integer|string), got: (.*)")) {
    const std::string kind = part[1] == "string"   ? "text in quotes"
                             : part[1] == "double" ? "a number"
                                                   : "a whole number";
    m.what = fmt::format("{} stands where {} belongs", part[2].str(), kind);
    m.mend = fmt::format("write {}", kind);
  } else if (says("Integer out of range")) {
    m.mend = "use a smaller number";
  } else if (says("Invalid value for boolean")) {
    m.mend = "write true or false";
  }
  return e;
}

struct Line {
  std::size_t begin = 0, end = 0;  // in the text
  int number = 0;                  // from 0
};

Line line_at(const std::string& text, int number) {
  std::size_t begin = 0;
  for (int i = 0; i < number; ++i) begin = std::min(text.find('\n', begin), text.size() - 1) + 1;
  return {begin, std::min(text.find('\n', begin), text.size()), number};
}

Line line_around(const std::string& text, std::size_t place) {
  return line_at(text, static_cast<int>(std::count(
                           text.begin(), text.begin() + static_cast<std::ptrdiff_t>(place), '\n')));
}

// One field with a plain value, so that the rest can be read without it.
bool stands_alone(const std::string& line) {
  return line.find_first_of("{}<>") == std::string::npos && line.find(':') != std::string::npos;
}

// All mistakes of writing: each line that is one is taken out, and the rest is tried again.
std::vector<FileMistake> writing_mistakes(std::string_view file, std::string text,
                                          std::optional<WritingError> error) {
  std::vector<FileMistake> mistakes;
  while (error && mistakes.size() < kMaxMistakes) {
    auto [m, written] = explain(error->message);
    Line line = line_at(text, error->line);
    std::size_t place = std::min(line.begin + static_cast<std::size_t>(error->column), line.end);
    // What stands first on a line was probably led there by the line before, which nothing is known of.
    bool known = text.find_first_not_of(" \t", line.begin) < place;
    if (const std::size_t before = text.rfind(written, place);
        !written.empty() && before != std::string::npos) {
      place = before;
      line = line_around(text, place);
      known = true;
    }
    const std::string words = text.substr(line.begin, line.end - line.begin);
    const std::string head = words.substr(0, kMatched);
    if (std::smatch name;
        m.field.empty() && std::regex_search(head, name, std::regex("^\\s*(\\w+)\\s*:")))
      m.field = name[1];
    m.file = file;
    m.line = line.number + 1;
    m.column = static_cast<int>(place - line.begin) + 1;
    mistakes.push_back(std::move(m));
    if (!known || !stands_alone(words)) break;
    text.replace(line.begin, words.size(), words.size(), ' ');
    v1::Shop rest;
    error = parse(text, rest, nullptr);
  }
  std::stable_sort(mistakes.begin(), mistakes.end(),
                   [](const FileMistake& a, const FileMistake& b) { return a.line < b.line; });
  return mistakes;
}

// ---- mistakes of sense ----

// Finds the line of a field by its path, "recipe[3].glue[0]". What is missing stands where its message begins.
FileMistake place(std::string_view file, const FieldMistake& mistake,
                  const pb::TextFormat::ParseInfoTree& places) {
  FileMistake m{std::string(file), 0, 0, mistake.field, mistake.what, mistake.mend};
  const pb::TextFormat::ParseInfoTree* tree = &places;
  const pb::Descriptor* message = v1::Shop::descriptor();
  for (std::string_view rest = mistake.field; tree && message && !rest.empty();) {
    const std::string_view step = rest.substr(0, rest.find('.'));
    rest.remove_prefix(std::min(step.size() + 1, rest.size()));
    const std::size_t bracket = step.find('[');
    const auto* field = message->FindFieldByName(std::string(step.substr(0, bracket)));
    if (!field) break;
    int index = field->is_repeated() ? 0 : -1;
    if (bracket != std::string_view::npos)
      std::from_chars(step.data() + bracket + 1, step.data() + step.size(), index);
    const auto at = tree->GetLocation(field, index);
    if (at.line < 0) break;
    m.line = at.line + 1;
    m.column = at.column + 1;
    message = field->message_type();
    tree = message ? tree->GetTreeForNested(field, index) : nullptr;
  }
  return m;
}

}  // namespace

std::string to_text(const FileMistake& m) {
  std::string text = m.file;
  if (m.line > 0) text += fmt::format(":{}:{}", m.line, m.column);
  if (!m.field.empty()) text += ": " + m.field;
  return text + fmt::format(": {}. Mend: {}", m.what, m.mend);
}

Result<Shop, std::vector<FileMistake>> read_shop_file(std::string_view file,
                                                      std::string_view text) {
  v1::Shop m;
  pb::TextFormat::ParseInfoTree places;
  if (const auto error = parse(std::string(text), m, &places))
    return Unexpected(writing_mistakes(file, std::string(text), error));

  std::vector<FieldMistake> mistakes;
  const At root(mistakes, "");
  Shop shop = from_wire(root, m, Ids::by_order);
  if (mistakes.empty()) check_shop(root, shop, m);
  if (mistakes.empty()) return shop;

  std::vector<FileMistake> placed;
  for (const FieldMistake& mistake : mistakes) placed.push_back(place(file, mistake, places));
  std::stable_sort(placed.begin(), placed.end(),
                   [](const FileMistake& a, const FileMistake& b) { return a.line < b.line; });
  return Unexpected(std::move(placed));
}

Result<Shop, std::vector<FileMistake>> read_shop_draft(std::string_view file,
                                                       std::string_view text) {
  v1::Shop m;
  pb::TextFormat::ParseInfoTree places;
  if (const auto error = parse(std::string(text), m, &places))
    return Unexpected(writing_mistakes(file, std::string(text), error));
  std::vector<FieldMistake> not_told;
  return from_wire(At(not_told, ""), m, Ids::by_order);
}

std::string write_shop_file(const Shop& shop) {
  pb::TextFormat::Printer printer;
  printer.SetUseUtf8StringEscaping(true);
  std::string text, spaced;
  CHECK(printer.PrintToString(to_file_form(shop), &text));
  // A blank line before each block at the left edge.
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = text.find('\n', begin) + 1;
    const std::string_view line = std::string_view(text).substr(begin, end - begin);
    if (line.front() != ' ' && line.ends_with("{\n") && !spaced.empty()) spaced += '\n';
    spaced += line;
    begin = end;
  }
  return spaced;
}

}  // namespace squeezeout
