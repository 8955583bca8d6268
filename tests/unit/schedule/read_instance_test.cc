// The readers of published instances, on small ones made up here.

#include "tests/support/schedule/read_instance.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

namespace squeezeout::schedule::testing {
namespace {

using ::testing::HasSubstr;
namespace fs = std::filesystem;

const std::string kSm = R"(****
jobs (incl. supersource/sink ):  4
RESOURCES
  - renewable                 :  2   R
PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          2           2   3
   2        1          1           4
   3        1          1           4
   4        1          0
****
REQUESTS/DURATIONS:
jobnr. mode duration  R 1  R 2
----
  1      1     0       0    0
  2      1     8       4    0
  3      1     5       1    2
  4      1     0       0    0
****
RESOURCEAVAILABILITIES:
  R 1  R 2
    4   3
)";

const std::string kSch =
    "2\t1\t0\t0\n"
    "0\t1\t1\t1\t[0]\n"
    "1\t1\t2\t2\t3\t[4]\t[6]\n"
    "2\t1\t2\t1\t3\t[-9]\t[3]\n"
    "3\t1\t0\n"
    "0\t1\t0\t0\n"
    "1\t1\t6\t2\n"
    "2\t1\t3\t1\n"
    "3\t1\t0\t0\n"
    "2\n";

class Reader : public ::testing::Test {
 protected:
  fs::path write(const std::string& name, const std::string& text) {
    const fs::path file = fs::path(::testing::TempDir()) / ("squeezeout_reader_" + name);
    std::ofstream(file) << text;
    return file;
  }
  static std::string without(std::string text, const std::string& what, const std::string& by) {
    const auto at = text.find(what);
    EXPECT_NE(at, std::string::npos);
    return text.replace(at, what.size(), by);
  }
};

TEST_F(Reader, ReadsSuccessorsAsLagsAfterReady) {
  const auto problem = read_instance(write("a.sm", kSm));
  ASSERT_TRUE(problem.has_value()) << problem.error().words();
  EXPECT_EQ(problem->capacity, (std::vector<int>{4, 3}));
  ASSERT_EQ(problem->tasks.size(), 4U);
  const Part& part = problem->tasks[2].modes.at(0).parts.at(0);
  EXPECT_EQ(part.length, 5);
  EXPECT_EQ(part.uses, (std::vector<Use>{{0, 1}, {1, 2}}));
  EXPECT_TRUE(problem->tasks[0].modes.at(0).parts.at(0).uses.empty());
  ASSERT_EQ(problem->lags.size(), 4U);
  EXPECT_EQ(problem->lags[3].from, 2);
  EXPECT_EQ(problem->lags[3].to, 3);
  EXPECT_EQ(problem->lags[3].ticks, 0);
  EXPECT_EQ(problem->lags[3].after, Lag::After::ready);
}

TEST_F(Reader, ReadsArcsAsLagsFromStartToStart) {
  const auto problem = read_instance(write("a.sch", kSch));
  ASSERT_TRUE(problem.has_value()) << problem.error().words();
  EXPECT_EQ(problem->capacity, (std::vector<int>{2}));
  ASSERT_EQ(problem->tasks.size(), 4U);
  EXPECT_EQ(problem->tasks[1].modes.at(0).parts.at(0).length, 6);
  ASSERT_EQ(problem->lags.size(), 5U);
  EXPECT_EQ(problem->lags[3].from, 2);
  EXPECT_EQ(problem->lags[3].to, 1);
  EXPECT_EQ(problem->lags[3].ticks, -9);
  EXPECT_EQ(problem->lags[3].after, Lag::After::start);
}

TEST_F(Reader, ReadsWhatIsKnown) {
  const auto table = read_known(write("known.csv",
                                      "instance,best_known_makespan,lower_bound,is_optimal,"
                                      "critical_path,energy_bound,status,source\n"
                                      "a,12,10,0,9,8,feasible,x\nb,,,1,7,6,infeasible,\n"));
  ASSERT_TRUE(table.has_value()) << table.error().words();
  EXPECT_EQ(table->at("a").best_makespan, 12);
  EXPECT_EQ(table->at("a").lower_bound, 10);
  EXPECT_FALSE(table->at("a").is_optimal);
  EXPECT_EQ(table->at("a").critical_path, 9);
  EXPECT_FALSE(table->at("b").feasible);
  EXPECT_EQ(table->at("b").best_makespan, std::nullopt);
}

TEST_F(Reader, SortsAsPeopleCount) {
  const fs::path folder = fs::path(::testing::TempDir()) / "squeezeout_reader_order";
  fs::remove_all(folder);
  fs::create_directories(folder);
  for (const char* name : {"j10_2.sm", "j9_10.sm", "j9_9.sm", "readme.txt", "j10_1.sm"})
    std::ofstream(folder / name) << "";
  std::vector<std::string> names;
  for (const auto& file : instances_in(folder)) names.push_back(file.filename().string());
  EXPECT_THAT(names, ::testing::ElementsAre("j9_9.sm", "j9_10.sm", "j10_1.sm", "j10_2.sm"));
  EXPECT_TRUE(instances_in(folder / "none").empty());
}

TEST_F(Reader, SaysWhereAndWhatIsWrong) {
  struct Wrong {
    std::string name, text;
    int line;
    const char* what;
  };
  const std::vector<Wrong> all{
      {"b.sm", without(kSm, "   2        1          1           4", "   2   1   2   4"), 8,
       "counts its successors wrongly"},
      {"c.sm", without(kSm, "           2   3\n", "           2   9\n"), 7, "is no job"},
      {"d.sm", without(kSm, "  2      1     8", "  2      1     x"), 16, "says 'x'"},
      {"e.sm", without(kSm, "    4   3\n", ""), 21, "ends where"},
      {"f.sch", without(kSch, "[-9]", ""), 4, "give each successor its lag"},
      {"g.sch", without(kSch, "2\t1\t3\t1\n", "2\t1\t3\n"), 8, "demand of each resource"},
      {"h.txt", kSch, 0, "no known format"},
  };
  for (const Wrong& wrong : all) {
    const fs::path file = write(wrong.name, wrong.text);
    const auto problem = read_instance(file);
    ASSERT_FALSE(problem.has_value()) << wrong.name;
    EXPECT_EQ(problem.error().file, file.string());
    EXPECT_EQ(problem.error().line, wrong.line) << wrong.name;
    EXPECT_THAT(problem.error().words(), HasSubstr(wrong.what));
    EXPECT_FALSE(problem.error().mend.empty());
  }
  EXPECT_THAT(read_instance("no/such.sm").error().words(), HasSubstr("cannot be opened"));
}

}  // namespace
}  // namespace squeezeout::schedule::testing
