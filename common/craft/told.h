#pragma once
// What a part of the answer tells: its figures, and what it had to leave out. For the files of this room.

#include <span>
#include <vector>

#include "common/craft/answer.h"
#include "common/craft/faces.h"

namespace squeezeout {

struct Told {
  std::vector<Figure> figures;
  std::vector<OutOfRange> left_out;
  std::vector<FigureOf> unpublished;

  void add(Figure figure) { figures.push_back(std::move(figure)); }
  // A figure that is known as it is.
  void add(FigureOf of, FormulaId by, double value) {
    add({.of = of, .by = by, .band = {value, value, value}});
  }
  // Says each thing once, however many figures hang on it.
  void leave_out(const OutOfRange& why);
  void append(const Told& more);
};

// The sheet that is chosen, among those asked about; null: without glue.
[[nodiscard]] const SheetAsked* chosen_sheet(const JointQuestion& question);

[[nodiscard]] Told told_of_times(const JointQuestion& question);
[[nodiscard]] Told told_of_gear(std::span<const GearCount> gear);
[[nodiscard]] Told told_of_wood(const JointQuestion& question, const Faces& faces);
[[nodiscard]] Told told_of_bend(const JointQuestion& question);

// In words for the screens, from the question and what was worked out.
[[nodiscard]] std::vector<Caution> cautions_of(const JointQuestion& question,
                                               const JointAnswer& so_far);

}  // namespace squeezeout
