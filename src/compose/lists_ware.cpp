#include <algorithm>

#include "base/text.h"
#include "compose/collation.h"
#include "compose/corrections.h"
#include "compose/days.h"
#include "compose/lists.h"
#include "compose/row_standings.h"

// Tables of decorations, pieces and marks.
namespace saggar::compose {

using choosing::Chosen;
using choosing::Reached;
using document::text;
using records::Field;
using records::Value;
using records::ValueType;

std::vector<RecordIndex> Listing::records() const {
  std::vector<RecordIndex> out;
  out.reserve(chosen.size());
  for (const Chosen& one : chosen) out.push_back(one.record);
  return out;
}

Inlines listedName(const Page& page, const Chosen& chosen, Inlines words) {
  Inlines out =
      words.empty() ? page.words().name(chosen.record) : page.words().linked(chosen.record, std::move(words));
  if (!chosen.sure) put(out, ", perhaps");
  return out;
}

void sortByName(const Page& page, std::vector<Chosen>& chosen) {
  const Collation collation(page.records().settings().language);
  std::vector<std::pair<std::string, Chosen>> keyed;
  keyed.reserve(chosen.size());
  for (const Chosen& one : chosen) keyed.emplace_back(collation.key(page.words().plainName(one.record)), one);
  std::stable_sort(keyed.begin(), keyed.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  for (std::size_t i = 0; i < chosen.size(); ++i) chosen[i] = keyed[i].second;
}

namespace {

Inlines reachedInWords(const Page& page, const Reached& reached) {
  switch (reached.state) {
    case Reached::State::record: return page.words().name(reached.record);
    case Reached::State::absent: return {text("not recorded")};
    case Reached::State::unknown: return {text("not known")};
    case Reached::State::none: return {text("none")};
    case Reached::State::value: break;
  }
  if (reached.end != choosing::SpanEnd::whole)
    return {text(page.words().shortEnd(
        *reached.value, reached.end == choosing::SpanEnd::from ? dates::End::Earliest : dates::End::Latest))};
  return page.words().value(reached.value, reached.spec,
                            page.record(reached.record == records::kNoRecord ? 0 : reached.record));
}

// The rows in the order of the groups that the block asks for, each under its head; else in one run.
template <class Row>
void rowsInGroups(const Page& page, const Listing& listing, Kind kind, document::Table& table, Row&& row) {
  const choosing::Query* query = listing.query.of(kind);
  if (query == nullptr || query->grouped.empty()) {
    for (const Chosen& one : listing.chosen) row(one);
    return;
  }
  for (const choosing::Chooser::Group& group :
       page.words().materials().chooser.group(listing.chosen, query->grouped)) {
    addGroupHead(table, capitalised(reachedInWords(page, group.key)));
    for (const Chosen& one : group.members) row(one);
  }
}

// The author's own choice of columns.
Blocks columnsTable(Page& page, const Listing& listing, const choosing::Query& query) {
  std::vector<std::string> head;
  for (const choosing::Column& column : query.columns) {
    std::string heading = column.heading;
    if (heading.empty() && !column.path.steps().empty()) {
      const choosing::Step& last = column.path.steps().back();
      if (last.type == choosing::Step::Type::field) heading = labelOf(query.kind, last.field);
      if (last.type == choosing::Step::Type::feature || last.type == choosing::Step::Type::heading)
        heading = last.key;
      if (last.type == choosing::Step::Type::spanEnd)
        heading = labelOf(query.kind, column.path.endSpec()->field) + ' ' + last.key;
      if (last.type == choosing::Step::Type::backwards) heading = std::string(plural(last.kind));
      std::replace(heading.begin(), heading.end(), '-', ' ');
      heading = capitalised(std::move(heading));
    }
    head.push_back(heading.empty() ? std::string("Name") : std::move(heading));
  }
  head.emplace_back("Sources");
  document::Table table = tableOf(std::move(head));
  const choosing::Collection& collection = page.words().materials().chooser.collection();
  rowsInGroups(page, listing, query.kind, table, [&](const Chosen& one) {
    page.lists(one.record);
    page.uses(one.record);
    std::vector<Inlines> cells;
    for (const choosing::Column& column : query.columns) {
      const std::vector<Reached> all = column.path.from(one.record, collection);
      std::vector<Inlines> parts;
      for (const Reached& reached : all) parts.push_back(reachedInWords(page, reached));
      Inlines words = listed(std::move(parts));
      // What has no name is called what it is called elsewhere.
      const bool nothing = std::none_of(all.begin(), all.end(), [](const Reached& reached) {
        return reached.state == Reached::State::value || reached.state == Reached::State::record;
      });
      const bool ofName =
          column.path.steps().size() == 1 && column.path.steps()[0].type == choosing::Step::Type::field &&
          (column.path.steps()[0].field == "name"_f || column.path.steps()[0].field == "title"_f);
      if (nothing && ofName) words = {text(page.words().plainName(one.record))};
      const bool named =
          column.path.steps().size() == 1 && column.path.steps()[0].type == choosing::Step::Type::field &&
          (column.path.steps()[0].field == "name"_f || column.path.steps()[0].field == "title"_f ||
           column.path.steps()[0].field == "code"_f);
      if (cells.empty() || named) words = page.words().linked(one.record, {text(document::plainText(words))});
      if (cells.empty() && !one.sure) put(words, ", perhaps");
      cells.push_back(std::move(words));
    }
    cells.push_back(page.words().rowEvidence(page.record(one.record)));
    addRow(table, std::move(cells));
  });
  return {document::table(std::move(table))};
}

void addEntries(Page& page, const Listing& listing, Blocks& out) {
  for (const Chosen& one : listing.chosen)
    for (Block& block : entryOf(page, one.record)) out.push_back(std::move(block));
}

const choosing::Query* ownColumns(const Listing& listing, Kind kind) {
  const choosing::Query* query = listing.query.of(kind);
  return query != nullptr && !query->columns.empty() ? query : nullptr;
}

Inlines codeCell(const Page& page, const Chosen& one) {
  const PublishedRecord record = page.record(one.record);
  const Value* code = record.find("code"_f);
  std::string words;
  if (code != nullptr && code->said()) {
    std::vector<std::string> codes;
    for (const Value& each : code->each()) codes.emplace_back(each.text);
    words = base::joined(codes, ", ");
  } else if (const std::string_view name = record.text("name"_f); !name.empty()) {
    words = std::string(name);
  } else {
    words = code == nullptr                 ? "number not recorded"
            : code->type == ValueType::none ? "no number"
                                            : "number not known";
  }
  return listedName(page, one, {text(std::move(words))});
}

// What the other side says against a piece that is listed: in the chapter of a shape of that shape, else of all.
std::string saidAgainst(const Page& page, RecordIndex form) {
  const auto& all = page.book().piecesAtOdds();
  const RecordIndex own = page.chapter().record;
  const bool ofOne = own != records::kNoRecord && page.record(own).kind() == Kind::shape;
  std::vector<std::string> lists;
  std::vector<std::string> denied;
  constexpr std::size_t kMost = 4;
  auto add = [](std::vector<std::string>& names, std::string name) {
    if (names.size() < kMost)
      names.push_back(std::move(name));
    else if (names.size() == kMost)
      names.emplace_back("others");
  };
  for (auto one = std::lower_bound(all.begin(), all.end(), form,
                                   [](const choosing::MadeInClash&a, RecordIndex b) { return a.form < b; });
       one != all.end() && one->form == form; ++one)
    if (!ofOne || one->shape == own)
      add(one->formSaysYes ? lists : denied, page.words().plainName(one->shape));
  std::string out;
  if (!lists.empty()) out = "not in the list of " + base::listedInWords(lists) + ", which leaves nothing out";
  if (!denied.empty())
    out += (out.empty() ? "" : "; ") + std::string("listed for ") + base::listedInWords(denied) +
           ", though said not to be made in it";
  return out;
}

// "1920 to 1950 (disputed; or 1922; begun by May 1921, proven)".
Inlines datedCell(const Words& words, const PublishedRecord& record, Field field) {
  Inlines out{text(words.shortDate(record.find(field)))};
  std::vector<Inlines> beside = words.standingAndRemarks(record, *records::specOf(record.kind(), field));
  if (Inlines days = daysBeside(words, record, field, Room::row); !days.empty())
    beside.push_back(std::move(days));
  putInBrackets(out, separated(std::move(beside), "; "));
  return out;
}

}  // namespace

Blocks treatmentsList(Page& page, const Listing& listing) {
  if (listing.chosen.empty()) return {};
  Blocks out;
  if (const choosing::Query* own = ownColumns(listing, Kind::treatment)) {
    out = columnsTable(page, listing, *own);
    addEntries(page, listing, out);
    return out;
  }
  const choosing::Query* query = listing.query.of(Kind::treatment);
  auto shapeOf = [&](RecordIndex index) {
    const Value* shape = page.record(index).find("shape"_f);
    return shape != nullptr && shape->type == ValueType::reference ? shape->target() : records::kNoRecord;
  };
  const RecordIndex first = shapeOf(listing.chosen[0].record);
  const auto steps = query == nullptr || query->grouped.empty()
                         ? std::span<const choosing::Step>()
                         : std::span<const choosing::Step>(query->grouped.steps());
  auto groupedBy = [&](Field field) {
    return steps.size() == 1 && steps[0].type == choosing::Step::Type::field && steps[0].field == field;
  };
  const bool oneShape = first != records::kNoRecord &&
                        std::all_of(listing.chosen.begin(), listing.chosen.end(),
                                    [&](const Chosen& one) { return shapeOf(one.record) == first; });
  const bool withShape = !oneShape && !groupedBy("shape"_f);
  const bool withMotif = !groupedBy("motif"_f);
  std::vector<std::string> head{"Number"};
  if (withMotif) head.emplace_back("Motif");
  if (withShape) head.emplace_back("Shape");
  for (const char* one : {"Lines and glaze", "Offered", "Sources"}) head.emplace_back(one);
  document::Table table = tableOf(std::move(head));
  const RowStandings standings(page, listing.chosen);
  rowsInGroups(page, listing, Kind::treatment, table, [&](const Chosen& one) {
    const PublishedRecord record = page.record(one.record);
    page.lists(one.record);
    page.uses(one.record);
    std::vector<Inlines> cells{codeCell(page, one)};
    if (withMotif)
      cells.push_back(
          page.words().value(record.find("motif"_f), records::specOf(Kind::treatment, "motif"_f), record));
    if (withShape)
      cells.push_back(
          page.words().value(record.find("shape"_f), records::specOf(Kind::treatment, "shape"_f), record));
    cells.push_back(page.words().look(record.find("look"_f)));
    cells.push_back(page.words().dates(record, standings.ofDates(one.record)));
    cells.push_back(page.words().rowEvidence(record, false));
    putInBrackets(cells.back(), standings.ofSources(one.record));
    addRow(table, std::move(cells));
  });
  out.push_back(document::table(std::move(table)));
  for (Block& block : standings.below()) out.push_back(std::move(block));
  addEntries(page, listing, out);
  return out;
}

Blocks formsList(Page& page, const Listing& listing) {
  if (listing.chosen.empty()) return {};
  if (const choosing::Query* own = ownColumns(listing, Kind::form)) {
    for (const Chosen& one : listing.chosen) page.takeAnchor(one.record);
    return columnsTable(page, listing, *own);
  }
  const bool home = std::any_of(listing.chosen.begin(), listing.chosen.end(),
                                [&](const Chosen& one) { return page.wants(one.record); });
  std::vector<std::string> head{"Piece", "List size", "Measures"};
  if (home) head.emplace_back("Made in");
  head.emplace_back("Sources");
  document::Table table = tableOf(std::move(head));
  auto row = [&](const Chosen& one) {
    const PublishedRecord record = page.record(one.record);
    const std::string anchor = page.takeAnchor(one.record);
    page.lists(one.record);
    page.uses(one.record);
    auto value = [&](Field field) {
      return page.words().value(record.find(field), records::specOf(Kind::form, field), record);
    };
    std::string plain = capitalised(page.words().plainName(one.record));
    Inlines name = anchor.empty() ? page.words().linked(one.record, {text(std::move(plain))})
                                  : Inlines{text(std::move(plain))};
    if (const Value* also = record.find("also"_f); also != nullptr && also->said()) {
      std::vector<std::string> others;
      for (const Value& other : also->each())
        if (const Value* otherName = other.find("name"_f); otherName != nullptr && otherName->said())
          others.emplace_back(otherName->text);
      put(name, " (" + base::joined(others, ", ") + ")");
    }
    if (!one.sure) put(name, ", perhaps");
    if (const std::string against = saidAgainst(page, one.record); !against.empty())
      put(name, "; disputed: " + against);
    if (!anchor.empty()) {
      Inlines corrected = correctionLinks(page.words().materials(), page.book().places(), one.record);
      if (!corrected.empty()) put(name, "; corrected: ");
      put(name, std::move(corrected));
    }
    const Value* size = record.find("actual"_f);
    Inlines actual = size == nullptr || !size->said()
                         ? Inlines{text(size == nullptr                 ? "size not recorded"
                                        : size->type == ValueType::none ? "no size"
                                                                        : "size not known")}
                         : value("actual"_f);
    if (const std::string_view measured = record.text("measured"_f);
        !measured.empty() && measured != "overall")
      put(actual, " " + std::string(measured));
    if (const Value* holds = record.find("holds"_f); holds != nullptr && holds->said()) {
      put(actual, "; holds ");
      put(actual, value("holds"_f));
    } else if (holds != nullptr) {
      put(actual, holds->type == ValueType::none ? "" : "; what it holds is not known");
    }
    const Value* listed = record.find("nominal"_f);
    const bool noSize = listed != nullptr && listed->type == ValueType::none;
    std::vector<Inlines> cells;
    cells.push_back(std::move(name));
    cells.push_back(noSize ? withEvidence(page, record, *listed, nullptr, {text("no size")})
                           : value("nominal"_f));
    cells.push_back(std::move(actual));
    if (home) {
      const Value* in = record.find("made-in"_f);
      cells.push_back(in != nullptr && in->type == ValueType::all ? Inlines{text("every shape")}
                                                                  : value("made-in"_f));
    }
    cells.push_back(page.words().rowEvidence(record));
    addRow(table, std::move(cells));
    if (!anchor.empty()) table.rows.back().cells[0].anchor = anchor;
  };
  const choosing::Query* query = listing.query.of(Kind::form);
  auto wareOf = [&](const Chosen& one) { return page.record(one.record).text("ware"_f); };
  const bool oneWare = std::all_of(listing.chosen.begin(), listing.chosen.end(), [&](const Chosen& one) {
    return wareOf(one) == wareOf(listing.chosen[0]);
  });
  if (oneWare || (query != nullptr && (!query->grouped.empty() || !query->inOrderOf.empty()))) {
    rowsInGroups(page, listing, Kind::form, table, row);
  } else {
    constexpr std::pair<std::string_view, std::string_view> kWares[] = {
        {"flat", "Flatware"}, {"hollow", "Hollowware"}, {"set", "Sets"}, {"", "Other pieces"}};
    for (const auto& [ware, title] : kWares) {
      bool headed = false;
      for (const Chosen& one : listing.chosen) {
        if (wareOf(one) != ware) continue;
        if (!headed) addGroupHead(table, {text(std::string(title))});
        headed = true;
        row(one);
      }
    }
  }
  Blocks out{document::table(std::move(table))};
  if (!home) return out;
  std::vector<Blocks> notes;
  for (const Chosen& one : listing.chosen) {
    const PublishedRecord record = page.record(one.record);
    if (!page.isHome(one.record)) continue;
    std::vector<Inlines> parts;
    for (Field field : {"parts"_f, "family"_f})
      if (const Value* value = record.find(field); value != nullptr && value->said()) {
        Inlines part;
        put(part, field == "parts"_f ? "consists of " : "count sizes compared within the family ");
        put(part, page.words().value(value, nullptr, record));
        parts.push_back(std::move(part));
      }
    if (const Value* more = record.find("more"_f))
      for (const records::Entry& entry : more->entries()) {
        Inlines part;
        put(part, std::string(entry.key) + ": ");
        put(part, valueWithEvidence(page, record, entry.value, nullptr));
        parts.push_back(std::move(part));
      }
    if (const Value* see = record.find("see"_f)) {
      Inlines part;
      put(part, "see ");
      put(part, page.words().value(see, nullptr, record));
      parts.push_back(std::move(part));
    }
    Inlines words = parts.empty() ? Inlines() : sentence(capitalised(separated(std::move(parts), "; ")));
    if (const Value* note = record.find("note"_f); note != nullptr && note->said()) {
      put(words, words.empty() ? "" : " ");
      put(words, page.words().proseLine(record, *note));
    }
    if (!words.empty() && (record.find("note"_f) != nullptr || record.find("parts"_f) != nullptr ||
                           record.find("more"_f) != nullptr))
      notes.push_back(labelled(capitalised(page.words().plainName(one.record)), std::move(words)));
    for (Block& block : picturesOf(page, one.record)) out.push_back(std::move(block));
  }
  if (!notes.empty()) out.push_back(document::list(std::move(notes)));
  return out;
}

Blocks marksList(Page& page, const Listing& listing) {
  if (listing.chosen.empty()) return {};
  Blocks out;
  if (const choosing::Query* own = ownColumns(listing, Kind::mark)) {
    out = columnsTable(page, listing, *own);
  } else {
    document::Table table = tableOf({"Mark", "How it was made", "Reads", "Used", "Sources"});
    rowsInGroups(page, listing, Kind::mark, table, [&](const Chosen& one) {
      const PublishedRecord record = page.record(one.record);
      page.lists(one.record);
      page.uses(one.record);
      const std::string how = howMarkWasMade(page, record);
      Inlines used = datedCell(page.words(), record, "used"_f);
      addRow(table,
             {listedName(page, one),
              {text(how.empty() ? "not recorded" : how)},
              page.words().value(record.find("reads"_f), records::specOf(Kind::mark, "reads"_f), record),
              std::move(used),
              page.words().rowEvidence(record)});
    });
    out.push_back(document::table(std::move(table)));
  }
  addEntries(page, listing, out);
  return out;
}

}  // namespace saggar::compose
