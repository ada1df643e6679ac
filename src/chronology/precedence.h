#pragma once
#include <memory>

#include "chronology/chronology.h"

// Which of two events came first, from the shortest ways between them, not from their bounds alone.
namespace saggar::chronology {

enum class WhichFirst : std::uint8_t { first, second, sameDay, undecided, contradiction };

// What would decide an order: the event's bound that would have to move, and to which day.
struct Settling {
  bool first = true;  // of the first event
  dates::End bound = dates::End::Earliest;
  dates::Day day;
  bool thenFirst = true;  // then the first event is the first
};

struct Precedence {
  // First, second: at least a day before the other. Contradiction: it is not proven, and which fact of a clash is left out
  // decides it.
  WhichFirst answer = WhichFirst::undecided;
  WhichFirst likely = WhichFirst::undecided;
  // It is proven that the first was not before the second, but after it or on the same day; and by what. Likewise that
  // the second was not before the first.
  bool notFirst = false, notSecond = false;
  std::vector<FactId> whyNotFirst, whyNotSecond;
  std::vector<FactId> because;  // of a contradiction: what cannot all be true
  // Nearest first; none if it is decided or a contradiction. What is proven rules out is left out, and so is a day after
  // that on which somebody saw a piece: nobody could hope to find it.
  std::vector<Settling> settle;
};

struct PrecedenceIndex;

// For any number of questions, from any number of threads; the chronology must outlive it. All that are made of one
// chronology share their index, which costs about as much as the chronology itself.
class Precedences {
 public:
  explicit Precedences(const Chronology& chronology);
  Precedence of(Node a, Node b) const;

 private:
  const Clash* clashBehind(Node a, Node b) const;

  const Chronology& chronology_;
  std::shared_ptr<const PrecedenceIndex> index_;
};

}  // namespace saggar::chronology
