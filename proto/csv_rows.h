#pragma once
// Rows of a table with the line on which each begins, so that mistakes in its meaning can name it.

#include "proto/shop_file.h"

namespace squeezeout {

struct CsvRow {
  int line = 0;
  std::vector<std::string> cells;
};

[[nodiscard]] Result<std::vector<CsvRow>, FileMistake> csv_rows_with_lines(std::string_view file,
                                                                           std::string_view text);

}  // namespace squeezeout
