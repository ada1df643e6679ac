#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <unordered_set>
#include <vector>

#include "evidence/seen.h"
#include "evidence/source_types.h"
#include "evidence/witnesses.h"

// What each citation is worth, and the standing of every fact. Standing is worked out from the citations, never typed;
// the scale is SEMANTICS' "What a citation is worth", after the Board for Certification of Genealogists, Genealogy
// Standards, 2nd ed.
namespace saggar::evidence {

using records::Citation;
using records::Entry;
using records::Record;
using records::Value;

enum class Standing : std::uint8_t {
  documented,  // an original source says so directly, at first hand, and (for a date) at the time
  supported,   // two independent witnesses; or one original, or a copy of one, that falls short of that
  suggested,   // any other citation
  judged,      // the author's inference, whatever is cited beside it
  uncited,
};
std::string_view word(Standing standing);
std::string_view inWords(
    Standing standing);  // as a reader is told: "the author's judgement", "no source recorded"

// What a piece says of itself, by how it was seen.
Standing standingOf(Seen seen);

// What a source, specimen or photo is worth; of a citation, with what the citation says.
struct Worth {
  Form form = Form::authored;
  Information information = Information::undetermined;
  Shows shows = Shows::nothing;
  bool direct = true;  // not by inference, nor in a photograph of the piece, nor looked for in vain
  bool known = true;   // false: it is not there, or what it is could not be read, and a finding says so
  bool laterWords() const { return shows == Shows::nothing; }
};

enum class Counts : std::uint8_t {
  yes,
  notFound,  // looked for there in vain; counts for what is `unknown` or `none` alone
  tooEarly,  // the source is wholly earlier than the fact
};

// Where a value's evidence stands: beside it, beside what it is part of, or on its record.
struct Backing {
  const records::Evidence* evidence = nullptr;  // null: nowhere
  bool own = false;                             // not the record's
  bool disputed = false;                        // another source says otherwise, and it is not set aside
  bool doubted = false;
};

struct Weighed {
  Standing standing = Standing::uncited;
  bool disputed = false;
  bool doubted = false;  // the author doubts it, or what it is part of
  bool lost = false;     // rests on a citation that leads nowhere: it may be better than it seems
  bool own = false;      // by evidence that is not its record's
  // Several citations count, no two of them are independent, and counting two would make it supported.
  bool countedTwice = false;
  std::uint32_t counting = 0;          // citations that count
  const Citation* best = nullptr;      // the one it rests on, the first of the best
  const Citation* second = nullptr;    // the other of two independent witnesses that make it supported
  const Citation* tooEarly = nullptr;  // of those that do not count: the first that is too early
  const Citation* notFound = nullptr;  // the first that was looked for in vain
  const records::Evidence* evidence = nullptr;

  std::string_view word() const {  // "documented", "disputed"
    return disputed ? std::string_view("disputed") : evidence::word(standing);
  }
};

// How it is known that there is such a treatment: the best there is.
enum class KnownBy : std::uint8_t { inHand, pictured, documents, reports, nothing };
std::string_view word(KnownBy known);
std::string_view inWords(KnownBy known);  // as a reader is told: "known from documents only"

class Weights {
 public:
  // Built once from a frozen collection, which must outlive it. Takes time and memory for sources only; the standing
  // of a fact is worked out when it is asked for. Everything const may be called from several threads.
  explicit Weights(const Collection& collection);

  // --- citations

  Worth worthOf(RecordIndex thing) const;  // a source, specimen or photo
  Worth worthOf(const Citation& citation) const;
  bool wantsLocator(RecordIndex source) const;
  Counts counts(const Citation& citation, const Value& value, const Backing& backing) const;
  // The date of what is cited: the citation's `dated`, else its source's `date`, a specimen's `made`. Null for none,
  // and for one that is doubted or not known.
  const dates::Expression* dateOf(const Citation& citation) const;
  const Witnesses& witnesses() const { return witnesses_; }
  bool independent(const Citation& one, const Citation& other) const;

  // --- facts

  // What stands behind a value of the record, which may be a field's or any part of one. Looks for it in the record.
  Backing backingOf(RecordIndex record, const Value& value) const;

  // A value made of parts (a list, a look) stands as its weakest part does: that part's weight, and in `disputed` and
  // `lost` what is so of any part. Parts that are `unknown` weigh nothing.
  Weighed weigh(RecordIndex record, const Value& value) const;

  // Each part, that has no further parts, of those fields of a record that are wanted(const Entry& field):
  // tell(const Entry& field, const Value& part, const Weighed&), in the order typed. Faster than asking for each.
  template <class Wanted, class Tell>
  void eachFact(RecordIndex record, Wanted&& wanted, Tell&& tell) const;

  // How many of the citations behind a value count and are independent of one another; of more than 24 different
  // sources the first 24 are looked at.
  std::size_t independentCitations(const Value& value, const Backing& backing) const;

  // What reasoning found in conflict with other facts: from now on disputed, with what they are parts of. Before the
  // weights are shared between threads.
  void dispute(const Value& value);

  KnownBy knownBy(RecordIndex treatment) const;
  // Some source is cited for it, of whatever worth.
  bool isDocumented(RecordIndex record) const;

  // "documented", "supported by two independent witnesses", "the author's judgement", "disputed; …": what an author
  // would write of a fact that stands so.
  std::string inWords(const Weighed& weighed) const;

 private:
  // Many parts of a record rest on the same citations; what is no date then weighs the same.
  struct Memo {
    const records::Evidence* evidence = nullptr;
    Weighed weighed;
  };
  Backing inner(const Value& value, const Backing& outer) const;
  Backing recordBacking(RecordIndex record) const;
  Weighed weighPart(const Value& value, const Backing& backing, Memo& memo) const;
  Weighed weighed(const Value& value, const Backing& backing) const;
  void weighWhole(const Value& value, const Backing& backing, Memo& memo,
                  std::optional<Weighed>& whole) const;
  bool find(const Value& wanted, const Value& in, const Backing& outer, Backing& found) const;
  dates::Day lastDayOf(const Citation& citation) const;
  template <class Tell>
  void eachPart(const Entry& field, const Value& value, const Backing& outer, Memo& memo, Tell& tell) const;

  struct Source {
    dates::Day last;  // the last day it can be of; open where that is not known
    Worth worth;
    bool wantsLocator = false;
  };
  const Collection& collection_;
  Witnesses witnesses_;
  std::vector<std::uint32_t> sourceOf_;  // of a record: its place in sources_
  std::vector<Source> sources_;
  std::unordered_set<const Value*> disputes_;
};

template <class Wanted, class Tell>
void Weights::eachFact(RecordIndex record, Wanted&& wanted, Tell&& tell) const {
  const Backing own = recordBacking(record);
  Memo memo;
  for (const Entry& field : collection_[record].fields)
    if (field.known && wanted(field)) eachPart(field, field.value, own, memo, tell);
}

template <class Tell>
void Weights::eachPart(const Entry& field, const Value& value, const Backing& outer, Memo& memo,
                       Tell& tell) const {
  const Backing backing = inner(value, outer);
  if (value.is(records::ValueType::list) || value.is(records::ValueType::mapping)) {
    for (const Value& item : value.items()) eachPart(field, item, backing, memo, tell);
    for (const Entry& entry : value.entries()) eachPart(field, entry.value, backing, memo, tell);
    if (value.count() != 0) return;
  }
  tell(field, value, weighPart(value, backing, memo));
}

}  // namespace saggar::evidence
