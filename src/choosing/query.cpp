#include "choosing/query.h"

#include "base/edit_distance.h"
#include "base/text.h"
#include "base/utf8.h"
#include "choosing/say.h"
#include "reading/typed.h"

namespace saggar::choosing {

using diagnostics::Findings;
using diagnostics::Rule;
using records::Entry;
using records::Extent;
using records::Value;
using records::ValueType;

namespace {

constexpr std::string_view kKeys[] = {"where", "sure", "in-order-of", "grouped", "columns", "title"};

struct Reader {
  Kind kind;
  const Collection& collection;
  source::FileId file;
  Findings& findings;
  bool allowPrivate;

  void report(Rule rule, Extent place, std::string message, std::string hint) const {
    findings.add({.rule = rule,
                  .span = {file, place.begin, std::max(place.begin, place.end)},
                  .message = std::move(message),
                  .hint = std::move(hint)});
  }

  Path path(const Value& value, std::string_view what) const {
    if (value.type != ValueType::text) {
      if (value.type != ValueType::unfit)
        report("value-unfit"_rule, value.place,
               inTicks(what) + " takes a field, or a path as `motif.supplier`", "write the field's name");
      return {};
    }
    PathProblem problem;
    Path read = Path::compile(value.text, kind, collection, problem, allowPrivate);
    if (!read.empty()) return read;
    Extent place = value.place;
    const std::size_t typed = place.end - place.begin;
    if (typed == value.text.size() || typed == value.text.size() + 2) {
      place.begin += static_cast<std::uint32_t>(problem.at + (typed - value.text.size()) / 2);
      place.end = place.begin + static_cast<std::uint32_t>(problem.length);
    }
    report("field-unknown"_rule, place, problem.message, problem.hint);
    return {};
  }

  void columns(const Value& value, std::vector<Column>& out) const {
    auto one = [&](std::string_view heading, const Value& field) {
      Path read = path(field, "columns");
      if (!read.empty()) out.push_back({std::string(heading), std::move(read)});
    };
    for (const Value& item : value.each()) {
      if (item.type == ValueType::mapping) {
        for (const Entry& entry : item.entries()) one(entry.key, entry.value);
      } else {
        one({}, item);
      }
    }
  }

  void take(std::string_view key, const Value& value, Query& query) const {
    if (value.type == ValueType::unfit) return;
    if (key == "where") {
      query.where = Condition::compile(value, kind, collection, file, findings, allowPrivate);
    } else if (key == "sure") {
      if (value.text != "yes" && value.text != "no")
        report("value-unfit"_rule, value.place, "`sure` is `yes` or `no`",
               "write `sure: yes` to leave out what is only perhaps meant");
      query.sure = value.text == "yes";
    } else if (key == "grouped") {
      if (value.type == ValueType::list)
        report("value-unfit"_rule, value.place, "`grouped` takes one field, here is a list",
               "name one; sort by the others with `in-order-of`");
      else
        query.grouped = path(value, key);
    } else if (key == "in-order-of") {
      for (const Value& one : value.each())
        if (Path read = path(one, key); !read.empty()) query.inOrderOf.push_back(std::move(read));
    } else if (key == "columns") {
      columns(value, query.columns);
    } else if (key == "title") {
      if (value.type == ValueType::text || value.type == ValueType::prose)
        query.title = std::string(value.text);
      else
        report("value-unfit"_rule, value.place, "`title` takes plain words", "write `title: The words`");
    }
  }
};

bool holds(std::span<const std::string_view> keys, std::string_view key) {
  return std::find(keys.begin(), keys.end(), key) != keys.end();
}

std::string keysTaken(std::span<const std::string_view> passedOver) {
  std::vector<std::string> shown;
  for (std::string_view one : kKeys)
    if (!holds(passedOver, one)) shown.push_back(inTicks(one));
  return "it takes " + base::listedInWords(shown);
}

// What a key that no list knows was meant to be.
std::string hintForKey(const Entry& entry, Kind kind, const Collection& collection,
                       std::span<const std::string_view> passedOver) {
  PathProblem problem;
  const bool isPath = !Path::compile(entry.key, kind, collection, problem).empty();
  if (isPath || entry.key == "not" || entry.key == "any") {
    if (entry.value.type == ValueType::text && entry.value.text.find('\n') == std::string_view::npos)
      return "a condition goes under `where`: write `where: {" + std::string(entry.key) + ": " +
             base::shortened(entry.value.text, 40) + "}`";
    return "a condition goes under `where`: write `where: {" + std::string(entry.key) + ": …}`";
  }
  if (const auto near = base::nearest(entry.key, kKeys)) return "did you mean `" + std::string(*near) + "`?";
  return keysTaken(passedOver);
}

// Findings made on a text of its own, brought to where the text stands.
void bringHome(Findings local, source::FileId sentinel, const reading::TextMap& places, Findings& findings) {
  for (diagnostics::Finding& one : local.all()) {
    auto home = [&](source::Span& span) {
      if (span.file == sentinel) span = places.at(span.begin, span.end);
    };
    home(one.span);
    for (diagnostics::Related& related : one.related) home(related.span);
  }
  findings.append(std::move(local));
}

}  // namespace

Path readPath(const Value& value, Kind kind, const Collection& collection, source::FileId file,
              Findings& findings, std::string_view what, bool allowPrivate) {
  return Reader{kind, collection, file, findings, allowPrivate}.path(value, what);
}

std::optional<Kind> readKind(const Value& value, source::FileId file, Findings& findings,
                             std::string_view what) {
  if (value.type == ValueType::unfit) return std::nullopt;
  const auto kind = records::kindNamed(value.text);
  if (kind && value.type == ValueType::text) return kind;
  std::vector<std::string_view> names;
  for (std::size_t i = 0; i + 1 < records::kKindCount; ++i) names.push_back(records::kKindNames[i].one);
  std::string hint = "write a kind, as `" + std::string(what) + ": shape`";
  for (std::size_t i = 0; i + 1 < records::kKindCount; ++i)
    if (records::kKindNames[i].many == value.text)
      hint = "did you mean `" + std::string(records::kKindNames[i].one) + "`?";
  if (const auto near = base::nearest(value.text, names); near && value.type == ValueType::text)
    hint = "did you mean `" + std::string(*near) + "`?";
  findings.add({.rule = "value-unfit"_rule,
                .span = {file, value.place.begin, value.place.end},
                .message = (value.text.empty() ? "this" : inTicks(value.text)) + " is no kind of record",
                .hint = std::move(hint)});
  return std::nullopt;
}

Query readQuery(const Value& mapping, Kind kind, const Collection& collection, source::FileId file,
                Findings& findings, bool allowPrivate) {
  Query query;
  query.kind = kind;
  const Reader reader{kind, collection, file, findings, allowPrivate};
  for (const Entry& entry : mapping.entries()) reader.take(entry.key, entry.value, query);
  return query;
}

std::optional<Query> readQuery(RecordIndex checklist, const Collection& collection, Findings& findings) {
  const records::Record& record = collection[checklist];
  const auto kind = records::kindNamed(record.text("show"_f));
  if (!kind) return std::nullopt;
  Query query;
  query.kind = *kind;
  Findings local;
  const Reader reader{*kind, collection, record.file, local, false};
  for (const Entry& entry : record.fields) {
    if (!entry.known) continue;
    const std::size_t before = local.all().size();
    reader.take(entry.key, entry.value, query);
    for (std::size_t i = before; i < local.all().size(); ++i) {
      local.all()[i].record = record.reference();
      local.all()[i].field = std::string(entry.key);
    }
  }
  findings.append(std::move(local));
  return query;
}

Query readQuery(std::string_view yaml, const reading::TextMap& places, Kind kindOfBlock,
                const Collection& collection, Findings& findings,
                std::span<const std::string_view> passedOver) {
  constexpr source::FileId kHere = source::kNoFile - 1;
  Query query;
  query.kind = kindOfBlock;
  if (const std::size_t at = base::firstInvalidUtf8(yaml); at != std::string_view::npos) {
    findings.add({.rule = "text-unfit"_rule,
                  .span = places.at(at, at + 1),
                  .message = "this is not UTF-8",
                  .hint = "save the file as UTF-8"});
    return query;
  }
  Findings local;
  base::Arena nodes;
  base::Arena texts;
  reading::DatePool dates;
  const reading::Piece piece{yaml, 0, static_cast<std::uint32_t>(yaml.size()), kHere};
  const reading::TreeResult tree = reading::TreeReader(nodes, texts).read(piece, local);
  if (tree.root != nullptr && !tree.broken) {
    const Reader reader{kindOfBlock, collection, kHere, local, false};
    const Value mapping = reading::TypedReader(kHere, yaml, texts, dates, local).readTree(*tree.root);
    if (mapping.type != ValueType::mapping && mapping.type != ValueType::unfit)
      reader.report("value-unfit"_rule, mapping.place,
                    "what a block lists is said by keys, here is " +
                        std::string(mapping.type == ValueType::list ? "a list" : "a plain text"),
                    "write it as `where: {shape: jessamount}`");
    for (const Entry& entry : mapping.entries()) {
      if (!holds(kKeys, entry.key)) {
        reader.report("field-unknown"_rule, entry.keyPlace, "a block has no key " + inTicks(entry.key),
                      hintForKey(entry, kindOfBlock, collection, passedOver));
      } else if (holds(passedOver, entry.key)) {
        reader.report("field-unknown"_rule, entry.keyPlace, "this block has no use for " + inTicks(entry.key),
                      keysTaken(passedOver));
      } else {
        reader.take(entry.key, entry.value, query);
      }
    }
  }
  bringHome(std::move(local), kHere, places, findings);
  return query;
}

}  // namespace saggar::choosing
