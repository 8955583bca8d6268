#include "tests/support/schedule/read_instance.h"

#include <algorithm>
#include <charconv>
#include <fstream>
#include <sstream>

namespace squeezeout::schedule::testing {
namespace {

using Path = std::filesystem::path;

// The lines of one file, and where a reader is in them. Throws ReadError; the functions at the bottom catch it.
class Lines {
 public:
  explicit Lines(const Path& file) : file_(file.string()) {
    std::ifstream in(file);
    if (!in) throw ReadError{file_, 0, "cannot be opened", "name a file that is there"};
    for (std::string line; std::getline(in, line);) {
      if (!line.empty() && line.back() == '\r') line.pop_back();
      lines_.push_back(line);
    }
  }

  bool more() const { return at_ < lines_.size(); }
  const std::string& next(const std::string& wanted) {
    if (!more()) fail("ends where " + wanted + " should follow", "fetch the whole file again");
    return lines_[at_++];
  }
  // Moves behind the line that begins with `heading`.
  void seek(const std::string& heading) {
    while (more())
      if (lines_[at_++].starts_with(heading)) return;
    fail("has no line that begins with " + heading, "give a file of the format of its ending");
  }
  [[noreturn]] void fail(const std::string& what, const std::string& mend) const {
    throw ReadError{file_, static_cast<int>(at_), what, mend};
  }

  // The whole numbers of the next line; [7] is 7.
  std::vector<int> numbers(const std::string& wanted) {
    std::string line = next(wanted);
    std::replace_if(
        line.begin(), line.end(), [](char c) { return c == '[' || c == ']'; }, ' ');
    std::istringstream words(line);
    std::vector<int> numbers;
    for (std::string word; words >> word;) numbers.push_back(number(word, wanted));
    return numbers;
  }
  int number(const std::string& word, const std::string& wanted) const {
    int value = 0;
    const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), value);
    if (error != std::errc{} || end != word.data() + word.size())
      fail("says '" + word + "' where " + wanted + " should be", "put a whole number there");
    return value;
  }
  void want(bool holds, const std::string& what) const {
    if (!holds) fail(what, "compare the line with the format in read_instance.h");
  }

 private:
  std::string file_;
  std::vector<std::string> lines_;
  std::size_t at_ = 0;
};

Task job(const std::vector<int>& demand, int duration) {
  Part part{.length = duration};
  for (std::size_t r = 0; r < demand.size(); ++r)
    if (demand[r] > 0) part.uses.push_back({static_cast<int>(r), demand[r]});
  return Task{.modes = {Mode{.parts = {part}}}};
}

// "jobs (incl. supersource/sink ):  32" -> 32
int after_colon(Lines& in, const std::string& heading) {
  for (;;) {
    const std::string& line = in.next(heading);
    const auto at = line.find(heading), colon = line.find(':');
    if (at == std::string::npos || colon == std::string::npos) continue;
    std::istringstream rest(line.substr(colon + 1));
    std::string word;
    rest >> word;
    return in.number(word, heading);
  }
}

Problem read_sm(const Path& file) {
  Lines in(file);
  const int jobs = after_colon(in, "jobs (incl. supersource/sink )");
  const int resources = after_colon(in, "- renewable");
  in.want(jobs >= 2 && resources >= 0, "counts too few jobs or resources");
  Problem problem;

  in.seek("PRECEDENCE RELATIONS");
  in.next("the column names");
  for (int j = 1; j <= jobs; ++j) {
    const auto row = in.numbers("a job with its successors");
    in.want(row.size() >= 3 && row[0] == j && row[1] == 1,
            "is not job " + std::to_string(j) + " with one mode");
    in.want(row.size() == 3 + static_cast<std::size_t>(row[2]), "counts its successors wrongly");
    for (std::size_t k = 3; k < row.size(); ++k) {
      in.want(row[k] >= 1 && row[k] <= jobs, "names a successor that is no job");
      problem.lags.push_back({.from = j - 1, .to = row[k] - 1, .after = Lag::After::ready});
    }
  }

  in.seek("REQUESTS/DURATIONS");
  in.next("the column names");
  in.next("a rule");
  for (int j = 1; j <= jobs; ++j) {
    const auto row = in.numbers("a job with its duration and demands");
    in.want(row.size() == 3 + static_cast<std::size_t>(resources) && row[0] == j && row[1] == 1,
            "is not job " + std::to_string(j) + " with a duration and a demand of each resource");
    problem.tasks.push_back(job({row.begin() + 3, row.end()}, row[2]));
  }

  in.seek("RESOURCEAVAILABILITIES");
  in.next("the column names");
  problem.capacity = in.numbers("the capacities");
  in.want(problem.capacity.size() == static_cast<std::size_t>(resources),
          "does not give each resource its capacity");
  return problem;
}

Problem read_sch(const Path& file) {
  Lines in(file);
  const auto head = in.numbers("the numbers of activities and resources");
  in.want(head.size() >= 2 && head[0] >= 0 && head[1] >= 0,
          "does not count activities and resources");
  const int nodes = head[0] + 2;
  const auto resources = static_cast<std::size_t>(head[1]);
  Problem problem;
  for (int i = 0; i < nodes; ++i) {
    const auto row = in.numbers("a node with its arcs");
    in.want(row.size() >= 3 && row[0] == i && row[1] == 1,
            "is not node " + std::to_string(i) + " with one mode");
    const auto arcs = static_cast<std::size_t>(row[2]);
    in.want(row.size() == 3 + 2 * arcs, "does not give each successor its lag");
    for (std::size_t k = 0; k < arcs; ++k) {
      const int to = row[3 + k];
      in.want(to >= 0 && to < nodes, "names a successor that is no node");
      problem.lags.push_back({.from = i, .to = to, .ticks = row[3 + arcs + k]});
    }
  }
  for (int i = 0; i < nodes; ++i) {
    const auto row = in.numbers("a node with its duration and demands");
    in.want(row.size() == 3 + resources && row[0] == i && row[1] == 1,
            "is not node " + std::to_string(i) + " with a duration and a demand of each resource");
    problem.tasks.push_back(job({row.begin() + 3, row.end()}, row[2]));
  }
  problem.capacity = in.numbers("the capacities");
  in.want(problem.capacity.size() == resources, "does not give each resource its capacity");
  return problem;
}

std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells(1);
  for (const char c : line) {
    if (c == ',')
      cells.emplace_back();
    else
      cells.back() += c;
  }
  return cells;
}

KnownTable read_csv(const Path& file) {
  Lines in(file);
  const auto names = cells_of(in.next("the column names"));
  KnownTable table;
  while (in.more()) {
    const auto cells = cells_of(in.next("a row"));
    in.want(cells.size() == names.size(), "has another number of cells than there are columns");
    const auto cell = [&](const std::string& name) -> std::string {
      const auto at = std::find(names.begin(), names.end(), name);
      return at == names.end() ? "" : cells[static_cast<std::size_t>(at - names.begin())];
    };
    const auto number = [&](const std::string& name) { return in.number(cell(name), name); };
    Known known;
    known.feasible = cell("status") != "infeasible";
    if (!cell("best_known_makespan").empty()) known.best_makespan = number("best_known_makespan");
    if (!cell("lower_bound").empty()) known.lower_bound = number("lower_bound");
    known.is_optimal = number("is_optimal") != 0;
    known.critical_path = number("critical_path");
    in.want(table.emplace(cell("instance"), known).second, "names an instance a second time");
  }
  return table;
}

// Runs of digits count as numbers.
bool natural_less(const std::string& a, const std::string& b) {
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  std::size_t i = 0, j = 0;
  while (i < a.size() && j < b.size()) {
    if (!digit(a[i]) || !digit(b[j])) {
      if (a[i] != b[j]) return a[i] < b[j];
      ++i, ++j;
      continue;
    }
    std::string x, y;
    for (; i < a.size() && digit(a[i]); ++i) x += a[i];
    for (; j < b.size() && digit(b[j]); ++j) y += b[j];
    x.erase(0, std::min(x.find_first_not_of('0'), x.size()));
    y.erase(0, std::min(y.find_first_not_of('0'), y.size()));
    if (x != y) return x.size() != y.size() ? x.size() < y.size() : x < y;
  }
  return a.size() - i < b.size() - j;
}

}  // namespace

std::string ReadError::where() const { return line > 0 ? file + ":" + std::to_string(line) : file; }
std::string ReadError::words() const { return where() + ": " + what + "\n  mend: " + mend; }

Result<Problem, ReadError> read_instance(const Path& file) try {
  if (file.extension() == ".sm") return read_sm(file);
  if (file.extension() == ".sch") return read_sch(file);
  throw ReadError{file.string(), 0, "is of no known format",
                  "give a file that ends in .sm or .sch"};
} catch (const ReadError& error) {
  return Unexpected{error};
}

Result<KnownTable, ReadError> read_known(const Path& csv) try {
  return read_csv(csv);
} catch (const ReadError& error) {
  return Unexpected{error};
}

std::vector<Path> instances_in(const Path& folder) {
  std::vector<Path> found;
  std::error_code ignored;  // a folder that is not there holds none
  for (const auto& entry : std::filesystem::directory_iterator(folder, ignored)) {
    const auto ending = entry.path().extension();
    if (ending == ".sm" || ending == ".sch") found.push_back(entry.path());
  }
  std::sort(found.begin(), found.end(), [](const Path& a, const Path& b) {
    return natural_less(a.filename().string(), b.filename().string());
  });
  return found;
}

}  // namespace squeezeout::schedule::testing
