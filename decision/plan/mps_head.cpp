// The value of the head as continuous columns that the binaries fix (M6, M7).
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "base/contract.hpp"
#include "decision/plan/mps_parts.hpp"

namespace rigproof::plan {
namespace {

using Tuple = std::vector<int>;  // a class, or -1, for every slot of the head

// Every option a class of its own, nothing joined.
HeadClasses one_each(const Problem& problem) {
  HeadClasses out;
  for (int slot = 0; slot < problem.head; ++slot) {
    auto& classes = out.of_option.emplace_back();
    for (std::size_t o = 0; o < problem.slots[static_cast<std::size_t>(slot)].options.size(); ++o)
      classes.push_back(static_cast<int>(o));
  }
  return out;
}

class HeadWriter {
 public:
  HeadWriter(const Problem& problem, const MpsOptions& options, const HeadClasses& classes,
             const std::vector<ForbiddenPairs>& pairs, MpsModel& model)
      : problem_(problem), options_(options), classes_(classes), model_(model) {
    RP_EXPECT(classes.of_option.size() == static_cast<std::size_t>(problem.head));
    for (const auto& of_option : classes_.of_option) {
      auto& first = first_of_.emplace_back();
      for (std::size_t o = 0; o < of_option.size(); ++o) {
        const auto at = static_cast<std::size_t>(of_option[o]);
        if (at >= first.size()) first.resize(at + 1, -1);
        if (first[at] < 0) first[at] = static_cast<int>(o);
      }
      RP_EXPECT(std::ranges::count(first, -1) == 0);
    }
    for (const ForbiddenPairs& two : pairs)
      if (two.second < problem.head) allow_pairs(two);
    for (int slot = 0; slot < problem.head; ++slot)
      if (std::ranges::find(classes.joined, slot) == classes.joined.end()) apart_.push_back(slot);
  }

  Result<double> write() {
    if (!classes_.joined.empty()) find_joints();
    if (too_many_) return too_many();
    auto valued = find_values();
    if (!valued) return tl::unexpected(valued.error());
    const auto [least, most] = std::ranges::minmax_element(valued->values);
    if (valued->values.empty() || *least == *most)  // then it is a constant
      return valued->values.empty() ? 0.0 : *least;
    add_columns(*valued);
    return 0.0;
  }

 private:
  // Columns of the value: joint class (-1: nothing is joined), classes of the slots apart.
  struct Valued {
    std::vector<std::pair<int, Tuple>> of;
    std::vector<double> values;
  };
  struct Joint {
    Tuple some;                      // one of its combinations
    std::vector<Tuple> tuples = {};  // all of them
  };

  // Of two slots, which classes have options that go with each other.
  void allow_pairs(const ForbiddenPairs& two) {
    auto& met = met_[{two.first, two.second}];
    const auto& rows = classes_.of_option[static_cast<std::size_t>(two.first)];
    const auto& columns = classes_.of_option[static_cast<std::size_t>(two.second)];
    for (std::size_t a = 0; a < rows.size(); ++a)
      for (std::size_t b = 0; b < columns.size(); ++b)
        if (!two.forbids(static_cast<int>(a), static_cast<int>(b)))
          met.insert({rows[a], columns[b]});
  }

  [[nodiscard]] bool meets(const Tuple& tuple, int slot, int of_class) const {
    for (int other = 0; other < problem_.head; ++other) {
      const int theirs = tuple[static_cast<std::size_t>(other)];
      if (theirs < 0) continue;
      const bool before = other < slot;
      const auto at = met_.find(before ? std::pair{other, slot} : std::pair{slot, other});
      if (at == met_.end()) continue;
      if (!at->second.contains(before ? std::pair{theirs, of_class} : std::pair{of_class, theirs}))
        return false;
    }
    return true;
  }

  // Every combination of classes of some slots in which each two go together.
  template <class See>
  void walk(std::span<const int> slots, Tuple& tuple, const See& see) {
    if (too_many_) return;
    if (slots.empty()) return see();
    const auto slot = static_cast<std::size_t>(slots.front());
    for (std::size_t c = 0; c < first_of_[slot].size(); ++c) {
      if (!meets(tuple, slots.front(), static_cast<int>(c))) continue;
      tuple[slot] = static_cast<int>(c);
      walk(slots.subspan(1), tuple, see);
      tuple[slot] = -1;
    }
  }

  // Some head of these classes; slots of no class get their first option.
  [[nodiscard]] std::vector<int> head_of(const Tuple& tuple) const {
    std::vector<int> head;
    head.reserve(tuple.size());
    for (std::size_t slot = 0; slot < tuple.size(); ++slot)
      head.push_back(first_of_[slot].empty()
                         ? -1
                         : first_of_[slot][static_cast<std::size_t>(std::max(tuple[slot], 0))]);
    return head;
  }

  [[nodiscard]] tl::unexpected<Error> too_many() const {
    return fail(ErrorCode::out_of_range,
                fmt::format("the value of the score would need more than {} columns: the head "
                            "has too many classes to be written",
                            options_.most_head_columns));
  }
  void count_one() { too_many_ = too_many_ || ++counted_ > options_.most_head_columns; }

  void find_joints() {
    Tuple tuple(static_cast<std::size_t>(problem_.head), -1);
    walk(classes_.joined, tuple, [&] {
      count_one();
      const auto joint = static_cast<std::size_t>(classes_.joint(head_of(tuple)));
      if (joint >= joints_.size()) joints_.resize(joint + 1);
      if (joints_[joint].tuples.empty()) joints_[joint].some = tuple;
      joints_[joint].tuples.push_back(tuple);
    });
  }

  Result<Valued> find_values() {
    Valued out;
    std::vector<Tuple> heads;  // beside `of`: a class for every slot
    Tuple tuple(static_cast<std::size_t>(problem_.head), -1);
    const auto with = [&](int joint, const Tuple* some) {
      walk(apart_, tuple, [&] {
        count_one();
        out.of.emplace_back(joint, tuple);
        heads.push_back(tuple);
        if (some != nullptr)
          for (const int slot : classes_.joined)
            heads.back()[static_cast<std::size_t>(slot)] = (*some)[static_cast<std::size_t>(slot)];
      });
    };
    if (classes_.joined.empty()) with(-1, nullptr);
    for (std::size_t j = 0; j < joints_.size(); ++j)
      if (!joints_[j].tuples.empty()) with(static_cast<int>(j), &joints_[j].some);
    if (too_many_) return too_many();
    for (const Tuple& head : heads) {
      if (options_.stop && options_.stop()) return fail(ErrorCode::stopped, "stopped");
      if (options_.progress) options_.progress(out.values.size(), heads.size());
      out.values.push_back(problem_.head_value(head_of(head)));
    }
    return out;
  }

  // (M6): what is written of the classes of a slot adds up to what is chosen of their options.
  int class_row(std::string_view of, int slot, int of_class) {
    const auto& classes = classes_.of_option[static_cast<std::size_t>(slot)];
    const int row = model_.linear.add_row(fmt::format("{}_{}_{}", of, slot, of_class),
                                          LinearModel::Sense::equal, 0.0);
    for (std::size_t o = 0; o < classes.size(); ++o)
      if (classes[o] == of_class)
        model_.linear.enter(
            row, model_.first_column[static_cast<std::size_t>(slot)] + static_cast<int>(o), -1.0);
    return row;
  }

  std::vector<std::vector<int>> class_rows(std::string_view of, std::span<const int> slots) {
    std::vector<std::vector<int>> rows(static_cast<std::size_t>(problem_.head));
    for (const int slot : slots)
      for (std::size_t c = 0; c < first_of_[static_cast<std::size_t>(slot)].size(); ++c)
        rows[static_cast<std::size_t>(slot)].push_back(class_row(of, slot, static_cast<int>(c)));
    return rows;
  }

  void enter_classes(const std::vector<std::vector<int>>& rows, std::span<const int> slots,
                     const Tuple& tuple, int column) {
    for (const int slot : slots)
      model_.linear.enter(rows[static_cast<std::size_t>(slot)]
                              [static_cast<std::size_t>(tuple[static_cast<std::size_t>(slot)])],
                          column, 1.0);
  }

  // (M7): the columns of a joint class add up to its combinations.
  std::vector<int> add_joints() {
    const auto rows = class_rows("joined", classes_.joined);
    std::vector<int> joint_rows;
    for (std::size_t j = 0; j < joints_.size(); ++j) {
      joint_rows.push_back(
          model_.linear.add_row(fmt::format("joint_{}", j), LinearModel::Sense::equal, 0.0));
      int number = 0;
      for (const Tuple& tuple : joints_[j].tuples) {
        const int column = model_.linear.add_column({.name = fmt::format("v_{}_{}", j, number++)});
        enter_classes(rows, classes_.joined, tuple, column);
        model_.linear.enter(joint_rows.back(), column, -1.0);
      }
    }
    return joint_rows;
  }

  void add_columns(const Valued& valued) {
    const auto joint_rows = add_joints();
    const auto rows = class_rows("head", apart_);
    for (std::size_t i = 0; i < valued.of.size(); ++i) {
      const auto& [joint, tuple] = valued.of[i];
      const int column = model_.linear.add_column(
          {.name = fmt::format("y_{}", i), .objective = -valued.values[i]});
      if (joint >= 0) model_.linear.enter(joint_rows[static_cast<std::size_t>(joint)], column, 1.0);
      enter_classes(rows, apart_, tuple, column);
    }
  }

  const Problem& problem_;
  const MpsOptions& options_;
  const HeadClasses& classes_;
  MpsModel& model_;
  std::vector<std::vector<int>> first_of_;  // some option of each class, by slot
  std::map<std::pair<int, int>, std::set<std::pair<int, int>>> met_;
  std::vector<int> apart_;  // slots of the head that are not joined
  std::vector<Joint> joints_;
  std::size_t counted_ = 0;
  bool too_many_ = false;
};

}  // namespace

Result<double> add_head(const Problem& problem, const MpsOptions& options,
                        const std::vector<ForbiddenPairs>& pairs, MpsModel& model) {
  if (problem.head == 0) return 0.0;
  const HeadClasses classes =
      options.head_classes != nullptr ? *options.head_classes : one_each(problem);
  return HeadWriter(problem, options, classes, pairs, model).write();
}

}  // namespace rigproof::plan
