#pragma once
#include "chronology/gather.h"
#include "dates/binding.h"

// What the parts of gathering share. Not for other rooms.
namespace saggar::chronology {

class Builder {
 public:
  Builder(const linking::Collection& collection, const evidence::Weights& weighing, const Events& numbering,
          Gathered& out)
      : all(collection),
        weights(weighing),
        events(numbering),
        options(collection.settings().dates),
        out_(out) {}

  const linking::Collection& all;
  const evidence::Weights& weights;
  const Events& events;
  const dates::Options& options;

  // The weight of a value, or of its record's own evidence; a specimen's own word is as good as it was seen.
  FactId fact(RecordIndex record, Field field, const Value* value, Says says);
  FactId fact(RecordIndex record, Field field, const Value* value, Says says,
              const evidence::Weighed& weighed);
  FactId citationFact(RecordIndex record, Field field, const records::Citation& citation, Says says,
                      Standing standing);
  Fact& at(FactId fact) { return out_.facts[fact]; }
  void grade(FactId fact, Standing standing);
  void weaken(FactId fact, Standing atBest) { grade(fact, std::max(at(fact).standing, atBest)); }

  // `earlier` is not after `later`; does nothing if one of them is no event.
  void notAfter(Node earlier, Node later, FactId fact, Days atLeast = 0);
  void within(Node earlier, Node later, Days most, FactId fact);
  // Days by themselves, as they are read widely and plainly: one edge where both are the same. Ends that are not finite
  // bind nothing.
  void bind(Node node, const dates::Bounds& wide, const dates::Bounds& plain, FactId fact);
  void bindMoment(Node node, const dates::Expression& date, FactId fact);
  // Only from one side.
  void bindEarliest(Node node, dates::Day wide, dates::Day plain, FactId fact);
  void bindLatest(Node node, dates::Day wide, dates::Day plain, FactId fact);
  EdgeId notBefore(Node node, dates::Day day, FactId fact, std::uint8_t use = kBoth);
  EdgeId notAfterDay(Node node, dates::Day day, FactId fact, std::uint8_t use = kBoth);
  // Edges that exist whether or not they bind yet: far away until they are set.
  EdgeId open(Node from, Node to, FactId fact, std::uint8_t use);
  // `earlier` is not after `later`, once it is called for: the edge belongs to no reading.
  EdgeId notAfterIfAsked(Node earlier, Node later, FactId fact) { return edge(later, earlier, 0, fact, 0); }

  // A mark of another maker than the shape's may have been put on the piece afterwards.
  bool putOnWhenMade(RecordIndex mark, RecordIndex specimen) const;

  Node newNode() { return out_.network.addNode(); }
  Gathered& out() { return out_; }
  bool broken(RecordIndex record) const { return all[record].broken; }

 private:
  FactId add(const Fact& fact);
  EdgeId edge(Node from, Node to, Days days, FactId fact, std::uint8_t use);

  Gathered& out_;
};

// The value of one key of a structure, or the value itself where only its first field was typed.
const Value& partOf(const Value& value, Field first);

void gatherDates(Builder& builder, RecordIndex record);
void gatherRelations(Builder& builder, RecordIndex record);
void gatherCitations(Builder& builder, RecordIndex record);
void gatherCodes(Builder& builder, const CodeDates& codes);

}  // namespace saggar::chronology
