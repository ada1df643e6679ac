#include "compose/talk_facts.h"

#include <algorithm>

#include "base/text.h"
#include "compose/claims.h"
#include "compose/phrases.h"

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

  // A value with its own evidence in brackets behind it.
  Inlines valueOf(Field field) {
    const Value* value = record_.find(field);
    if (value == nullptr) return {};
    Inlines out = words_.value(value, records::specOf(record_.kind(), field), record_);
    if (Inlines own = words_.ownEvidence(*value, true); !own.empty()) {
      evidenceSeen_ = true;
      put(out, " (");
      put(out, std::move(own));
      put(out, ")");
    }
    return out;
  }

  void say(Field field, std::string_view label) {
    Inlines value = valueOf(field);
    if (value.empty()) return;
    Inlines out;
    put(out, label.empty() ? "" : std::string(label) + ' ');
    put(out, std::move(value));
    line(std::move(out));
  }

  // Several values on one line.
  void sayTogether(std::initializer_list<std::pair<Field, std::string_view>> fields) {
    std::vector<Inlines> parts;
    for (const auto& [field, label] : fields) {
      Inlines value = valueOf(field);
      if (value.empty()) continue;
      Inlines part;
      put(part, label.empty() ? "" : std::string(label) + ' ');
      put(part, std::move(value));
      parts.push_back(std::move(part));
    }
    line(separated(std::move(parts), "; "));
  }

  // "1938 (Decoration books, vol. 5) to 1951 (…)"
  void dates(std::string_view label) {
    const Value* from = record_.find("introduced"_f);
    const Value* until = record_.find("withdrawn"_f);
    if (from == nullptr && until == nullptr) return line(std::string(label) + " dates not recorded");
    Inlines out;
    put(out, std::string(label) + ' ');
    if (from == nullptr || !from->said()) {
      put(out, from == nullptr ? "from a year not recorded" : "from a year not known");
      if (from != nullptr)
        if (Inlines own = words_.ownEvidence(*from, true); !own.empty()) {
          put(out, " (");
          put(out, std::move(own));
          put(out, ")");
        }
    } else {
      const std::string first = words_.shortDate(from);
      const bool own = first.starts_with("by ") || first.starts_with("from ") || first.starts_with("since ");
      put(out, until == nullptr && !own ? "from " : "");
      put(out, valueOf("introduced"_f));
    }
    if (until != nullptr) {
      put(out, until->said() ? " to " : ", to a year ");
      put(out, valueOf("withdrawn"_f));
    }
    line(std::move(out));
  }

  void look() {
    if (record_.find("look"_f) != nullptr) line(valueOf("look"_f));
  }

  // The record's own citations; where there are none and no line had any, that nobody has said who knows it.
  void known() {
    const records::Evidence* own = record_.evidence();
    const bool cited = own != nullptr && (!own->cite.empty() || !own->judged.empty());
    if (!cited && evidenceSeen_) return;
    Inlines out;
    if (cited) put(out, "known from ");
    put(out, cited ? words_.rowEvidence(record_) : Inlines{text("no source recorded")});
    line(std::move(out));
  }

  // What each code says, without repeating a code that the name begins with.
  void codes(Field field, std::string_view before) {
    const Value* value = record_.find(field);
    if (value == nullptr) return;
    if (!value->said())
      return line(std::string(before) + (value->type == ValueType::none ? "none" : "not known"));
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
      RecordIndex other = one.target();
      if (one.type == ValueType::mapping && !one.entries().empty()) other = one.entries()[0].value.target();
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
    sayTogether({{"for"_f, "made for"}, {"decorated-by"_f, "decorated by"}, {"continues"_f, "was before"}});
    if (const std::string_view status = record_.text("status"_f); !status.empty() && status != "production")
      say("status"_f, "status:");
    say("met"_f, "met with");
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
    if (const RecordIndex treatment = targetOf(record_, "treatment"_f); treatment != records::kNoRecord) {
      const PublishedRecord own = records_[treatment];
      std::vector<std::string> parts;
      if (const Value* shape = own.find("shape"_f); shape != nullptr && shape->said())
        parts.push_back("on " + words_.plainValue(shape, nullptr, own));
      if (const Value* value = own.find("look"_f)) parts.push_back(document::plainText(words_.look(value)));
      parts.push_back("offered " + words_.plainDates(own));
      line(base::joined(parts, "; "));
    }
    look();
    sayTogether({{"size"_f, "measures"}, {"condition"_f, ""}});
    line(seenInWords(words_, record_));
    say("holder"_f, "held by");
  }

  void marks() {
    const Value* value = record_.find("marks"_f);
    if (value == nullptr) return;
    if (!value->said()) return line(value->type == ValueType::none ? "no mark" : "mark not known");
    std::vector<std::string> names;
    for (const Value& one : value->each()) {
      const Value* mark = one.type == ValueType::mapping ? one.find("mark"_f) : &one;
      if (mark == nullptr || mark->target() == records::kNoRecord) continue;
      std::string name = words_.plainName(mark->target());
      if (const Value* at = one.find("at"_f); at != nullptr && at->said())
        name += " " + std::string(at->text);
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
    sayTogether({{"covers"_f, "covers"}, {"holder"_f, "held by"}});
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
    Inlines evidence;
    put(evidence, "known from ");
    put(evidence, claimEvidence(words_, record_, true));
    if (document::plainText(evidence) == "known from no source recorded")
      evidence = {text("no source recorded")};
    line(std::move(evidence));
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
        put(out, lineOf(words_, record_, *says));
        if (Inlines own = words_.ownEvidence(one, true); !own.empty()) {
          put(out, " (");
          put(out, std::move(own));
          put(out, ")");
        }
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
  bool evidenceSeen_ = false;
};

// A question and a statement are called by what they ask and say, in full.
Inlines nameOf(const Words& words, RecordIndex index) {
  const PublishedRecord record = words.materials().records[index];
  const Field field = record.kind() == Kind::question ? "asks"_f : "says"_f;
  if (record.kind() == Kind::question || record.kind() == Kind::claim)
    if (const Value* said = record.find(field); said != nullptr && said->said())
      return lineOf(words, record, *said);
  return {text(words.plainName(index))};
}

std::string shapesOf(const Words& words, const PublishedRecord& record, const std::string& name) {
  const Value* shape = record.kind() == Kind::treatment ? record.find("shape"_f) : nullptr;
  if (shape == nullptr || !shape->said()) return {};
  const std::string shapes = words.plainValue(shape, nullptr, record);
  return name.find(shapes) == std::string::npos ? ", on " + shapes : std::string();
}

}  // namespace

bool seenInHand(const PublishedRecord& specimen) {
  const Value* seen = specimen.find("seen"_f);
  if (seen == nullptr || !seen->said()) return false;
  const auto each = seen->each();
  return std::any_of(each.begin(), each.end(), [](const Value& one) {
    const Value* how = one.find("how"_f);
    return how == nullptr || how->text == "in-hand";
  });
}

std::string seenInWords(const Words& words, const PublishedRecord& specimen) {
  const Value* seen = specimen.find("seen"_f);
  if (seen == nullptr || !seen->said()) return {};
  std::vector<std::string> times;
  for (const Value& one : seen->each()) {
    const Value* how = one.find("how"_f);
    std::string time = how == nullptr || how->text == "in-hand" ? "seen in hand"
                       : how->text == "photograph"              ? "seen in a photograph"
                                                                : "reported";
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

Blocks factCard(const Words& words, RecordIndex record, std::string_view lead) {
  Blocks out = nameCard(words, record, lead,
                        shapesOf(words, words.materials().records[record], words.plainName(record)));
  std::vector<Blocks> lines;
  for (Inlines& one : Lines(words, record).make()) lines.push_back(item(std::move(one)));
  if (!lines.empty()) out.push_back(document::list(std::move(lines)));
  return out;
}

}  // namespace saggar::compose
