#pragma once
// The shop file: Protobuf text format of message Shop, for people and version control; and gear as CSV.
//   Refuses  every mistake at once, each with file, line, field, what is wrong and what would be right; nothing is half loaded.
//            Mistakes of writing (no such field, not a number, a brace too many) come alone: until they are mended, what the
//            file says is not known
//   Source   RFC 4180 for CSV

#include <string>
#include <string_view>
#include <vector>

#include "common/base/result.h"
#include "common/floor/shop.h"

namespace squeezeout {

struct FileMistake {
  std::string file;
  int line = 0, column = 0;  // from 1; 0: the whole file
  std::string field;         // "recipe[3].glue[0]", counted from 0; empty: none can be named
  std::string what;          // "no adhesive has the key \"hidee\""
  std::string mend;          // "use one of: hide, fish, ... or add it"
};
// shop.textproto:41:3: recipe[3].glue[0]: what. Mend: ...
[[nodiscard]] std::string to_text(const FileMistake& m);

// `file` is the name used in mistakes; `text` its content. Ids in the result are given by order, from 1.
[[nodiscard]] Result<Shop, std::vector<FileMistake>> read_shop_file(std::string_view file,
                                                                    std::string_view text);
// A shop that is still being filled in: what it lacks, and what is not in its limits, is left out and not told.
// Refuses mistakes of writing alone.
[[nodiscard]] Result<Shop, std::vector<FileMistake>> read_shop_draft(std::string_view file,
                                                                     std::string_view text);
// Diffs well: one field a line, in the schema's order, ids and what is left at its default left out. For a shop whose ids are
// in order from 1, read(write(s)) == s.
[[nodiscard]] std::string write_shop_file(const Shop& shop);

// Gear as a table, a row a gear, tags parted by ";" (A;B). The columns, in any order: key,name,class,count,units,style,
// opening_mm,throat_mm,length_mm,force_newton,screw,size,outline,hot,pad_mm,torque_newton_metre,rod_width_mm,
// rod_thickness_mm,rod_stiffness_gpa,rod_strength_mpa
[[nodiscard]] std::string write_gear_csv(const std::vector<GearKind>& gear);
[[nodiscard]] Result<std::vector<GearKind>, std::vector<FileMistake>> read_gear_csv(
    std::string_view file, std::string_view text);

// RFC 4180 rows, for every table that leaves or enters the program.
[[nodiscard]] std::string csv_row(const std::vector<std::string>& cells);  // ends in CRLF
[[nodiscard]] Result<std::vector<std::vector<std::string>>, FileMistake> csv_rows(
    std::string_view file, std::string_view text);

}  // namespace squeezeout
