// The judge refuses each kind of wrong schedule, and says why. Each case spoils one thing of a valid schedule.

#include "tests/support/schedule/checker.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>

namespace squeezeout::schedule::testing {
namespace {

class EachHourLonger final : public Length {
 public:
  Tick at(Tick begin) const override { return 2 + begin / 10; }
};

// A day of 0..10 and one of 20..30. Three clamps, two deep clamps, one bench.
// Task 0: glue (at the bench, by day, as long as the hour makes it), clamped, then release (elastic, by day); it holds two
// clamps, shallow or deep, and one deep one. Task 1 waits until task 0 is ready, and not much longer.
struct Case {
  Problem problem{.capacity = {3, 2, 1},
                  .calendars = {{.open = {{0, 10}, {20, 30}}}},
                  .lags = {{.from = 0, .to = 1, .ticks = 1, .after = Lag::After::ready},
                           {.from = 1, .to = 0, .ticks = -40, .after = Lag::After::start}},
                  .taken = {{.resource = 0, .count = 2, .span = {0, 4}}},
                  .horizon = 60};
  Schedule schedule;

  Case() {
    Part glue{.by_begin = std::make_shared<EachHourLonger>(), .calendar = 0, .uses = {{2, 1}}};
    Part clamped{.length = 5};
    Part release{.length = 2, .calendar = 0, .joins = Part::Joins::elastic};
    Mode usual{.parts = {glue, clamped, release},
               .held = {{.count = 2, .resources = {0, 1}}, {.count = 1, .resources = {1}}},
               .wait = Wait{.from_part = 1, .length = 25},
               .starts = {{2, 9}}};
    Mode slow{.parts = {Part{.length = 50}}, .penalty = 7};
    problem.tasks.push_back({.modes = {usual, slow},
                             .earliest = 1,
                             .latest = 30,
                             .due = 30,
                             .weight = 3,
                             .announced = 5});
    problem.tasks.push_back({.modes = {Mode{.parts = {Part{.length = 4, .uses = {{2, 1}}}}}}});
    // 4..6 glue, 6..11 clamped, 20..22 release; ready at 6 + 25.
    schedule.tasks.push_back({.mode = 0, .begins = {4, 6, 20}, .held = {{0, 2}, {1, 1}}});
    schedule.tasks.push_back({.mode = 0, .begins = {32}, .held = {}});
    schedule.cost = {.late = 3, .disturbed = kMoved + 1, .makespan = 36};
  }
  Placed& first() { return schedule.tasks[0]; }
  Placed& second() { return schedule.tasks[1]; }
};

TEST(Checker, FindsNoFaultInAValidSchedule) {
  Case c;
  EXPECT_THAT(faults_of(c.problem, c.schedule), ::testing::IsEmpty());
  c.first().held = {{0, 1}, {1, 2}};  // another mix
  EXPECT_THAT(faults_of(c.problem, c.schedule), ::testing::IsEmpty());
}

struct Planted {
  const char* name;
  std::function<void(Case&)> spoil;
  const char* says;
};
void PrintTo(const Planted& planted, std::ostream* out) { *out << planted.name; }

class CheckerRefuses : public ::testing::TestWithParam<Planted> {};

TEST_P(CheckerRefuses, AndSaysWhy) {
  Case c;
  GetParam().spoil(c);
  EXPECT_THAT(faults_of(c.problem, c.schedule),
              ::testing::Contains(::testing::HasSubstr(GetParam().says)));
}

INSTANTIATE_TEST_SUITE_P(
    Every, CheckerRefuses,
    ::testing::Values(
        Planted{"TaskMissing", [](Case& c) { c.schedule.tasks.pop_back(); }, "places 1 tasks of 2"},
        Planted{"NoSuchMode", [](Case& c) { c.first().mode = 2; }, "in mode 2"},
        Planted{"PartMissing", [](Case& c) { c.first().begins.pop_back(); }, "2 begins for 3"},
        Planted{"NotAtOnce", [](Case& c) { c.first().begins[1] = 7; }, "not at once at 6"},
        Planted{"TooEarlyForElastic",
                [](Case& c) {
                  c.problem.tasks[0].modes[0].parts[2].calendar = -1;
                  c.first().begins[2] = 10;
                },
                "before the end of the part before at 11"},
        Planted{"LongerLater",
                [](Case& c) {  // at 10 glue lasts three ticks, so clamped cannot begin at 12
                  c.problem.calendars[0].open[0].end = 20;
                  c.problem.tasks[0].modes[0].starts.clear();
                  c.first().begins = {10, 12, 20};
                },
                "not at once at 13"},
        Planted{"OverClosing", [](Case& c) { c.first().begins[2] = 29; },
                "open window of calendar"},
        Planted{"AcrossTwoWindows",
                [](Case& c) {
                  c.problem.calendars[0].open = {{0, 10}, {20, 21}, {21, 30}};
                },
                "open window of calendar"},
        Planted{"MomentWhenClosed",
                [](Case& c) {
                  c.problem.tasks[0].modes[0].parts[2].length = 0;
                  c.first().begins[2] = 30;
                },
                "open window of calendar"},
        Planted{"TooCold",
                [](Case& c) {
                  c.problem.tasks[0].modes[0].starts = {{2, 4}, {5, 9}};
                },
                "windows of its mode's starts"},
        Planted{"BeforeEarliest", [](Case& c) { c.problem.tasks[0].earliest = 5; }, "earliest"},
        Planted{"AfterLatest", [](Case& c) { c.problem.tasks[1].latest = 31; }, "latest"},
        Planted{"BeyondHorizon", [](Case& c) { c.problem.horizon = 35; }, "after the horizon"},
        Planted{"TooFewHeld",
                [](Case& c) {
                  c.first().held = {{0, 2}};
                },
                "needed are 3"},
        Planted{"TooManyHeld",
                [](Case& c) {
                  c.first().held = {{0, 2}, {1, 2}};
                },
                "needed are 3"},
        Planted{"HeldNotGoodEnough",
                [](Case& c) {
                  c.first().held = {{0, 3}};
                },
                "good enough"},
        Planted{"HeldOfAnother",
                [](Case& c) {
                  c.first().held = {{0, 1}, {1, 1}, {2, 1}};
                },
                "good enough"},
        Planted{"HeldOutOfOrder",
                [](Case& c) {
                  c.first().held = {{1, 1}, {0, 2}};
                },
                "in order"},
        Planted{"HeldTwice",
                [](Case& c) {
                  c.first().held = {{0, 1}, {0, 1}, {1, 1}};
                },
                "in order"},
        Planted{"HeldNone",
                [](Case& c) {
                  c.first().held = {{0, 0}, {1, 3}};
                },
                "holds 0 pieces"},
        Planted{"HeldOfNoResource",
                [](Case& c) {
                  c.first().held = {{0, 2}, {3, 1}};
                },
                "is none"},
        Planted{"TakenAtTheStart",
                [](Case& c) {
                  c.problem.taken[0].span = {0, 5};
                },
                "at 4 2 of resource 0 are in use and 2 taken"},
        Planted{"TakenLater",
                [](Case& c) {
                  c.problem.taken[0].span = {21, 22};
                },
                "at 21 2 of resource 0 are in use and 2 taken"},
        Planted{"TwoAtOneBench",
                [](Case& c) {
                  c.problem.lags.clear();
                  c.second().begins = {5};
                  c.schedule.cost.makespan = 31;
                },
                "at 5 2 of resource 2 are in use"},
        Planted{"HeldUntilRelease",
                [](Case& c) {  // nothing runs at 15, but the clamps are on
                  c.problem.tasks[1].modes[0].parts[0].uses = {{0, 2}};
                  c.problem.lags.clear();
                  c.second().begins = {12};
                  c.schedule.cost.makespan = 31;
                },
                "at 12 4 of resource 0 are in use"},
        Planted{"LagAfterReady", [](Case& c) { c.second().begins = {31}; }, "the lag of 1"},
        Planted{"MostLag", [](Case& c) { c.second().begins = {45}; }, "the lag of -40"},
        Planted{"WrongLate", [](Case& c) { c.schedule.cost.late = 0; }, "it is 3"},
        Planted{"WrongDisturbed", [](Case& c) { c.schedule.cost.disturbed = 1; },
                "it is 1000000001"},
        Planted{"WrongPenalty", [](Case& c) { c.problem.tasks[1].modes[0].penalty = 4; },
                "it is 1000000005"},
        Planted{"WrongMakespan", [](Case& c) { c.schedule.cost.makespan = 35; }, "it is 36"}),
    [](const ::testing::TestParamInfo<Planted>& planted) { return planted.param.name; });

// Taken beyond what there is (a clamp broke) is no fault of who does not use it.
TEST(Checker, ForgivesWhatOthersTook) {
  Case c;
  c.problem.taken.push_back({.resource = 0, .count = 9, .span = {22, 60}});
  EXPECT_THAT(faults_of(c.problem, c.schedule), ::testing::IsEmpty());
}

}  // namespace
}  // namespace squeezeout::schedule::testing
