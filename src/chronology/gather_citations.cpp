#include <algorithm>

#include "chronology/builder.h"

// What a citation shows of days: that the thing existed by then, that its design did, that it was on offer then.
namespace saggar::chronology {

using dates::Expression;
using dates::Reading;
using evidence::Shows;
using evidence::Worth;
using records::Citation;
using records::Entry;
using records::Evidence;
using records::kNoRecord;

namespace {

constexpr Field kShowsNothing[] = {"also"_f,      "name"_f,     "note"_f,      "see"_f,
                                   "resembles"_f, "named-by"_f, "withdrawn"_f, "closed"_f};

Standing standingOf(const Worth& worth) {
  if (worth.form == evidence::Form::original)
    return worth.information == evidence::Information::primary ? Standing::documented : Standing::supported;
  return worth.form == evidence::Form::derivative && worth.information == evidence::Information::primary
             ? Standing::supported
             : Standing::suggested;
}

class Citations {
 public:
  Citations(Builder& builder, RecordIndex record) : builder_(builder), record_(record) {
    auto event = [&](Field field, EventEnd end = EventEnd::moment) {
      return builder.events.nodeOf(record, field, end);
    };
    switch (builder.all[record].kind) {
      case Kind::maker:
        existed_ = event("founded"_f);
        own_ = builder.all[record].find("founded"_f);
        break;
      case Kind::mark:
        existed_ = event("used"_f, EventEnd::from);
        own_ = builder.all[record].find("used"_f);
        break;
      case Kind::specimen:
        existed_ = event("made"_f);
        own_ = builder.all[record].find("made"_f);
        break;
      case Kind::shape:
      case Kind::motif:
      case Kind::treatment:
        existed_ = event("introduced"_f);
        own_ = builder.all[record].find("introduced"_f);
        designed_ = event("designed"_f);
        withdrawn_ = event("withdrawn"_f);
        break;
      default: break;
    }
  }

  void gather() {
    if (existed_ == kNoNode) return;
    const records::Record& record = builder_.all[record_];
    // A date of which every source is too early is a finding of its own: the same source is not held against it again.
    if (own_ != nullptr) {
      backing_ = builder_.weights.backingOf(record_, *own_);
      const evidence::Weighed weighed = builder_.weights.weigh(record_, *own_);
      tooEarly_ = weighed.tooEarly != nullptr && weighed.counting == 0;
    }
    take(record.evidence, "cite"_f);
    for (const Entry& entry : record.fields)
      if (entry.known && std::find(std::begin(kShowsNothing), std::end(kShowsNothing), entry.field) ==
                             std::end(kShowsNothing))
        walk(entry.value, entry.field);
  }

 private:
  void walk(const Value& value, Field field) {
    if (!value.isDoubted()) take(value.evidence, field);
    for (const Value& item : value.items()) walk(item, field);
    for (const Entry& entry : value.entries()) walk(entry.value, field);
  }

  void take(const Evidence* evidence, Field field) {
    if (evidence == nullptr) return;
    for (const Citation& citation : evidence->cite) show(citation, field);
  }

  // The same entry of the same source says it once.
  bool isNew(const Citation& citation) {
    for (const Citation* one : known_)
      if (one->target == citation.target && one->dated == citation.dated && one->at == citation.at)
        return false;
    known_.push_back(&citation);
    return true;
  }

  void show(const Citation& citation, Field field) {
    if (citation.target == kNoRecord || citation.says != records::Says::direct) return;
    const Worth worth = builder_.weights.worthOf(citation);
    if (!worth.known || !worth.direct || worth.shows == Shows::nothing) return;
    const bool drawn = worth.shows == Shows::designExisted;
    if (tooEarly_ && builder_.weights.counts(citation, *own_, backing_) == evidence::Counts::tooEarly) return;
    const Node event = drawn ? designed_ : existed_;
    if (event == kNoNode || !isNew(citation)) return;
    const Standing standing = standingOf(worth);
    const records::Record& source = builder_.all[citation.target];
    const Says says = drawn ? Says::drawn : Says::cited;
    if (citation.dated != nullptr) {
      const FactId fact = builder_.citationFact(record_, field, citation, says, standing);
      builder_.bindLatest(event, last(builder_, *citation.dated, false),
                          last(builder_, *citation.dated, true), fact);
      if (worth.shows == Shows::existedAndOffered) offered(citation, field, *citation.dated);
      return;
    }
    if (source.kind == Kind::specimen) {
      if (citation.target == record_) return;
      const FactId fact = builder_.citationFact(record_, field, citation, says, standing);
      // What was put on a piece afterwards was there when it was seen, not when it was made.
      const bool after =
          builder_.all[record_].kind == Kind::mark && !builder_.putOnWhenMade(record_, citation.target);
      builder_.notAfter(event, builder_.events.nodeOf(citation.target, after ? "seen"_f : "made"_f), fact);
      return;
    }
    if (source.kind != Kind::source || source.find("date"_f) == nullptr) return;
    const FactId fact = builder_.citationFact(record_, field, citation, says, standing);
    builder_.notAfter(event, builder_.events.nodeOf(citation.target, "date"_f, EventEnd::until), fact);
    const Expression* date = source.find("date"_f)->date();
    if (worth.shows == Shows::existedAndOffered && date != nullptr && !source.find("date"_f)->isDoubted())
      offered(citation, field, *date);
  }

  static dates::Day last(const Builder& builder, const Expression& dated, bool plain) {
    return dates::momentDays(dated, plain ? Reading::Plain : Reading::Wide, builder.options,
                             plain ? dates::Doubted::AtItsWord : dates::Doubted::BindsNothing)
        .latest;
  }

  // Lists go on showing what is no longer made, so that this gives way to all else.
  void offered(const Citation& citation, Field field, const Expression& date) {
    if (withdrawn_ == kNoNode) return;
    const dates::Day day =
        dates::momentDays(date, Reading::Plain, builder_.options, dates::Doubted::AtItsWord).earliest;
    if (!day.isFinite()) return;
    const FactId fact = builder_.citationFact(record_, field, citation, Says::offered, Standing::uncited);
    builder_.notBefore(withdrawn_, day, fact, kPlain);
  }

  Builder& builder_;
  RecordIndex record_;
  const Value* own_ = nullptr;  // the date of it that the record gives
  evidence::Backing backing_;
  bool tooEarly_ = false;
  Node existed_ = kNoNode;
  Node designed_ = kNoNode;
  Node withdrawn_ = kNoNode;
  std::vector<const Citation*> known_;
};

}  // namespace

void gatherCitations(Builder& builder, RecordIndex record) {
  Citations(builder, record).gather();
}

}  // namespace saggar::chronology
