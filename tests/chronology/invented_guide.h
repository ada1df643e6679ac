#pragma once
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "spelled_out.h"

// A small guide in memory that anybody may edit anywhere, for the tests of reasoning: two makers, shapes, motifs,
// treatments with numbers, a mark, pieces, sources of several types. All data is invented. It writes itself as YAML, and
// says by itself, apart from the program, what its records state (stated.cpp).
namespace saggar::chronology::invented {

using spelled::Days;

// 1 January 1970 is the day 0.
long firstDay(int year, int month = 1);
long lastDay(int year, int month = 12);

struct Date {
  std::string text;
  Days plain, wide;                         // a doubted end is open in `wide`
  std::vector<spelled::Member> oneOf = {};  // what it can be, where it is one of several
};

struct Citation {
  std::size_t source = 0;
  std::optional<Date> dated;
  int line = 0;  // where it stands in the text; set by yaml()
};

struct Evidence {
  std::vector<Citation> cite;
  bool judged = false;
  bool doubted = false;
  std::string but = {};  // what another source says instead
  bool setAside = false;
};

struct Value {
  std::string is;                   // as typed
  Date date;                        // of a moment; of a span when it began
  Date until;                       // when it ended
  std::optional<std::size_t> to;    // the record it names
  std::optional<std::size_t> orTo;  // a treatment is on one of two shapes
  std::string event;                // of `after`: `shape:s1.introduced`
  std::string least, most;          // at-least, within
  int number = 0;                   // of a code
  Evidence evidence;
  int line = 0;
};

struct Field {
  std::string name;
  std::optional<Value> value;
};

struct Record {
  std::string kind, id;
  std::vector<Field> fields;  // all that it can have, in the order they are typed
  std::vector<Citation> cite;

  std::string reference() const { return kind + ':' + id; }
  const Value* find(const std::string& name) const;
};

class Guide {
 public:
  explicit Guide(unsigned seed);

  // One change somewhere; in words, to say where a test stopped.
  std::string edit();
  // One change of a record that has something in dispute.
  std::string settle(const spelled::Answer& answer);

  // Numbers the lines of what it states.
  std::string yaml();

  std::vector<Record> records;
  std::optional<std::size_t> shapeBut(std::size_t shape) const;  // another shape
  // A few of the records' own dates become one of two to four.
  void maybeSeveral();
  // Of a few values another source says something else.
  void maybeDisputed();

 private:
  int upTo(int most) { return static_cast<int>(random_() % static_cast<unsigned>(most + 1)); }
  bool oneIn(int times) { return upTo(times - 1) == 0; }
  std::size_t any(const std::string& kind);
  Date aDate(int around, int spread);
  Citation aCitation();
  Evidence someEvidence();
  Value aValue(const Record& record, const std::string& field);
  std::string change(Record& record);

  std::mt19937 random_;
};

// Everything that the records state, by SEMANTICS, "The relations records imply" and "What a citation is worth". Point
// names are those of events, `shape:s1.introduced`; codes have points of their own.
struct Stated {
  spelled::Told told;
  // A treatment is on one of several shapes: its statement has no steps of its own.
  struct OneOf {
    long place;
    int introduced, withdrawn;
    std::vector<std::pair<int, int>> shapes;  // introduced, withdrawn
  };
  std::vector<OneOf> oneOf;
  std::vector<std::string> points;
};
Stated statedBy(const Guide& guide);

// What kind of fact stands on a line: the low digits of a statement's place.
long placeOf(int line, int says);

}  // namespace saggar::chronology::invented
