// Gear as a table: the same fields as message Gear of the shop file, so the same limits and the same words.
#include <fmt/format.h>

#include <array>
#include <charconv>

#include "proto/csv_rows.h"
#include "proto/fields.h"
#include "proto/shop_convert.h"
#include "proto/shop_form.h"
#include "shop.pb.h"

namespace squeezeout {
namespace {

constexpr std::array<std::string_view, 20> kColumns = {"key",
                                                       "name",
                                                       "class",
                                                       "count",
                                                       "units",
                                                       "style",
                                                       "opening_mm",
                                                       "throat_mm",
                                                       "length_mm",
                                                       "force_newton",
                                                       "screw",
                                                       "size",
                                                       "outline",
                                                       "hot",
                                                       "pad_mm",
                                                       "torque_newton_metre",
                                                       "rod_width_mm",
                                                       "rod_thickness_mm",
                                                       "rod_stiffness_gpa",
                                                       "rod_strength_mpa"};

std::string number_text(double v) { return v == 0 ? "" : fmt::format("{}", v); }

std::string units_text(const v1::Gear& m) {
  std::string units;
  for (const std::string& unit : m.unit()) units += (units.empty() ? "" : ";") + unit;
  return units;
}

template <class N>
N read_number(const At& at, const std::string& cell, const char* as) {
  N v{};
  const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), v);
  if (error == std::errc{} && end == cell.data() + cell.size()) return v;
  at.wrong(fmt::format("\"{}\" is no number", text(at, cell)),
           fmt::format("write {}, or leave the cell empty", as));
  return {};
}

v1::GearClass read_class(const At& at, const std::string& cell) {
  std::vector<std::string> words;
  for (int i = 0; i < kGearClasses; ++i) {
    words.emplace_back(to_string(static_cast<GearClass>(i)));
    if (cell == words.back()) return static_cast<v1::GearClass>(1 + i);
  }
  at.wrong(fmt::format("\"{}\" is no class of gear", text(at, cell)), use_one_of(cell, words));
  return v1::GEAR_CLASS_OTHER;
}

void read_units(const At& at, const std::string& cell, v1::Gear& m) {
  for (std::size_t begin = 0; begin <= cell.size();) {
    const std::size_t end = std::min(cell.find(';', begin), cell.size());
    m.add_unit(cell.substr(begin, end - begin));
    begin = end + 1;
  }
  if (m.unit_size() > kMaxRepeated) (void)few_enough(at, m.unit_size());
}

// One cell into its field. An empty cell leaves the field out.
void read_cell(const At& gear, std::string_view column, const std::string& cell, v1::Gear& m) {
  if (cell.empty() && column != "class") return;
  const At at = gear(column);
  const auto millimetres = [&] {
    return read_number<double>(at, cell, "millimetres, 120 or 12.5");
  };
  if (column == "key") m.set_key(cell);
  if (column == "name") m.set_name(cell);
  if (column == "class") m.set_class_(read_class(at, cell));
  if (column == "count") m.set_count(read_number<int>(at, cell, "a whole number"));
  if (column == "units") read_units(at, cell, m);
  if (column == "style") m.set_style(cell);
  if (column == "opening_mm") m.set_opening_mm(millimetres());
  if (column == "throat_mm") m.set_throat_mm(millimetres());
  if (column == "length_mm") m.set_length_mm(millimetres());
  if (column == "force_newton") m.set_force_newton(read_number<double>(at, cell, "newtons"));
  if (column == "screw") m.set_screw(cell);
  if (column == "size") m.set_size(cell);
  if (column == "outline") m.set_outline(cell);
  if (column == "pad_mm") m.set_pad_mm(millimetres());
  if (column == "torque_newton_metre")
    m.set_torque_newton_metre(read_number<double>(at, cell, "newton metres"));
  if (column == "rod_width_mm") m.mutable_rod()->set_width_mm(millimetres());
  if (column == "rod_thickness_mm") m.mutable_rod()->set_thickness_mm(millimetres());
  if (column == "rod_stiffness_gpa")
    m.mutable_rod()->set_stiffness_gpa(read_number<double>(at, cell, "gigapascals, 13.5"));
  if (column == "rod_strength_mpa")
    m.mutable_rod()->set_strength_mpa(read_number<double>(at, cell, "megapascals, 100"));
  if (column == "hot") {
    m.set_hot(cell == "yes");
    if (cell != "yes" && cell != "no")
      at.wrong(fmt::format("\"{}\" is neither yes nor no", text(at, cell)), "write yes or no");
  }
}

// A single unit that differs from its fellows keeps its own row; its key "key/TAG" tells the tag.
void take_tag_from_key(v1::Gear& m) {
  const std::size_t slash = m.key().rfind('/');
  if (m.unit_size() == 0 && slash != std::string::npos) m.set_tag(m.key().substr(slash + 1));
}

}  // namespace

std::string write_gear_csv(const std::vector<GearKind>& gear) {
  Shop shop;
  shop.gear = gear;
  std::string table = csv_row({kColumns.begin(), kColumns.end()});
  const v1::Shop form = to_file_form(shop);
  for (const v1::Gear& m : form.gear())
    table += csv_row({m.key(),
                      m.name(),
                      std::string(to_string(static_cast<GearClass>(m.class_() - 1))),
                      m.has_count() ? std::to_string(m.count()) : "",
                      units_text(m),
                      m.style(),
                      number_text(m.opening_mm()),
                      number_text(m.throat_mm()),
                      number_text(m.length_mm()),
                      number_text(m.force_newton()),
                      m.screw(),
                      m.size(),
                      m.outline(),
                      m.hot() ? "yes" : "no",
                      number_text(m.pad_mm()),
                      number_text(m.torque_newton_metre()),
                      number_text(m.rod().width_mm()),
                      number_text(m.rod().thickness_mm()),
                      number_text(m.rod().stiffness_gpa()),
                      number_text(m.rod().strength_mpa())});
  return table;
}

Result<std::vector<GearKind>, std::vector<FileMistake>> read_gear_csv(std::string_view file,
                                                                      std::string_view text) {
  const auto rows = csv_rows_with_lines(file, text);
  if (!rows) return Unexpected(std::vector{rows.error()});
  std::vector<FieldMistake> mistakes;
  const At root(mistakes, "");
  if (rows->empty())
    root.wrong("the table is empty",
               "begin with a row that names the columns: key,name,class,count,...");

  const std::size_t columns = rows->empty() ? 0 : rows->front().cells.size();
  if (columns > kColumns.size())
    root.wrong(fmt::format("there are {} columns, and no more than {} are known", columns,
                           kColumns.size()),
               "take out those that come twice or hold something else");

  v1::Shop m;
  for (const CsvRow& row : *rows) {
    if (columns > kColumns.size()) break;
    const bool header = &row == &rows->front();
    const At here = root("gear", m.gear_size());
    v1::Gear* gear = header ? nullptr : m.add_gear();
    for (std::size_t c = 0; c < row.cells.size(); ++c) {
      const std::string& column = rows->front().cells[c];
      if (!header)
        read_cell(here, column, row.cells[c], *gear);
      else if (std::find(kColumns.begin(), kColumns.end(), column) == kColumns.end())
        root.wrong(fmt::format("no column is called \"{}\"", squeezeout::text(root, column)),
                   use_one_of(column, {kColumns.begin(), kColumns.end()}));
      else if (std::count(row.cells.begin(), row.cells.end(), column) > 1)
        root.wrong(fmt::format("the column \"{}\" comes twice", column), "keep one of them");
    }
    if (gear) take_tag_from_key(*gear);
  }
  std::vector<GearKind> gear = gear_from_wire(root, m, Ids::by_order);
  if (mistakes.empty()) return gear;

  std::vector<FileMistake> placed;
  for (const FieldMistake& mistake : mistakes) {
    std::size_t row = 0;  // the header's row, or 1 + the index in "gear[12].count"
    if (const std::string_view field = mistake.field; field.starts_with("gear[")) {
      std::from_chars(field.data() + 5, field.data() + field.size(), row);
      ++row;
    }
    placed.push_back({std::string(file), row < rows->size() ? (*rows)[row].line : 0, 1,
                      mistake.field, mistake.what, mistake.mend});
  }
  std::stable_sort(placed.begin(), placed.end(),
                   [](const FileMistake& a, const FileMistake& b) { return a.line < b.line; });
  return Unexpected(std::move(placed));
}

}  // namespace squeezeout
