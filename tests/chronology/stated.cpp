#include <algorithm>
#include <map>

#include "chronology/fact.h"
#include "invented_guide.h"

// What the invented guide's records state, record by record, from the two tables of SEMANTICS; only the names of the
// kinds of facts are the program's.
namespace saggar::chronology::invented {

using spelled::kBoth;
using spelled::kPlain;
using spelled::kWide;
using spelled::Statement;
using spelled::Step;

namespace {

struct Type {
  int standing;  // 0 documented, 1 supported, 2 suggested
  bool later;    // later words: one less for a date
  bool existed, offered, drawn;
};

// SEMANTICS, "What a citation is worth".
const std::map<std::string, Type> kWorth = {{"decoration-book", {0, false, true, false, false}},
                                            {"trade-notice", {0, false, true, false, false}},
                                            {"price-list", {0, false, true, true, false}},
                                            {"registration", {0, false, false, false, true}},
                                            {"sample", {0, false, true, false, false}},
                                            {"letter", {0, true, false, false, false}},
                                            {"newspaper", {1, false, true, false, false}},
                                            {"copy", {1, false, true, false, false}},
                                            {"book", {2, true, false, false, false}},
                                            {"website", {2, true, false, false, false}}};

class Stating {
 public:
  explicit Stating(const Guide& guide) : guide_(guide) { out_.points = {"the day 0"}; }

  Stated all() {
    for (const Record& record : guide_.records) {
      ownOrder(record);
      for (const Field& field : record.fields)
        if (field.value) state(record, field.name, *field.value);
      existedBy(record);
    }
    numbers();
    out_.told.points = static_cast<int>(out_.points.size());
    return std::move(out_);
  }

 private:
  int point(const std::string& name) {
    const auto [place, fresh] = points_.emplace(name, static_cast<int>(out_.points.size()));
    if (fresh) out_.points.push_back(name);
    return place->second;
  }
  static std::string standsFor(const Record& record) {
    return record.reference() + (record.kind == "maker"      ? ".founded"
                                 : record.kind == "mark"     ? ".used.from"
                                 : record.kind == "specimen" ? ".made"
                                                             : ".introduced");
  }

  const Type& typeOf(const Citation& citation) const {
    return kWorth.at(guide_.records[citation.source].find("type")->is);
  }
  std::optional<long> lastOf(const Citation& citation) const {
    return citation.dated ? citation.dated->wide.last
                          : guide_.records[citation.source].find("date")->until.wide.last;
  }
  bool tooEarly(const Citation& citation, const Value& value, bool date) const {
    const auto last = lastOf(citation);
    return date && !value.evidence.doubted && last && value.date.wide.first && *last < *value.date.wide.first;
  }

  const std::vector<Citation>& backing(const Record& record, const Value& value) const {
    return value.evidence.cite.empty() && !value.evidence.judged ? record.cite : value.evidence.cite;
  }

  int standing(const Record& record, const Value& value, bool date) const {
    if (record.kind == "source") return 0;
    if (record.kind == "specimen") {  // as it was seen
      const std::string& how = record.find("seen")->is;
      return how == "in-hand" ? 0 : how == "photograph" ? 1 : 2;
    }
    if (value.evidence.judged) return 3;
    int best = 4;
    std::size_t weak = 0, first = 0;
    bool two = false;
    for (const Citation& citation : backing(record, value)) {
      if (tooEarly(citation, value, date)) continue;
      const Type& type = typeOf(citation);
      const int by = type.standing + (date && type.later && type.standing == 0 ? 1 : 0);
      best = std::min(best, by);
      if (by != 2) continue;
      two |= weak != 0 && citation.source != first;  // no source draws on another, no two are by one author
      first = citation.source;
      ++weak;
    }
    return best == 2 && two ? 1 : best;
  }

  Statement& fact(const Record& record, const std::string& field, const Value& value, Says says, bool date) {
    Statement one;
    one.what = record.reference() + ' ' + field;
    one.place = placeOf(value.line, static_cast<int>(says));
    one.standing = standing(record, value, date);
    one.doubted = value.evidence.doubted;
    one.disputed = !value.evidence.but.empty() && !value.evidence.setAside;
    out_.told.statements.push_back(std::move(one));
    return out_.told.statements.back();
  }
  static void notAfter(Statement& fact, int earlier, int later, long atLeast = 0) {
    fact.steps.push_back({later, earlier, -atLeast, kBoth});
  }
  static void bind(Statement& fact, int at, const Days& days, std::uint8_t use) {
    if (days.first) fact.steps.push_back({at, 0, -*days.first, use});
    if (days.last) fact.steps.push_back({0, at, *days.last, use});
  }

  // designed ≤ introduced ≤ withdrawn; founded ≤ closed; from ≤ until.
  void ownOrder(const Record& record) {
    const std::pair<const char*, const char*> order[] = {{"designed", "introduced"},
                                                         {"introduced", "withdrawn"}};
    const std::string own = record.reference() + '.';
    auto add = [&](const std::string& earlier, const std::string& later) {
      out_.told.always.push_back({point(own + later), point(own + earlier), 0, kBoth});
    };
    for (const auto& [earlier, later] : order)
      if (record.kind == "shape" || record.kind == "motif" ||
          (record.kind == "treatment" && earlier[0] == 'i'))
        add(earlier, later);
    if (record.kind == "maker") add("founded", "closed");
    if (record.kind == "mark") add("used.from", "used.until");
    if (record.kind == "source") add("date.from", "date.until");
  }

  void state(const Record& record, const std::string& field, const Value& value) {
    const std::string own = record.reference() + '.';
    if (field == "used" || field == "date") {
      Statement& date = fact(record, field, value, Says::date, true);
      bind(date, point(own + field + ".from"), value.date.plain, kBoth);
      bind(date, point(own + field + ".until"), value.until.plain, kBoth);
    } else if (field == "seen") {
      Statement& seen = fact(record, field, value, Says::seen, true);
      for (const auto use : {kWide, kPlain}) {
        const Days& days = use == kWide ? value.date.wide : value.date.plain;
        bind(seen, point(own + "seen.on"), days, use);
        bind(seen, point(own + "made"), {{}, days.last}, use);
      }
    } else if (value.to && field != "marks") {
      relation(record, field, value);
    } else if (field == "marks") {
      const std::string mark = guide_.records[*value.to].reference();
      Statement& marked = fact(record, field, value, Says::marked, false);
      notAfter(marked, point(mark + ".used.from"), point(own + "made"));
      notAfter(marked, point(own + "made"), point(mark + ".used.until"));
    } else if (field == "after") {
      const std::map<std::string, std::pair<long, long>> lengths = {
          {"6m", {181, 184}}, {"1y", {365, 366}}, {"18m", {546, 550}}, {"5y", {1826, 1827}}};
      Statement& after = fact(record, field, value, Says::ordered, true);
      const int mine = point(standsFor(record));
      const int other = point(value.event);
      notAfter(after, other, mine, value.least.empty() ? 1 : lengths.at(value.least).first);
      if (!value.most.empty()) after.steps.push_back({other, mine, lengths.at(value.most).second, kBoth});
    } else if (field != "codes" && field != "type" && field != "code") {
      Statement& date = fact(record, field, value, Says::date, true);
      bind(date, point(own + field), value.date.wide, kWide);
      bind(date, point(own + field), value.date.plain, kPlain);
      date.at = point(own + field);
      date.members = value.date.oneOf;
    }
  }

  void relation(const Record& record, const std::string& field, const Value& value) {
    const Says says = field == "maker"       ? Says::shapeOf
                      : field == "supplier"  ? Says::supplied
                      : field == "treatment" ? Says::pieceOf
                      : field == "motif"     ? Says::withMotif
                                             : Says::onShape;
    Statement& one = fact(record, field, value, says, false);
    const std::string own = record.reference() + '.';
    const std::string other = guide_.records[*value.to].reference() + '.';
    if (value.orTo) {
      Stated::OneOf several{one.place, point(own + "introduced"), point(own + "withdrawn"), {}};
      for (const std::size_t shape : {*value.to, *value.orTo})
        several.shapes.emplace_back(point(guide_.records[shape].reference() + ".introduced"),
                                    point(guide_.records[shape].reference() + ".withdrawn"));
      out_.oneOf.push_back(std::move(several));
      return;
    }
    if (field == "maker") {
      notAfter(one, point(other + "founded"), point(own + "introduced"));
      notAfter(one, point(own + "withdrawn"), point(other + "closed"));
    } else if (field == "supplier") {
      notAfter(one, point(other + "founded"), point(own + "designed"));
    } else if (field == "treatment") {
      notAfter(one, point(other + "introduced"), point(own + "made"));
      notAfter(one, point(own + "made"), point(other + "withdrawn"));
    } else {
      notAfter(one, point(other + "introduced"), point(own + "introduced"));
      notAfter(one, point(own + "withdrawn"), point(other + "withdrawn"));
    }
  }

  // A source that shows that the thing existed by its date, that its design did, that it was on offer then; the same
  // source without a date of its own says so once, on the record before its fields. What clashes with the record's date
  // only because all of that date's sources are too early is a finding of its own.
  void existedBy(const Record& record) {
    if (record.kind == "specimen" || record.kind == "source") return;
    const std::string field = record.kind == "maker"  ? "founded"
                              : record.kind == "mark" ? "used"
                                                      : "introduced";
    const Value* own = record.find(field);
    const auto early = [&](const Citation& one) { return tooEarly(one, *own, true); };
    const bool allEarly = own != nullptr && !backing(record, *own).empty() &&
                          std::all_of(backing(record, *own).begin(), backing(record, *own).end(), early);
    std::vector<std::size_t> known;
    auto take = [&](const Citation& citation) {
      const Type& type = typeOf(citation);
      const bool ware = record.kind != "maker" && record.kind != "mark";
      if ((!type.existed && !(type.drawn && ware)) || (allEarly && early(citation))) return;
      if (!citation.dated) {
        if (std::find(known.begin(), known.end(), citation.source) != known.end()) return;
        known.push_back(citation.source);
      }
      Statement one;
      one.what = record.reference() + " cites " + guide_.records[citation.source].id;
      one.place = placeOf(citation.line, static_cast<int>(type.drawn ? Says::drawn : Says::cited));
      one.standing = type.standing;
      const int event = point(type.drawn ? record.reference() + ".designed" : standsFor(record));
      const std::string date = guide_.records[citation.source].reference() + ".date.until";
      if (citation.dated) {
        bind(one, event, {{}, citation.dated->wide.last}, kWide);
        bind(one, event, {{}, citation.dated->plain.last}, kPlain);
      } else {
        notAfter(one, event, point(date));
      }
      out_.told.statements.push_back(one);
      const Date& shown =
          citation.dated ? *citation.dated : guide_.records[citation.source].find("date")->date;
      if (!type.offered || !ware || !shown.plain.first) return;
      one.place = placeOf(citation.line, static_cast<int>(Says::offered));
      one.offered = true;
      one.steps.clear();
      bind(one, point(record.reference() + ".withdrawn"), {shown.plain.first, {}}, kPlain);
      out_.told.statements.push_back(one);
    };
    for (const Citation& citation : record.cite) take(citation);
    for (const Field& one : record.fields)
      if (one.value && one.name != "withdrawn" && one.name != "closed" && !one.value->evidence.doubted)
        for (const Citation& citation : one.value->evidence.cite) take(citation);
  }

  // Among numbers of the rule the higher was not booked before the lower; each was booked within the rule's years.
  void numbers() {
    const Record& maker = guide_.records[0];
    const Value& rule = *maker.find("codes");
    std::map<int, std::pair<int, int>> numbers;  // before and after all that bear it
    for (const Record& record : guide_.records) {
      const Value* code = record.find("code");
      if (code == nullptr) continue;
      const int booked = point(record.reference() + ".introduced");
      const std::string name = "number " + std::to_string(code->number);
      const auto [low, high] = std::pair(point(name + " begins"), point(name + " ends"));
      if (numbers.emplace(code->number, std::pair(low, high)).second)
        out_.told.always.push_back({high, low, 0, kBoth});
      Statement& used = fact(record, "code", *code, Says::inUse, false);
      Value years;
      years.evidence = rule.evidence;
      years.date.wide.first = firstDay(1900);
      used.standing = std::max(used.standing, standing(maker, years, true));
      bind(used, booked, {firstDay(1900), lastDay(1999)}, kBoth);
      Statement& number = fact(record, "code", *code, Says::number, false);
      notAfter(number, low, booked);
      notAfter(number, booked, high);
    }
    if (numbers.empty()) return;
    Statement& order = fact(maker, "codes", rule, Says::order, false);
    if (order.standing == 4) order.standing = 3;  // without `cite`, the author's judgement
    for (auto next = std::next(numbers.begin()); next != numbers.end(); ++next)
      notAfter(order, std::prev(next)->second.second, next->second.first);
  }

  const Guide& guide_;
  Stated out_;
  std::map<std::string, int> points_;
};

}  // namespace

long placeOf(int line, int says) {
  return line * 100L + says;
}

Stated statedBy(const Guide& guide) {
  return Stating(guide).all();
}

}  // namespace saggar::chronology::invented
