#include "compose/question_days.h"

#include <algorithm>
#include <map>

#include "base/text.h"
#include "chronology/reasons.h"
#include "compose/days.h"
#include "dates/print.h"
#include "study/misread.h"

namespace saggar::compose {

using chronology::BoundsOf;
using chronology::Clash;
using chronology::Event;
using chronology::Fact;
using chronology::FactId;
using chronology::Node;
using chronology::Precedence;
using chronology::Says;
using chronology::Settling;
using chronology::WhichFirst;
using dates::Bounds;
using dates::End;
using document::text;
using records::Value;

namespace {

// --- which was first

struct Asked {
  Event first, second;
  Node firstNode = chronology::kNoNode;
  Node secondNode = chronology::kNoNode;
};

std::optional<Asked> askedOf(const Page& page, const PublishedRecord& question) {
  const Value* events = question.find("first"_f);
  if (events == nullptr || !events->said() || events->each().size() != 2) return std::nullopt;
  const chronology::Events& all = page.words().materials().chronology.events();
  Asked asked;
  asked.firstNode = all.named(events->each()[0]);
  asked.secondNode = all.named(events->each()[1]);
  const auto first = all.eventOf(asked.firstNode);
  const auto second = all.eventOf(asked.secondNode);
  if (!first || !second || asked.firstNode == asked.secondNode) return std::nullopt;
  asked.first = *first;
  asked.second = *second;
  return asked;
}

std::string happened(const Page& page, const Event& event) {
  return chronology::Reasons::happened(page.record(event.record).kind(), event.field, event.end);
}

// "by February 1923 (doubted: it has not been found since)"; what is recorded of the event.
Inlines recordedOf(const Page& page, const Event& event) {
  const PublishedRecord record = page.record(event.record);
  const Value* value = record.find(event.field);
  if (value == nullptr || event.end != chronology::EventEnd::moment)
    return {text(page.words().shortDate(value))};
  return page.words().value(value, records::specOf(record.kind(), event.field), record);
}

// The source of a bound, or the piece that was seen by then.
Inlines restsOn(const Page& page, Node node, End end, RecordIndex own) {
  const chronology::Chronology& chronology = page.words().materials().chronology;
  const FactId witness = witnessIn(chronology, chronology.because(node, BoundsOf::proven, end));
  if (witness == chronology::kNoFact) return {};
  const Fact& fact = chronology.fact(witness);
  Inlines out;
  if (fact.says == Says::seen) {
    put(out, "when a piece was seen: ");
    put(out, page.words().name(fact.record));
  } else if (!fact.cites() && fact.record == own) {
    out = page.words().ownEvidence(*fact.value, true);
  } else {
    out = witnessOf(page.words(), witness, own);
  }
  return out;
}

bool isSighting(const Page& page, Node node, End end) {
  const chronology::Chronology& chronology = page.words().materials().chronology;
  const FactId witness = witnessIn(chronology, chronology.because(node, BoundsOf::proven, end));
  return witness != chronology::kNoFact && chronology.fact(witness).says == Says::seen;
}

// "Dorrimere. On record: by 7 October 1923. Proven: by 7 October 1923 (The Ledger)."
Blocks daysOf(const Page& page, const Event& event, Node node) {
  const Bounds proven = page.words().materials().chronology.bounds(node, BoundsOf::proven);
  Inlines line = page.words().name(event.record);
  put(line, ". On record: ");
  put(line, recordedOf(page, event));
  put(line, ". ");
  if (!proven.earliest.isFinite() && !proven.latest.isFinite()) {
    put(line, "Proven: no day.");
    return item(std::move(line));
  }
  const bool sightingAlone = !proven.earliest.isFinite() && isSighting(page, node, End::Latest);
  Inlines days{text((sightingAlone ? "Proven: no more than that it was there " : "Proven: ") +
                    dates::describeBounds(proven))};
  std::vector<Inlines> rest;
  for (const End end : {End::Earliest, End::Latest}) {
    if (!proven.at(end).isFinite()) continue;
    Inlines one = restsOn(page, node, end, event.record);
    if (!one.empty() && (rest.empty() || document::plainText(one) != document::plainText(rest[0])))
      rest.push_back(std::move(one));
  }
  put(line, rest.empty() ? sentence(std::move(days))
                         : sentenceWithNote(std::move(days), separated(std::move(rest), "; ")));
  return item(std::move(line));
}

const Precedence& orderOf(Page& page, const Asked& asked) {
  auto& known = page.orders[{asked.firstNode, asked.secondNode}];
  if (!known) {
    if (!page.precedences) page.precedences.emplace(page.words().materials().chronology);
    known = page.precedences->of(asked.firstNode, asked.secondNode);
  }
  return *known;
}

Inlines answerOf(const Page& page, const Asked& asked, const Precedence& order) {
  const Words& words = page.words();
  auto named = [&](const Event& event, std::string_view before, std::string_view after) {
    Inlines out;
    put(out, before);
    put(out, words.name(event.record));
    put(out, after);
    return out;
  };
  switch (order.answer) {
    case WhichFirst::first: return named(asked.first, "", "; that is proven");
    case WhichFirst::second: return named(asked.second, "", "; that is proven");
    case WhichFirst::sameDay: return {text("neither: both were on one day")};
    case WhichFirst::contradiction: return {text("what is recorded cannot all be true")};
    case WhichFirst::undecided: break;
  }
  if (order.likely == WhichFirst::first) return named(asked.first, "undecided; likely ", "");
  if (order.likely == WhichFirst::second) return named(asked.second, "undecided; likely ", "");
  return {text("undecided; the days on record prove no order")};
}

// --- what cannot all be true

bool takesPart(const Page& page, const Clash& clash, const std::vector<RecordIndex>& about) {
  const chronology::Chronology& chronology = page.words().materials().chronology;
  return std::any_of(clash.facts.begin(), clash.facts.end(), [&](FactId fact) {
    return std::find(about.begin(), about.end(), chronology.fact(fact).record) != about.end();
  });
}

// "The 7-inch plate bears the date code U344, of October to December 1934 (documented)".
Blocks factInWords(const Page& page, const chronology::Reasons& reasons, FactId id) {
  const Materials& materials = page.words().materials();
  const Fact& fact = materials.chronology.fact(id);
  const chronology::Reason reason = reasons.of(id);
  std::string says = reason.says;
  std::erase(says, '`');
  if (const auto days = study::daysOfCode(materials.codes, fact))
    says += ", of " + dates::describeBounds(*days);
  std::vector<Inlines> beside;
  beside.push_back({text(std::string(evidence::inWords(reason.standing)))});
  if (!fact.cites())
    for (const records::Citation* citation : reason.sources)
      beside.push_back(page.words().citation(*citation, true));
  return item(sentenceWithNote({text(std::move(says))}, separated(std::move(beside), "; ")));
}

// Each once, in the order in which one leads to the next.
std::vector<FactId> factsOf(const chronology::Chronology& chronology, const Clash& clash) {
  std::vector<FactId> facts;
  auto add = [&](FactId fact) {
    if (fact != chronology::kNoFact && std::find(facts.begin(), facts.end(), fact) == facts.end())
      facts.push_back(fact);
  };
  for (const chronology::EdgeId id : clash.edges) add(chronology.edge(id).fact);
  for (const FactId fact : clash.facts) add(fact);
  return facts;
}

// What the eye could take the code for that is in the set, where the rest would then be true.
std::vector<Blocks> otherReadings(const Page& page, const Clash& clash) {
  std::vector<Blocks> out;
  const Materials& materials = page.words().materials();
  for (const study::Misreading& one : study::misreadings(materials.codes, materials.chronology, clash))
    out.push_back(item({text("As " + one.text + ", for which the eye can take it, the code would be of " +
                             dates::describeBounds(one.days) + ", and the rest could all be true.")}));
  return out;
}

// Of the dates in the set, the bounds that it leaves untouched.
std::vector<Blocks> whatStays(const Page& page, const Clash& clash) {
  std::vector<Blocks> out;
  const chronology::Chronology& chronology = page.words().materials().chronology;
  for (const FactId id : clash.facts) {
    const Fact& fact = chronology.fact(id);
    if (fact.says != Says::date) continue;
    const Node node = chronology.events().nodeOf(fact.record, fact.field);
    if (node == chronology::kNoNode) continue;
    const Bounds proven = chronology.bounds(node, BoundsOf::proven);
    if (!proven.earliest.isFinite() && !proven.latest.isFinite()) continue;
    Inlines words = page.words().name(fact.record);
    put(words, ' ' + chronology::Reasons::happened(page.record(fact.record).kind(), fact.field) + ' ' +
                   dates::describeBounds(proven));
    Inlines rest;
    for (const End end : {End::Earliest, End::Latest})
      if (proven.at(end).isFinite() && rest.empty()) rest = restsOn(page, node, end, fact.record);
    out.push_back(item(rest.empty() ? sentence(std::move(words))
                                    : sentenceWithNote(std::move(words), std::move(rest))));
  }
  return out;
}

std::vector<RecordIndex> aboutOf(const PublishedRecord& question) {
  std::vector<RecordIndex> about;
  if (const Value* value = question.find("about"_f); value != nullptr && value->said())
    for (const Value& one : value->each())
      if (one.target() != records::kNoRecord) about.push_back(one.target());
  return about;
}

void addList(Blocks& out, std::string_view title, std::vector<Blocks> items) {
  if (items.empty()) return;
  out.push_back(document::paragraph({document::strong({text(std::string(title))})}));
  out.push_back(document::list(std::move(items)));
}

}  // namespace

Blocks whichWasFirst(Page& page, const PublishedRecord& question) {
  const auto asked = askedOf(page, question);
  if (!asked) return {};
  Blocks out = labelled("Which was first", answerOf(page, *asked, orderOf(page, *asked)));
  out.push_back(document::list(
      {daysOf(page, asked->first, asked->firstNode), daysOf(page, asked->second, asked->secondNode)}));
  return out;
}

std::vector<Blocks> whatWouldDecide(Page& page, const PublishedRecord& question) {
  std::vector<Blocks> out;
  const auto asked = askedOf(page, question);
  if (!asked) return out;
  for (const Settling& one : orderOf(page, *asked).settle) {
    const Event& moved = one.first ? asked->first : asked->second;
    Inlines words;
    put(words, "Evidence that ");
    put(words, page.words().name(moved.record));
    put(words, ' ' + happened(page, moved) + (one.bound == End::Latest ? " by " : " no earlier than ") +
                   dates::describeDay(one.day) + "; ");
    put(words, page.words().name((one.thenFirst ? asked->first : asked->second).record));
    put(words, " would then be the first");
    out.push_back(item(sentence(std::move(words))));
  }
  return out;
}

Blocks whatCannotAllBeTrue(const Page& page, const PublishedRecord& question) {
  Blocks out;
  const Materials& materials = page.words().materials();
  const std::vector<RecordIndex> about = aboutOf(question);
  const chronology::Reasons reasons(materials.chooser.collection(), materials.weights, materials.chronology,
                                    chronology::Reasons::Naming::print);
  constexpr std::size_t kMost = 6;
  std::vector<std::vector<FactId>> told;
  for (const Clash& clash : materials.chronology.clashes()) {
    if (clash.atFaceValue || told.size() == kMost || !takesPart(page, clash, about)) continue;
    std::vector<FactId> days = datesIn(materials.chronology, clash);
    if (std::find(told.begin(), told.end(), days) != told.end()) continue;
    told.push_back(std::move(days));
    std::vector<Blocks> facts;
    for (const FactId fact : factsOf(materials.chronology, clash))
      facts.push_back(factInWords(page, reasons, fact));
    addList(out, "These cannot all be true", std::move(facts));
    addList(out, "What stays proven", whatStays(page, clash));
    addList(out, "Another reading", otherReadings(page, clash));
  }
  return out;
}

Blocks sharedNumbers(Page& page, const PublishedRecord& question) {
  struct Holder {
    RecordIndex treatment;
    std::string code;
    std::string reading;
  };
  const Words& words = page.words();
  std::map<std::string, std::vector<Holder>> shared;
  for (const RecordIndex one : aboutOf(question)) {
    if (page.record(one).kind() != Kind::treatment) continue;
    for (const choosing::CodeOnRecord& code : words.materials().codes.of(one)) {
      const choosing::CodeReading* only = code.only();
      if (code.field != "code"_f || code.value == nullptr || only == nullptr) continue;
      const std::string& key = only->reading.alone.empty() ? only->reading.key : only->reading.alone;
      shared[key].push_back({one, std::string(code.value->text), words.readingsInWords(code)});
    }
  }
  Blocks out;
  for (const auto& [key, holders] : shared) {
    if (holders.size() < 2) continue;
    document::Table table = tableOf({"Number", "Motif", "Booked", "What it says", "Sources"});
    for (const Holder& holder : holders) {
      const PublishedRecord record = page.record(holder.treatment);
      page.uses(holder.treatment);
      const Value* booked = record.find("introduced"_f);
      Inlines when{text(words.shortDate(booked))};
      if (Inlines days = daysBeside(words, record, "introduced"_f, Room::entry); !days.empty()) {
        put(when, " (");
        put(when, std::move(days));
        put(when, ")");
      }
      Inlines sources = booked == nullptr ? Inlines() : words.ownEvidence(*booked, true);
      addRow(table, {words.linked(holder.treatment, {text(holder.code)}),
                     words.value(record.find("motif"_f), records::specOf(Kind::treatment, "motif"_f), record),
                     std::move(when),
                     {text(holder.reading)},
                     sources.empty() ? words.rowEvidence(record) : std::move(sources)});
    }
    out.push_back(document::table(std::move(table)));
  }
  return out;
}

}  // namespace saggar::compose
