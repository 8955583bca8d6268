// Workload: published scheduling instances, as hard as a shop's floor gets: 30 to 200 tasks that share few resources, with least
// lags (`.sm`) or least and most lags (`.sch`). Each is solved by solve(), which plans the shop, too, against a deadline; every
// schedule that it tells goes through a checker that shares no code with it.
//   The shop's floors share solve() and the exact search with these instances, but not generation: they have calendars, so
//   GeneralSearch generates for them, where plain problems have searches of their own. --as-floor gives each part an always open
//   calendar: what the shop's generation does with the same instances
//   tools/bench plan --data DIR --bounds CSV [--seconds S] [--threads N] [--clock wall|cpu] [--only REGEX] [--seed N] [--as-floor]
//                    [--json]
// Ends with 1 when a schedule is invalid or a proof contradicts what is known, with 2 when it cannot begin.

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <regex>

#include "tests/bench/schedule/summary.h"

namespace squeezeout::schedule::testing {
namespace {

struct Wanted {
  std::string data, bounds, only, clock = "wall";
  Race race;
  bool json = false;
};

[[noreturn]] void die(const std::string& what, const std::string& why, const std::string& mend) {
  fmt::print(stderr, "error: {}\n  why:  {}\n  mend: {}\n", what, why, mend);
  std::exit(2);
}

template <class T>
T need(Result<T, ReadError> read) {
  if (!read)
    die("the data cannot be read", read.error().where() + ": " + read.error().what,
        read.error().mend);
  return std::move(read).value();
}

std::vector<std::filesystem::path> chosen(const Wanted& wanted) {
  const auto all = instances_in(wanted.data);
  if (all.empty())
    die("there is nothing to plan", "no .sm or .sch file in " + wanted.data,
        "give --data a folder of published instances");
  std::vector<std::filesystem::path> some;
  try {
    const std::regex only(wanted.only);
    for (const auto& file : all)
      if (std::regex_search(file.stem().string(), only)) some.push_back(file);
  } catch (const std::regex_error& error) {
    die("--only is no regular expression", error.what(), "give one such as 'j60(9|13|25)_'");
  }
  if (some.empty())
    die("there is nothing to plan", "--only " + wanted.only + " matches no instance",
        "leave --only out, or match the file names without their ending");
  return some;
}

int run(const Wanted& wanted) {
  const auto files = chosen(wanted);
  const KnownTable known = need(read_known(wanted.bounds));
  std::FILE* const out = wanted.json ? stderr : stdout;  // --json: nothing but JSON on the output
  fmt::print(out, "{:<12} {:>8} {:>10} {:>8} {:>7} {:<10} {:>8} {:>8} {:>8}  {}\n", "instance",
             "makespan", "best known", "over %", "bound", "status", "first s", "best s", "total s",
             "infeasible by");
  std::vector<Entry> entries;
  int failures = 0;
  for (const auto& file : files) {
    const Problem problem = need(read_instance(file));
    const std::string name = file.stem().string();
    const auto row = known.find(name);
    if (row == known.end())
      die("the bounds do not fit the data", wanted.bounds + " has no row of " + name,
          "give --bounds the table of the same set");
    const Entry& entry = entries.emplace_back(Entry{name, row->second, race(problem, wanted.race)});
    fmt::print(out, "{}\n", line_of(entry));
    for (const std::string& failure : entry.failures()) {
      ++failures;
      fmt::print(out, "  FAILURE {}: {}\n", name, failure);
    }
    std::fflush(out);
  }
  fmt::print(out, "\n{} s of {} time, {} thread{}, seed {}, {}\n", wanted.race.seconds,
             wanted.clock, wanted.race.threads, wanted.race.threads == 1 ? "" : "s",
             wanted.race.seed, wanted.race.as_floor ? "as floors" : "plain");
  fmt::print(out, "{}", table_of(summary_of(entries), yardsticks_for(entries.front().name)));
  fmt::print(out, "failures                      {}\n", failures);
  if (wanted.json) fmt::print("{}\n", json_of(wanted.race, entries));
  return failures == 0 ? 0 : 1;
}

}  // namespace
}  // namespace squeezeout::schedule::testing

int main(int argc, char** argv) {
  using namespace squeezeout::schedule::testing;
  CLI::App app{"Plans published scheduling instances against the clock.", "tools/bench plan"};
  Wanted wanted;
  app.add_option("--data", wanted.data, "folder of .sm or .sch files")
      ->required()
      ->check(CLI::ExistingDirectory);
  app.add_option("--bounds", wanted.bounds, "what is known of them: the set's _bounds.csv")
      ->required()
      ->check(CLI::ExistingFile);
  app.add_option("--seconds", wanted.race.seconds, "deadline of each instance")
      ->check(CLI::PositiveNumber)
      ->capture_default_str();
  app.add_option("--threads", wanted.race.threads, "searchers side by side, each with its own seed")
      ->check(CLI::Range(1, 64))
      ->capture_default_str();
  app.add_option("--clock", wanted.clock, "what a second is: wall, or cpu of the thread")
      ->check(CLI::IsMember({"wall", "cpu"}))
      ->capture_default_str();
  app.add_option("--only", wanted.only, "regular expression on the instances' names");
  app.add_option("--seed", wanted.race.seed, "of the first searcher")->capture_default_str();
  app.add_flag("--as-floor", wanted.race.as_floor,
               "with an always open calendar: generated for as floors are");
  app.add_flag("--json", wanted.json, "JSON on the output, the table on the error output");
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    if (error.get_exit_code() == 0) return app.exit(error);
    std::fprintf(
        stderr,
        "error: the benchmark cannot begin\n  why:  %s\n  mend: tools/bench plan --data DIR "
        "--bounds CSV --seconds 1; more: tools/bench plan --help\n",
        error.what());
    return 2;
  }
  wanted.race.clock = wanted.clock == "cpu" ? RaceClock::cpu : RaceClock::wall;
  return run(wanted);
}
