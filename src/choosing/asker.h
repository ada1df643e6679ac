#pragma once
#include "choosing/condition_node.h"
#include "choosing/grounds.h"
#include "choosing/walk.h"

// Asks a condition of a record. Not for other rooms.
namespace saggar::choosing {

class Asker {
 public:
  Asker(const Collection& collection, const Bounds& bounds, bool mayBeNone, const Shown* shown = nullptr,
        const PieceView* view = nullptr)
      : collection_(collection), bounds_(bounds), mayBeNone_(mayBeNone), shown_(shown), view_(view) {}

  Answer ask(const Condition::Node& node, const Origin& origin) const;
  // The same, with what the answer rests on (condition_told.cpp).
  Told tell(const Condition::Node& node, const Origin& origin, const Firmness& firmness) const;

 private:
  using Node = Condition::Node;

  // What was reached, and what each says by itself; kept only where somebody wants to know why.
  struct Notes {
    const Firmness& firmness;
    const Origin& origin;
    std::vector<Told> all;
  };

  Answer test(const Node& node, const Origin& origin, Notes* notes) const;
  Answer within(const Path& path, const Node& inner, const Origin& origin, Notes* notes) const;
  Answer words(const Node& node, const Origin& origin, Notes* notes) const;
  Answer values(const Node& node, const Origin& origin, std::span<const Step> steps, Notes* notes) const;
  Answer fits(const Node& node, const Reached& reached) const;
  bool equal(const Wanted& wanted, const records::Value& value, const Reached& reached, bool byKey) const;
  Answer fitsDays(const WantedDays& wanted, const Reached& reached) const;
  Answer endFits(const WantedDays& wanted, const Reached& reached, bool ofRecord) const;
  Answer madeInTest(const Node& node, const Origin& origin, Notes* notes) const;
  template <class Visit>
  void walk(std::span<const Step> steps, bool keepMappings, const Origin& origin, Visit& visit) const {
    Walker(collection_, steps, keepMappings, visit, shown_, view_).from(origin);
  }
  Answer madeInOf(RecordIndex owner, const Node& node, std::span<const Step> lastStep, Notes* notes) const;
  const Shown::Link* shownIn(RecordIndex form, RecordIndex shape) const;
  static bool isEventOfRecord(const Reached& reached);

  // condition_told.cpp
  void note(Notes& notes, std::span<const Step> steps, const Node& node, const Reached& reached,
            Answer answer) const;
  void noteWords(Notes& notes, const Node& node, Answer answer) const;
  void noteList(Notes& notes, std::span<const Step> steps) const;
  Ground listGround(const Notes& notes, std::span<const Step> steps, const Reached& reached) const;
  void noteMadeIn(Notes& notes, RecordIndex form, RecordIndex shape, Answer answer) const;
  void noteField(Notes& notes, RecordIndex record, records::Field field, Answer answer) const;
  static void add(Notes& notes, Ground ground, Answer answer);
  void addLink(Told& out, const Notes& notes, std::span<const Step> steps) const;
  Ground groundOf(const Notes& notes, std::span<const Step> steps, const Reached& reached) const;
  Ground shownGround(const Reached& reached) const;
  void decideDays(Ground& ground, const WantedDays& wanted, const Reached& reached) const;

  const Collection& collection_;
  const Bounds& bounds_;
  bool mayBeNone_;
  const Shown* shown_;
  const PieceView* view_;
};

}  // namespace saggar::choosing
