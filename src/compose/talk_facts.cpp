#include "compose/talk_facts.h"

#include <algorithm>

#include "base/text.h"
#include "compose/claim_tests.h"
#include "compose/claims.h"
#include "compose/days.h"
#include "compose/entries.h"
#include "compose/phrases.h"
#include "evidence/seen.h"

// One short function for each kind of record: longer than most files, because they share the few ways to make a line, and
// what two kinds say alike must stay alike.
namespace saggar::compose {

using document::text;
using records::Entry;
using records::Field;
using records::Value;
using records::ValueType;

namespace {

RecordIndex targetOf(const PublishedRecord& record, Field field) {
  const Value* value = record.find(field);
  return value == nullptr || !value->said() || value->each().empty() ? records::kNoRecord
                                                                     : value->each()[0].target();
}

bool isWithdrawnClaim(const PublishedRecord& claim) {
  return claim.text("status"_f) == "withdrawn";
}

// What a field holds, where there is nothing to be said of it: "modeller not known", "no modeller".
std::string nounOf(Field field) {
  constexpr std::pair<Field, std::string_view> kNouns[] = {
      {"active"_f, "years of work"},
      {"actual"_f, "size"},
      {"born"_f, "year of birth"},
      {"closed"_f, "year of closing"},
      {"code"_f, "number"},
      {"code-seen"_f, "number on it"},
      {"continues"_f, "earlier number"},
      {"decorated-by"_f, "decorator"},
      {"died"_f, "year of death"},
      {"for"_f, "customer"},
      {"founded"_f, "year of founding"},
      {"holds"_f, "capacity"},
      {"laid"_f, "way of laying"},
      {"made"_f, "year of making"},
      {"marks"_f, "mark"},
      {"named-by"_f, "giver of the name"},
      {"nominal"_f, "list size"},
      {"offered"_f, "years of offer"},
      {"prefix"_f, "prefix in codes"},
      {"reads"_f, "words"},
      {"shows"_f, "picture"},
      {"supplier-number"_f, "supplier's number"},
      {"used"_f, "years of use"},
  };
  for (const auto& [own, noun] : kNouns)
    if (own == field) return std::string(noun);
  std::string words(field.name());
  std::replace(words.begin(), words.end(), '-', ' ');
  return words;
}

// The lines of one record.
class Lines {
 public:
  Lines(const Words& words, RecordIndex index)
      : words_(words), records_(words.materials().records), index_(index), record_(records_[index]) {}

  std::vector<Inlines> make() {
    switch (record_.kind()) {
      case Kind::maker: maker(); break;
      case Kind::person: person(); break;
      case Kind::shape: shape(); break;
      case Kind::form: form(); break;
      case Kind::motif: motif(); break;
      case Kind::treatment: treatment(); break;
      case Kind::set: set(); break;
      case Kind::mark: mark(); break;
      case Kind::specimen: specimen(); break;
      case Kind::source: source(); break;
      case Kind::feature: feature(); break;
      case Kind::claim: claim(); break;
      case Kind::question: question(); break;
      case Kind::term: say("means"_f, ""); break;
      case Kind::photo: say("caption"_f, ""); break;
      default: break;
    }
    return std::move(lines_);
  }

 private:
  void line(Inlines words) {
    if (!words.empty()) lines_.push_back(std::move(words));
  }
  void line(std::string words) {
    if (!words.empty()) lines_.push_back({text(std::move(words))});
  }

  // A value with its own evidence in brackets behind it. What is doubted or said otherwise has a line below.
  Inlines valueOf(Field field) {
    const Value* value = record_.find(field);
    if (value == nullptr) return {};
    const records::FieldSpec* spec = records::specOf(record_.kind(), field);
    Inlines out = words_.bareValue(value, spec, record_);
    addEvidence(out, *value);
    for (Inlines& one : words_.remarks(*value, spec, record_)) remarks_.push_back(std::move(one));
    if (spec != nullptr &&
        (spec->type == records::FieldType::moment || spec->type == records::FieldType::span))
      if (Inlines days = daysBeside(words_, record_, field, Room::lectern); !days.empty())
        remarks_.push_back(std::move(days));
    return out;
  }

  void addEvidence(Inlines& out, const Value& value) {
    Inlines own = words_.evidenceBeside(record_, value, true);
    if (own.empty()) return;
    evidenceSeen_ = true;
    putInBrackets(out, std::move(own));
  }

  void lineAndRemarks(Inlines words) {
    line(std::move(words));
    for (Inlines& one : remarks_) line(std::move(one));
    remarks_.clear();
  }

  // "modelled by Ismerelda Quoyne"; of what is not there "modeller not known", "no modeller".
  Inlines labelledValue(Field field, std::string_view label) {
    const Value* value = record_.find(field);
    Inlines out;
    if (value == nullptr) return out;
    if (!value->said() && value->type != ValueType::unfit) {
      const bool none = value->type == ValueType::none;
      put(out, none ? "no " + nounOf(field) : nounOf(field) + " not known");
      addEvidence(out, *value);
      return out;
    }
    put(out, label.empty() ? "" : std::string(label) + ' ');
    put(out, valueOf(field));
    return out;
  }

  void say(Field field, std::string_view label) { lineAndRemarks(labelledValue(field, label)); }

  // Several values on one line.
  void sayTogether(std::initializer_list<std::pair<Field, std::string_view>> fields) {
    std::vector<Inlines> parts;
    for (const auto& [field, label] : fields)
      if (Inlines part = labelledValue(field, label); !part.empty()) parts.push_back(std::move(part));
    lineAndRemarks(separated(std::move(parts), "; "));
  }

  // What is proven of a year has a line below, which names it.
  void proven(Field field) {
    Inlines days = daysBeside(words_, record_, field, Room::lectern);
    if (days.empty()) return;
    Inlines named;
    put(named, field == "introduced"_f ? "first date " : "last date ");
    put(named, std::move(days));
    remarks_.push_back(std::move(named));
  }

  // The words of a year with its evidence; what is doubted about it has a line below, which names it.
  void putYear(Inlines& out, Field field, std::string words) {
    const Value& value = *record_.find(field);
    put(out, std::move(words));
    addEvidence(out, value);
    for (Inlines& one : words_.remarks(value, records::specOf(record_.kind(), field), record_)) {
      Inlines named;
      put(named, field == "introduced"_f ? "first date" : "last date");
      put(named, document::plainText(one).starts_with("doubted") ? " " : ": ");
      put(named, std::move(one));
      remarks_.push_back(std::move(named));
    }
    proven(field);
  }

  // "offered 1938 (Decoration books, vol. 5) to 1951 (…)", "on sale by 7 October 1923 (…), to 1938 (…)"; "used" of a motif.
  void dates(std::string_view label) {
    const Value* from = record_.find("introduced"_f);
    const Value* until = record_.find("withdrawn"_f);
    const bool begins = from != nullptr && from->said();
    const bool ends = until != nullptr && until->said();
    const bool motif = record_.kind() == Kind::motif;
    Inlines out;
    if (!begins && !ends) {
      const bool known = from == nullptr && until == nullptr;
      put(out,
          std::string("years of ") + (motif ? "use" : "offer") + " not " + (known ? "recorded" : "known"));
      for (const Value* one : {from, until})
        if (one != nullptr) addEvidence(out, *one);
      proven("introduced"_f);
      proven("withdrawn"_f);
      return lineAndRemarks(std::move(out));
    }
    std::string begun = begins ? words_.beginning(*from) : std::string();
    const bool by = begun.starts_with("by ");
    put(out, by ? (motif ? "in use " : "on sale ") : std::string(label) + ' ');
    if (begins) {
      const bool plain = begun.starts_with("from ");
      if (plain && ends) begun.erase(0, 5);
      putYear(out, "introduced"_f, std::move(begun));
      if (ends) put(out, plain ? " to " : ", to ");
    } else {
      put(out, "until ");
    }
    if (ends) putYear(out, "withdrawn"_f, words_.ending(*until));
    const Value* missing = begins ? until : from;
    if (!(begins && ends) && (missing != nullptr || ends)) {
      put(out, missing != nullptr && missing->type == ValueType::none ? "; never given up"
               : ends                                                 ? "; first year not "
                                                                      : "; last year not ");
      if (missing == nullptr || missing->type != ValueType::none)
        put(out, missing == nullptr ? "recorded" : "known");
      if (missing != nullptr) addEvidence(out, *missing);
      proven(begins ? "withdrawn"_f : "introduced"_f);
    }
    lineAndRemarks(std::move(out));
  }

  void look() { say("look"_f, ""); }

  // "known from Price list 17"; an author's judgement is no source that one knows a thing from.
  void knownFrom(Inlines evidence) {
    const std::string words = document::plainText(evidence);
    Inlines out;
    const bool source = words != "no source recorded" && !words.starts_with("the author's judgement");
    put(out, source ? "known from " : "");
    put(out, std::move(evidence));
    line(std::move(out));
  }

  // The record's own citations; where there are none and no line had any, that nobody has said who knows it.
  void known() {
    const records::Evidence* own = record_.evidence();
    const bool cited = own != nullptr && (!own->cite.empty() || !own->judged().empty());
    if (!cited && evidenceSeen_) return;
    knownFrom(cited ? words_.rowEvidence(record_) : Inlines{text("no source recorded")});
  }

  // What each code says, without repeating a code that the name begins with.
  void codes(Field field, std::string_view before) {
    const Value* value = record_.find(field);
    if (value == nullptr) return;
    if (!value->said()) return say(field, {});
    const std::string name = words_.plainName(index_);
    for (const Value& one : value->each()) {
      std::string readings;
      for (const choosing::CodeOnRecord& code : words_.materials().codes.of(index_)) {
        if (code.field != field || code.value == nullptr || code.value->text != one.text) continue;
        readings = words_.readingsInWords(code);
        if (readings.empty() && code.applies && code.possibleCount() == 0)
          readings = code.readings.empty() ? "no rule reads it" : "every reading is ruled out";
        break;
      }
      const bool named = field == "code"_f && name.starts_with(std::string_view(one.text));
      if (named && readings.empty()) continue;
      std::string out = named ? std::string() : std::string(before) + std::string(one.text);
      if (!readings.empty()) out += (out.empty() ? "" : ": ") + readings;
      line(std::move(out));
    }
  }

  void maker() {
    sayTogether({{"trade"_f, ""}, {"place"_f, "at"}});
    if (record_.find("active"_f) != nullptr) say("active"_f, "traded");
    sayTogether({{"founded"_f, "founded"}, {"closed"_f, "closed"}});
    say("prefix"_f, "prefix in codes");
    known();
  }

  void person() {
    say("part"_f, "");
    sayTogether({{"born"_f, "born"}, {"died"_f, "died"}, {"active"_f, "active"}});
  }

  void shape() {
    look();
    dates("offered");
    sayTogether({{"maker"_f, "made by"}, {"modeller"_f, "modelled by"}});
    resembles();
    known();
  }

  void resembles() {
    const Value* all = record_.find("resembles"_f);
    if (all == nullptr || !all->said()) return;
    for (const Value& one : all->each()) {
      const RecordIndex other = resembledIn(one);
      if (other == records::kNoRecord) continue;
      Inlines out;
      put(out, "taken for " + words_.plainName(other));
      if (const Value* tell = one.find("tell"_f); tell != nullptr && tell->said()) {
        put(out, ": ");
        put(out, lineOf(words_, record_, *tell));
      }
      line(std::move(out));
    }
  }

  void form() {
    sayTogether({{"nominal"_f, "list size"}, {"actual"_f, "measures"}, {"holds"_f, "holds"}});
    known();
  }

  void motif() {
    sayTogether({{"supplier"_f, "from"}, {"supplier-number"_f, "no."}, {"artist"_f, "drawn by"}});
    look();
    dates("used");
    say("named-by"_f, "name given by");
    known();
  }

  void treatment() {
    codes("code"_f, "number ");
    look();
    dates("offered");
    sayTogether({{"for"_f, "made for"}, {"decorated-by"_f, "decorated by"}, {"continues"_f, "formerly"}});
    line(statusInWords(record_.text("status"_f)));
    say("met"_f, "met with");
    line(std::string(evidence::inWords(words_.materials().weights.knownBy(index_))));
    known();
  }

  void set() {
    sayTogether({{"for"_f, "for"}, {"offered"_f, "offered"}});
    say("pieces"_f, "");
    known();
  }

  void mark() {
    sayTogether({{"method"_f, ""}, {"laid"_f, ""}, {"colour"_f, ""}});
    say("reads"_f, "reads");
    say("shows"_f, "shows");
    say("used"_f, "used");
    say("shapes"_f, "seen on");
    known();
  }

  void specimen() {
    codes("code-seen"_f, "numbered ");
    marks();
    codes("date-code"_f, "date code ");
    say("made"_f, "made");
    if (Inlines days = daysOfMaking(words_, record_); !days.empty()) {
      Inlines out;
      put(out, "made ");
      put(out, std::move(days));
      line(std::move(out));
    }
    ware();
    look();
    sayTogether({{"size"_f, "measures"}, {"condition"_f, ""}});
    line(seenInWords(words_, record_));
    if (const std::string_view holder = record_.text("holder"_f); !holder.empty()) line(whereHeld(holder));
  }

  // What the piece is, as far as its name does not say it: of its treatment, or of its shape alone.
  void ware() {
    std::vector<std::string> parts;
    if (const RecordIndex treatment = targetOf(record_, "treatment"_f); treatment != records::kNoRecord) {
      const PublishedRecord own = records_[treatment];
      if (const Value* shape = own.find("shape"_f); shape != nullptr && shape->said())
        parts.push_back("on " + words_.plainValue(shape, nullptr, own));
      if (const Value* value = own.find("look"_f)) parts.push_back(document::plainText(words_.look(value)));
      parts.push_back(offered(own));
    } else if (const RecordIndex shape = targetOf(record_, "shape"_f); shape != records::kNoRecord) {
      parts.push_back("the shape " + offered(records_[shape]));
    }
    line(base::joined(parts, "; "));
  }

  std::string offered(const PublishedRecord& record) const {
    std::string years = words_.plainDates(record);
    if (const std::string stands = words_.standingOfDates(record); !stands.empty())
      years += " (" + stands + ")";
    if (years.starts_with("not known") || years.starts_with("not recorded"))
      return "years of offer " + std::move(years);
    if (years.starts_with("by ")) return "on sale " + std::move(years);
    return years.starts_with("on sale ") ? years : "offered " + std::move(years);
  }

  void marks() {
    const Value* value = record_.find("marks"_f);
    if (value == nullptr) return;
    if (!value->said()) return say("marks"_f, {});
    std::vector<std::string> names;
    for (const Value& one : value->each()) {
      const Value* mark = one.type == ValueType::mapping ? one.find("mark"_f) : &one;
      if (mark == nullptr || mark->target() == records::kNoRecord) continue;
      std::string name = words_.plainName(mark->target());
      if (const Value* at = one.find("at"_f); at != nullptr && at->said())
        name += ", " + std::string(at->text);
      names.push_back(std::move(name));
    }
    if (!names.empty()) line((names.size() == 1 ? "mark: " : "marks: ") + base::joined(names, "; "));
  }

  void source() {
    std::vector<std::string> parts;
    if (const Value* type = record_.find("type"_f); type != nullptr && type->said())
      parts.push_back(words_.plainValue(type, records::specOf(Kind::source, "type"_f), record_));
    if (const Value* by = record_.find("by"_f); by != nullptr && by->said()) {
      std::vector<std::string> names;
      for (const Value& one : by->each()) names.push_back(words_.plainSomebody(one.text));
      parts.push_back("by " + base::listedInWords(names));
    }
    if (const Value* date = record_.find("date"_f)) parts.push_back(words_.shortDate(date));
    line(base::joined(parts, ", "));
    say("covers"_f, "covers");
    if (const std::string_view holder = record_.text("holder"_f); !holder.empty()) line(whereHeld(holder));
  }

  void feature() {
    say("ask"_f, "");
    const Value* values = record_.find("values"_f);
    if (values == nullptr) return;
    for (const Entry& entry : values->entries()) {
      const Value* is = entry.value.type == ValueType::mapping ? entry.value.find("is"_f) : &entry.value;
      line(std::string(entry.key) + (is == nullptr || !is->said() ? "" : ": " + std::string(is->text)));
    }
  }

  void claim() {
    const std::string_view status = record_.text("status"_f);
    if (status == "supposed") line("supposed, not known");
    if (status == "doubted") line("doubted");
    if (corrects(records_, record_)) {
      std::string head = changeInWords(record_);
      if (const Value* issued = record_.find("issued"_f); issued != nullptr && issued->said())
        head += " of " + words_.shortDate(issued);
      const std::vector<std::string> places = oldPlaces(words_, record_);
      if (!places.empty()) head += ": " + base::joined(places, "; ");
      line(std::move(head));
      for (OldWords& old : oldWords(words_, record_)) {
        Inlines out;
        put(out, "it said: ");
        put(out, std::move(old.words));
        line(std::move(out));
      }
    }
    if (!isWithdrawnClaim(record_)) say("because"_f, "why:");
    Inlines cited = claimCitations(words_, record_, true);
    Inlines tested = cited.empty() ? testAloneInWords(words_, record_) : testInWords(words_, index_);
    if (!cited.empty() || tested.empty())
      knownFrom(cited.empty() ? Inlines{text("no source recorded")} : std::move(cited));
    if (!tested.empty()) line(std::move(tested));
    if (Inlines against = evidenceAgainst(words_, record_); !against.empty()) {
      Inlines out;
      put(out, "against it: ");
      put(out, std::move(against));
      line(std::move(out));
    }
  }

  void question() {
    for (const auto& [field, label] : {std::pair{"for"_f, "for: "}, {"against"_f, "against: "}}) {
      const Value* all = record_.find(field);
      if (all == nullptr || !all->said()) continue;
      for (const Value& one : all->each()) {
        const Value* says = one.find("says"_f);
        if (says == nullptr || !says->said()) continue;
        Inlines out;
        put(out, label);
        put(out, sentenceWithNote(lineOf(words_, record_, *says), words_.evidenceBeside(record_, one, true)));
        line(std::move(out));
      }
    }
    if (const Value* settle = record_.find("would-settle"_f); settle != nullptr && settle->said())
      for (const Value& one : settle->each()) {
        Inlines out;
        put(out, "would settle it: ");
        put(out, lineOf(words_, record_, one));
        line(std::move(out));
      }
    if (record_.text("status"_f) == "settled") say("answer"_f, "settled:");
  }

  const Words& words_;
  const Published& records_;
  RecordIndex index_;
  PublishedRecord record_;
  std::vector<Inlines> lines_;
  std::vector<Inlines> remarks_;  // what is doubted or said otherwise of the values of the line in the making
  bool evidenceSeen_ = false;
};

// A question and a statement are called by what they ask and say, in full.
Inlines nameOf(const Words& words, RecordIndex index) {
  const PublishedRecord record = words.materials().records[index];
  const Field field = record.kind() == Kind::question ? "asks"_f : "says"_f;
  if (record.kind() == Kind::question || record.kind() == Kind::claim)
    if (const Value* said = record.find(field); said != nullptr && said->said())
      return lineOf(words, record, *said);
  const std::string name = words.plainName(index);
  const bool common =
      record.kind() == Kind::feature || record.kind() == Kind::form || record.kind() == Kind::term;
  return {text(common ? capitalised(name) : name)};
}

std::string shapesOf(const Words& words, const PublishedRecord& record, const std::string& name) {
  const Value* shape = record.kind() == Kind::treatment ? record.find("shape"_f) : nullptr;
  if (shape == nullptr || !shape->said()) return {};
  const std::string shapes = words.plainValue(shape, nullptr, record);
  return name.find(shapes) == std::string::npos ? ", on " + shapes : std::string();
}

}  // namespace

bool seenInHand(const PublishedRecord& specimen) {
  return evidence::bestSeen(specimen.find("seen"_f)) == evidence::Seen::inHand;
}

std::string seenInWords(const Words& words, const PublishedRecord& specimen) {
  const Value* seen = specimen.find("seen"_f);
  if (seen == nullptr || !seen->said()) return {};
  std::vector<std::string> times;
  for (const Value& one : seen->each()) {
    std::string time(howSeenInWords(one));
    if (const Value* by = one.find("by"_f); by != nullptr && by->said())
      time += " by " + words.plainSomebody(by->text);
    if (const Value* on = one.find("on"_f)) time += ", " + words.shortDate(on);
    times.push_back(std::move(time));
  }
  return base::joined(times, "; ");
}

Blocks nameCard(const Words& words, RecordIndex record, std::string_view lead, std::string_view after) {
  Inlines head;
  put(head, lead);
  head.push_back(document::strong(nameOf(words, record)));
  put(head, after);
  return item(std::move(head));
}

std::vector<std::string> tellApart(const Words& words, const std::vector<RecordIndex>& pieces) {
  std::vector<std::string> names;
  for (RecordIndex piece : pieces) names.push_back(words.plainName(piece));
  std::vector<std::string> out(pieces.size());
  for (std::size_t i = 0; i < pieces.size(); ++i)
    if (std::count(names.begin(), names.end(), names[i]) > 1)
      out[i] = " (" + std::string(words.materials().records[pieces[i]].id()) + ")";
  return out;
}

Blocks factCard(const Words& words, RecordIndex record, std::string_view lead, std::string_view after) {
  Blocks out = nameCard(
      words, record, lead,
      std::string(after) + shapesOf(words, words.materials().records[record], words.plainName(record)));
  std::vector<Blocks> lines;
  for (Inlines& one : Lines(words, record).make()) lines.push_back(item(std::move(one)));
  if (!lines.empty()) out.push_back(document::list(std::move(lines)));
  return out;
}

}  // namespace saggar::compose
