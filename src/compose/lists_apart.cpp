#include <algorithm>
#include <map>
#include <set>

#include "base/text.h"
#include "compose/lists.h"
#include "study/tell_apart.h"

// What to look at to tell things apart.
namespace saggar::compose {

using choosing::Chosen;
using document::text;
using records::Entry;
using records::Value;
using records::ValueType;
using study::SeenAt;
using study::TellApart;
using study::Trait;

namespace {

std::string traitInWords(const Page& page, const Trait& trait) {
  if (trait.at == SeenAt::shape) return "the shape";
  if (trait.at == SeenAt::motif) return "the motif";
  return "the " + page.words().plainFeature(trait.feature);
}

std::string traitsInWords(const Page& page, const std::vector<Trait>& traits) {
  std::vector<std::string> names;
  for (const Trait& one : traits) names.push_back(traitInWords(page, one));
  return base::listedInWords(names);
}

// "round outline; closed-knob finial": what the record has of these.
Inlines seenOf(const Page& page, RecordIndex index, const std::vector<Trait>& traits) {
  const PublishedRecord record = page.record(index);
  std::vector<Inlines> parts;
  for (const Trait& one : traits) {
    if (one.at == SeenAt::feature) {
      const Value* look = record.find("look"_f);
      std::string words = look == nullptr ? std::string() : page.words().lookOf(*look, one.feature);
      if (!words.empty()) parts.push_back({text(std::move(words))});
      continue;
    }
    const records::Field field = one.at == SeenAt::shape ? "shape"_f : "motif"_f;
    const Value* value = record.find(field);
    if (value == nullptr) continue;
    Inlines words;
    if (value->type == ValueType::none) {
      put(words, "no motif");
    } else {
      put(words, one.at == SeenAt::shape ? "on " : "with ");
      put(words, page.words().bareValue(value, records::specOf(Kind::treatment, field), record));
    }
    parts.push_back(std::move(words));
  }
  return separated(std::move(parts), "; ");
}

// "Look at the outline, the rim and the finial: no fewer will do to tell all of these apart."
Blocks leadOf(const Page& page, const TellApart& apart) {
  if (apart.shortest.empty()) return {};
  const bool two = apart.records.size() == 2;
  std::string words =
      two ? "To tell them apart look at " : "To tell any two of them apart it is enough to look at ";
  words += traitsInWords(page, apart.shortest) + '.';
  const bool some = std::any_of(apart.notTold.begin(), apart.notTold.end(),
                                [](const auto& others) { return !others.empty(); });
  if (some) words += " Some are not told apart by any feature on record; they are named below.";
  return {document::paragraph({text(std::move(words))})};
}

// "Dun or Esk"
Inlines othersOf(const Page& page, const TellApart& apart, const std::vector<std::size_t>& others) {
  constexpr std::size_t kMostNamed = 6;
  std::vector<Inlines> names;
  for (const std::size_t other : others) {
    if (names.size() == kMostNamed && others.size() > kMostNamed + 1) {
      names.push_back({text(base::counted(others.size() - kMostNamed, "other"))});
      break;
    }
    names.push_back(page.words().name(apart.records[other]));
  }
  return listed(std::move(names), "or");
}

// The pairs among these of which the author says in words what tells them apart.
std::vector<Pair> toldInWords(const Page& page, const std::vector<RecordIndex>& records) {
  std::vector<Pair> pairs = pairsOf(page, records);
  std::erase_if(pairs, [&](const Pair& pair) {
    const auto isHere = [&](RecordIndex one) {
      return std::find(records.begin(), records.end(), one) != records.end();
    };
    return tellOf(pair) == nullptr || !isHere(pair.one) || !isHere(pair.other);
  });
  return pairs;
}

Blocks eachOf(Page& page, const TellApart& apart) {
  const std::vector<Pair> told = toldInWords(page, apart.records);
  std::vector<Blocks> items;
  for (std::size_t i = 0; i < apart.records.size(); ++i) {
    const RecordIndex own = apart.records[i];
    Inlines words = seenOf(page, own, apart.ofEach[i]);
    std::vector<std::size_t> untold;  // neither by a feature nor in words
    Inlines inWords;
    for (const std::size_t other : apart.notTold[i]) {
      bool any = false;
      for (const Pair& pair : told) {
        const RecordIndex theirs = apart.records[other];
        if (std::minmax(pair.one, pair.other) != std::minmax(own, theirs)) continue;
        put(inWords, any ? " Also " : " No feature recorded tells it from ");
        put(inWords, page.words().name(theirs));
        put(inWords, toldOf(page, pair, pair.sayer == own));
        any = true;
      }
      if (!any) untold.push_back(other);
    }
    if (!untold.empty()) {
      put(words, words.empty() ? "nothing recorded tells it from " : "; nothing recorded tells it from ");
      put(words, othersOf(page, apart, untold));
    }
    if (words.empty() && inWords.empty()) continue;
    Inlines name = page.words().name(own);
    put(name, ":");
    Inlines line{document::strong(std::move(name))};
    if (!words.empty()) {
      put(line, " ");
      put(line, sentence(std::move(words)));
    }
    put(line, std::move(inWords));
    items.push_back(item(std::move(line)));
  }
  if (items.empty()) return {};
  return {document::list(std::move(items))};
}

// The records by the values that they have of one feature.
struct Group {
  std::vector<std::pair<std::string, std::vector<RecordIndex>>> values;  // in the order met
  std::size_t recorded = 0;
};

std::set<std::string> valuesOf(const Entry& entry) {
  std::set<std::string> own;
  for (const Value& each : entry.value.each()) {
    const Value* is = each.type == ValueType::mapping ? each.find("is"_f) : &each;
    if (is == nullptr) continue;
    for (const Value& word : is->each())
      if (word.said() || word.type == ValueType::none)
        own.insert(word.type == ValueType::none ? "none" : std::string(word.text));
  }
  return own;
}

Blocks featuresOf(Page& page, const std::vector<RecordIndex>& records) {
  std::map<RecordIndex, Group> byFeature;
  for (const RecordIndex record : records) {
    const Value* look = page.record(record).find("look"_f);
    if (look == nullptr || look->type != ValueType::mapping) continue;
    page.uses(record);
    for (const Entry& entry : look->entries()) {
      if (entry.feature == records::kNoRecord) continue;
      Group& group = byFeature[entry.feature];
      const std::set<std::string> own = valuesOf(entry);
      for (const std::string& value : own) {
        auto found = std::find_if(group.values.begin(), group.values.end(),
                                  [&](const auto& known) { return known.first == value; });
        if (found == group.values.end()) found = group.values.insert(group.values.end(), {value, {}});
        found->second.push_back(record);
      }
      group.recorded += own.empty() ? 0 : 1;
    }
  }
  std::vector<std::pair<std::int64_t, RecordIndex>> order;
  for (const auto& [feature, group] : byFeature)
    if (group.values.size() > 1)
      order.emplace_back(study::effortOf(page.words().materials().chooser.collection(), feature), feature);
  std::sort(order.begin(), order.end());
  std::vector<Blocks> items;
  for (const auto& [effort, feature] : order) {
    const Group& group = byFeature[feature];
    std::vector<Inlines> parts;
    for (const auto& [value, having] : group.values) {
      Inlines part{document::emphasis({text(value)})};
      put(part, ": ");
      put(part, namesOf(page, having, 20));
      parts.push_back(std::move(part));
    }
    Inlines words = separated(std::move(parts), "; ");
    if (group.recorded < records.size())
      put(words, "; not recorded of " + countedInWords(records.size() - group.recorded, "other", "others"));
    items.push_back(labelled(capitalised(page.words().plainFeature(feature)), sentence(std::move(words))));
  }
  if (items.empty()) return {};
  return {document::paragraph({text("The features on record that differ, the quickest to see first.")}),
          document::list(std::move(items))};
}

Block kindHead(Kind kind) {
  return document::paragraph({document::strong({text(capitalised(kindInWords(kind, true)))})});
}

}  // namespace

Blocks tellApartList(Page& page, const Listing& listing) {
  std::map<Kind, std::vector<RecordIndex>> byKind;
  for (const Chosen& one : listing.chosen) byKind[page.record(one.record).kind()].push_back(one.record);
  Blocks out;
  const auto add = [&](Blocks more) {
    out.insert(out.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
  };
  for (const auto& [kind, records] : byKind) {
    const TellApart apart = study::tellApart(page.words().materials().chooser.collection(), records);
    if (apart.traits.empty()) {
      const std::vector<Pair> told = toldInWords(page, records);
      if (!told.empty()) {
        std::vector<Blocks> items;
        for (const Pair& pair : told) items.push_back(item(pairLine(page, pair)));
        if (byKind.size() > 1) add({kindHead(kind)});
        add({document::paragraph({text("No feature on record tells these apart; this is said in words.")}),
             document::list(std::move(items))});
      } else if (byKind.size() == 1 && records.size() > 1) {
        add({document::paragraph({text("Nothing on record tells these apart.")})});
      }
      continue;
    }
    if (byKind.size() > 1) add({kindHead(kind)});
    if (!apart.tooMany) {
      add(leadOf(page, apart));
      add(eachOf(page, apart));
    }
    add(featuresOf(page, records));
  }
  return out;
}

}  // namespace saggar::compose
