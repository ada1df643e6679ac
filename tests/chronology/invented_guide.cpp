#include "invented_guide.h"

#include <algorithm>
#include <chrono>
#include <functional>
#include <map>

namespace saggar::chronology::invented {
namespace {

long dayNumber(int year, int month, int day) {
  using namespace std::chrono;
  return sys_days(std::chrono::year(year) / month / day).time_since_epoch().count();
}

constexpr const char* kTypes[] = {"decoration-book", "trade-notice", "price-list", "registration", "letter",
                                  "newspaper",       "copy",         "book",       "website",      "sample"};

std::vector<Field> fieldsOf(const std::string& kind, bool withCodes) {
  std::vector<std::string> names;
  if (kind == "maker") names = {"founded", "closed", "after"};
  if (withCodes) names = {"founded", "codes", "closed", "after"};
  if (kind == "shape") names = {"introduced", "maker", "designed", "withdrawn", "after"};
  if (kind == "motif") names = {"supplier", "designed", "introduced", "withdrawn", "after"};
  if (kind == "treatment") names = {"shape", "introduced", "code", "motif", "after", "withdrawn"};
  if (kind == "mark") names = {"used", "after"};
  if (kind == "specimen") names = {"made", "treatment", "marks", "seen", "after"};
  if (kind == "source") names = {"type", "date"};
  std::vector<Field> fields;
  for (const std::string& name : names) fields.push_back({name, {}});
  return fields;
}

// What a record of the guide is never without.
bool isNeeded(const Record& record, const std::string& field) {
  return record.kind == "source" || field == "codes" || field == "seen";
}

}  // namespace

long firstDay(int year, int month) {
  return dayNumber(year, month, 1);
}
long lastDay(int year, int month) {
  return month == 12 ? firstDay(year + 1) - 1 : firstDay(year, month + 1) - 1;
}

const Value* Record::find(const std::string& name) const {
  for (const Field& field : fields)
    if (field.name == name) return field.value ? &*field.value : nullptr;
  return nullptr;
}

Guide::Guide(unsigned seed) : random_(seed) {
  const std::pair<const char*, int> kinds[] = {{"maker", 2}, {"shape", 3},    {"motif", 2}, {"treatment", 4},
                                               {"mark", 1},  {"specimen", 3}, {"source", 6}};
  for (const auto& [kind, count] : kinds)
    for (int i = 1; i <= count; ++i)
      records.push_back({kind,
                         kind[0] + std::string(1, kind[1]) + std::to_string(i),
                         fieldsOf(kind, std::string(kind) == "maker" && i == 1),
                         {}});
  for (Record& record : records)
    for (Field& field : record.fields)
      if (isNeeded(record, field.name) || !oneIn(3)) field.value = aValue(record, field.name);
  for (Record& record : records)
    if (record.kind != "specimen" && record.kind != "source" && !oneIn(4)) record.cite = {aCitation()};
}

std::optional<std::size_t> Guide::shapeBut(std::size_t shape) const {
  for (std::size_t i = 0; i < records.size(); ++i)
    if (records[i].kind == "shape" && i != shape) return i;
  return std::nullopt;
}

std::size_t Guide::any(const std::string& kind) {
  std::vector<std::size_t> all;
  for (std::size_t i = 0; i < records.size(); ++i)
    if (records[i].kind == kind) all.push_back(i);
  return all[static_cast<std::size_t>(upTo(static_cast<int>(all.size()) - 1))];
}

// The words and signs of RECORDS, "Dates"; `~` moves an end by the five years of `circa`.
Date Guide::aDate(int around, int spread) {
  const int year = around - spread + upTo(2 * spread) + (oneIn(12) ? 9 : 0) - (oneIn(12) ? 9 : 0);
  const std::string text = std::to_string(year);
  const Days whole{firstDay(year), lastDay(year)};
  switch (upTo(8)) {
    case 0: return {"by " + text, {{}, whole.last}, {{}, whole.last}};
    case 1: return {"from " + text, {whole.first, {}}, {whole.first, {}}};
    case 2: return {"about " + text, whole, {firstDay(year - 5), lastDay(year + 5)}};
    case 3: return {text + "?", whole, {}};
    case 4: {
      const int end = year + 1 + upTo(4);
      const Days days{whole.first, lastDay(end)};
      return {text + '/' + std::to_string(end), days, days};
    }
    case 5: {
      const int month = 1 + upTo(8);
      const Days days{firstDay(year, month), lastDay(year, month)};
      return {text + "-0" + std::to_string(month), days, days};
    }
    default: return {text, whole, whole};
  }
}

void Guide::maybeSeveral() {
  for (Record& record : records)
    for (Field& field : record.fields) {
      const bool own = field.name == "founded" || field.name == "closed" || field.name == "designed" ||
                       field.name == "introduced" || field.name == "withdrawn" || field.name == "made";
      if (!own || !field.value || !oneIn(3)) continue;
      // EDTF takes only its own signs inside a set; every date here has two ends.
      std::map<std::string, spelled::Member> members;
      Date& date = field.value->date;
      const int around = date.plain.first ? 1970 + static_cast<int>(*date.plain.first / 365.25) : 1935;
      for (int count = 2 + upTo(2); count > 0; --count) {
        const int year = around + upTo(16) - 8;
        const std::string text = std::to_string(year);
        const int month = 1 + upTo(8);
        const Days whole{firstDay(year), lastDay(year)};
        const Days part{firstDay(year, month), lastDay(year, month)};
        if (oneIn(4)) {
          members[text + '~'] = {{firstDay(year - 5), lastDay(year + 5)}, whole};
        } else if (oneIn(4)) {
          members[text + "-0" + std::to_string(month)] = {part, part};
        } else {
          members[text] = {whole, whole};
        }
      }
      if (members.size() < 2) continue;
      date.oneOf.clear();
      date.text.clear();
      for (const auto& [text, member] : members) {
        date.text += (date.text.empty() ? "[" : ",") + text;
        date.oneOf.push_back(member);
      }
      date.text += ']';
      field.value->is = '"' + date.text + '"';
      // What a source can be too early for.
      date.wide = date.plain = {};
      for (const auto& [text, member] : members) {
        const auto first = [](std::optional<long>& all, long one) { all = std::min(all.value_or(one), one); };
        first(date.wide.first, *member.wide.first);
        first(date.plain.first, *member.plain.first);
      }
    }
}

void Guide::maybeDisputed() {
  for (Record& record : records)
    for (Field& field : record.fields) {
      const bool wrapped = field.name != "after" && field.name != "codes" && field.name != "code" &&
                           record.kind != "specimen" && record.kind != "source";
      if (!wrapped || !field.value || !oneIn(4)) continue;
      Evidence& evidence = field.value->evidence;
      evidence.but = field.value->to        ? records[any(records[*field.value->to].kind)].id
                     : field.name == "used" ? "1901/1999"
                                            : std::to_string(1900 + upTo(60));
      evidence.setAside = oneIn(3);
    }
}

Citation Guide::aCitation() {
  Citation citation;
  citation.source = any("source");
  if (oneIn(2)) citation.dated = aDate(1938, 8);
  return citation;
}

Evidence Guide::someEvidence() {
  Evidence evidence;
  switch (upTo(6)) {
    case 0: evidence.judged = true; break;
    case 1: evidence.cite = {aCitation(), aCitation()}; break;
    case 2:
    case 3: evidence.cite = {aCitation()}; break;
    default: break;
  }
  evidence.doubted = oneIn(12);
  return evidence;
}

Value Guide::aValue(const Record& record, const std::string& field) {
  Value value;
  const std::pair<const char*, int> eras[] = {{"founded", 1905}, {"closed", 1960},    {"designed", 1928},
                                              {"made", 1937},    {"withdrawn", 1945}, {"seen", 2015}};
  for (const auto& [name, year] : eras)
    if (field == name) value.date = aDate(year, field == "designed" ? 3 : 6);
  if (field == "introduced") value.date = aDate(record.kind == "treatment" ? 1934 : 1931, 4);
  if (field == "used" || field == "date") {
    const int from = field == "date" ? (oneIn(2) ? 1900 : 1930 + upTo(8)) : 1922 + upTo(12);
    const int until = field == "date" ? (from == 1900 ? 1960 : from + 1 + upTo(9)) : 1940 + upTo(15);
    value.date = {std::to_string(from), {firstDay(from), lastDay(from)}, {firstDay(from), lastDay(from)}};
    value.until = {
        std::to_string(until), {firstDay(until), lastDay(until)}, {firstDay(until), lastDay(until)}};
    value.is = value.date.text + '/' + value.until.text;
  }
  const std::pair<const char*, const char*> references[] = {
      {"shape", "shape"}, {"motif", "motif"}, {"treatment", "treatment"}, {"marks", "mark"}};
  for (const auto& [name, kind] : references)
    if (field == name) value.to = any(kind);
  if (field == "maker") value.to = 0;
  if (field == "supplier") value.to = 1;
  if (field == "type") value.is = kTypes[upTo(static_cast<int>(std::size(kTypes)) - 1)];
  if (field == "seen") value.is = oneIn(3) ? "photograph" : oneIn(4) ? "reported" : "in-hand";
  if (field == "code") {
    value.number = 10 + upTo(30);
    value.is = std::to_string(value.number);
  }
  if (field == "after") {
    const char* events[] = {"shape.introduced", "motif.introduced", "treatment.introduced", "shape.designed",
                            "maker.founded",    "mark.used.from",   "specimen.made"};
    const std::string event = events[upTo(static_cast<int>(std::size(events)) - 1)];
    const std::size_t dot = event.find('.');
    value.event = records[any(event.substr(0, dot))].reference() + event.substr(dot);
    if (oneIn(3)) value.least = oneIn(2) ? "6m" : "1y";
    if (oneIn(4)) value.most = oneIn(2) ? "5y" : "18m";
  }
  if (value.to) value.is = records[*value.to].id;
  if (value.is.empty()) value.is = value.date.text;
  if (field == "codes") {
    if (oneIn(2)) value.evidence.cite = {aCitation()};
  } else if (record.kind != "specimen" && record.kind != "source") {
    value.evidence = someEvidence();
  }
  return value;
}

std::string Guide::edit() {
  return change(records[static_cast<std::size_t>(upTo(static_cast<int>(records.size()) - 1))]);
}

std::string Guide::change(Record& record) {
  const auto slot = static_cast<std::size_t>(upTo(static_cast<int>(record.fields.size())));
  const bool cites = record.kind != "specimen" && record.kind != "source";
  if (slot == record.fields.size() && cites) {
    record.cite.clear();
    for (int count = upTo(2); count > 0; --count) record.cite.push_back(aCitation());
    return record.reference() + " cite";
  }
  Field& field = record.fields[std::min(slot, record.fields.size() - 1)];
  const Value value = aValue(record, field.name);
  if (field.value && !isNeeded(record, field.name) && oneIn(3)) {
    field.value.reset();
  } else if (field.value && cites && oneIn(2)) {
    field.value->evidence = value.evidence;
  } else {
    field.value = value;
  }
  return record.reference() + ' ' + field.name;
}

std::string Guide::settle(const spelled::Answer& answer) {
  const auto clashes = [&](int line) {
    return std::any_of(answer.clashing.begin(), answer.clashing.end(),
                       [&](long place) { return place / 100 == line; });
  };
  std::vector<std::pair<std::string, std::function<void()>>> ways;
  const auto withdraw = [&](const std::string& of, std::vector<Citation>& cite) {
    for (std::size_t i = 0; i < cite.size(); ++i)
      if (clashes(cite[i].line))
        ways.emplace_back(of + ": a citation is taken away",
                          [&cite, i] { cite.erase(cite.begin() + static_cast<long>(i)); });
  };
  for (Record& record : records) {
    withdraw(record.reference(), record.cite);
    for (Field& field : record.fields) {
      if (!field.value) continue;
      withdraw(record.reference() + ' ' + field.name, field.value->evidence.cite);
      if (!isNeeded(record, field.name) && clashes(field.value->line))
        ways.emplace_back(record.reference() + ' ' + field.name + " is taken away",
                          [&field] { field.value.reset(); });
    }
  }
  if (ways.empty()) return edit();
  const auto& [words, take] = ways[static_cast<std::size_t>(upTo(static_cast<int>(ways.size()) - 1))];
  take();
  return words;
}

}  // namespace saggar::chronology::invented
