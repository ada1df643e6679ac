#include "compose/checklist_cells.h"

#include <algorithm>
#include <array>

#include "base/text.h"
#include "compose/facts.h"
#include "compose/phrases.h"

namespace saggar::compose {

using choosing::Path;
using choosing::Reached;
using choosing::Step;
using records::Field;
using records::FieldType;
using records::Value;
using records::ValueType;

namespace {

struct Head {
  Field field;
  std::string_view words;
};

// Where a column has less room than a line of the guide, or the trade's word is another.
constexpr Head kHeads[] = {
    {"introduced"_f, "Introduced"}, {"withdrawn"_f, "Last offered"},
    {"nominal"_f, "Nominal size"},  {"actual"_f, "Actual size"},
    {"method"_f, "Method"},         {"supplier-number"_f, "Supplier’s no."},
    {"shapes"_f, "Seen on"},        {"forms"_f, "Pieces"},
    {"prefix"_f, "Prefix"},         {"kept"_f, ""},
};

std::string nameHead(Kind kind) {
  switch (kind) {
    case Kind::person: return "Name";
    case Kind::treatment: return "Decoration";
    default: return capitalised(kindInWords(kind));
  }
}

std::string headOfField(Kind kind, Field field) {
  if (field == "name"_f || field == "title"_f) return nameHead(kind);
  if (kind == Kind::motif && field == "introduced"_f) return "First used";
  if (kind == Kind::motif && field == "withdrawn"_f) return "Last used";
  for (const Head& one : kHeads)
    if (one.field == field) return std::string(one.words);
  if (field == "treatment"_f) return nameHead(Kind::treatment);
  if (field == "form"_f) return nameHead(Kind::form);
  return labelOf(kind, field);
}

// A narrow column breaks "16 fl oz (475 ml)" before its bracket, and nowhere else.
std::string measureHeld(std::string_view words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool inside = words[i] == ' ' && i > 0 && words[i - 1] != ',' && words[i - 1] != ')' &&
                        i + 1 < words.size() && words[i + 1] != '(';
    out += inside ? std::string_view("\u00A0") : words.substr(i, 1);
  }
  return out;
}

bool hasRemarks(const Value& value) {
  return value.isDoubted() || (value.evidence != nullptr && !value.evidence->but().empty());
}

}  // namespace

std::string columnHead(const Path& path, Kind kind) {
  const std::vector<Step>& steps = path.steps();
  std::size_t last = steps.size() - 1;
  // "motif.supplier.name" is the supplier.
  if (last > 0 && steps[last].type == Step::Type::field &&
      (steps[last].field == "name"_f || steps[last].field == "title"_f))
    --last;
  const Step& step = steps[last];
  switch (step.type) {
    case Step::Type::field: return headOfField(last == 0 ? kind : Kind::guide, step.field);
    case Step::Type::backwards: return capitalised(kindInWords(step.kind, true));
    case Step::Type::itself: return "Id";
    case Step::Type::feature: {
      std::string words = step.key;
      std::replace(words.begin(), words.end(), '-', ' ');
      return capitalised(std::move(words));
    }
    case Step::Type::spanEnd:
      return headOfField(last == 1 ? kind : Kind::guide, path.endSpec()->field) + ' ' + step.key;
    case Step::Type::heading: break;
  }
  return step.key;
}

std::vector<choosing::Column> usualColumns(Kind kind, const choosing::Collection& collection) {
  using List = std::array<std::string_view, 5>;
  List wanted{"name", "title", "", "", ""};
  if (kind == Kind::treatment) wanted = {"code", "shape", "motif", "introduced", "withdrawn"};
  if (kind == Kind::form) wanted = {"name", "nominal", "actual", "holds", ""};
  if (kind == Kind::mark) wanted = {"name", "method", "reads", "used", ""};
  if (kind == Kind::shape) wanted = {"name", "maker", "introduced", "withdrawn", ""};
  if (kind == Kind::motif) wanted = {"name", "supplier", "introduced", "withdrawn", ""};
  if (kind == Kind::specimen) wanted = {"treatment", "form", "code-seen", "date-code", ""};
  if (kind == Kind::claim) wanted = {"says", "status", "", "", ""};
  if (kind == Kind::question) wanted = {"asks", "", "", "", ""};
  if (kind == Kind::term) wanted = {"name", "means", "", "", ""};
  std::vector<choosing::Column> out;
  for (std::string_view one : wanted) {
    if (one.empty()) continue;
    choosing::PathProblem problem;
    Path path = Path::compile(one, kind, collection, problem);
    if (!path.empty()) out.push_back({{}, std::move(path)});
  }
  return out;
}

const std::string& CellMaker::nameOf(RecordIndex record) {
  const auto [found, fresh] = names_.try_emplace(record);
  if (fresh) found->second = words_.plainName(record);
  return found->second;
}

std::string CellMaker::valueInWords(const Value& value, const records::FieldSpec* spec, RecordIndex owner) {
  if (!hasRemarks(value)) {
    if (value.type == ValueType::reference && value.target() != records::kNoRecord)
      return nameOf(value.target());
    if (value.type == ValueType::text && (spec == nullptr || spec->type != FieldType::choice))
      return std::string(value.text);
    if (const dates::Expression* date = value.date()) {
      const auto [found, fresh] = dates_.try_emplace(date);
      if (fresh) found->second = words_.shortDate(&value);
      return found->second;
    }
  }
  std::string words = words_.plainValue(&value, spec, words_.materials().records[owner]);
  return spec != nullptr && spec->type == FieldType::measure ? measureHeld(words) : words;
}

std::string CellMaker::inWords(const Reached& reached) {
  switch (reached.state) {
    case Reached::State::absent: return std::string(kNotRecorded);
    case Reached::State::unknown: return std::string(kNotKnown);
    case Reached::State::none: return "none";
    case Reached::State::record: return nameOf(reached.record);
    case Reached::State::value: break;
  }
  if (reached.end != choosing::SpanEnd::whole)
    return words_.shortEnd(
        *reached.value, reached.end == choosing::SpanEnd::from ? dates::End::Earliest : dates::End::Latest);
  return valueInWords(*reached.value, reached.spec, reached.record);
}

std::string CellMaker::cell(const Path& path, RecordIndex record, bool first) {
  const Step& last = path.steps().back();
  const bool alone = path.steps().size() == 1;
  if (alone && last.type == Step::Type::itself) return std::string(words_.materials().records[record].id());
  const std::vector<Reached> all = path.from(record, words_.materials().chooser.collection());
  const bool nothing = std::all_of(all.begin(), all.end(), [](const Reached& one) {
    return one.state == Reached::State::absent || one.state == Reached::State::unknown ||
           one.state == Reached::State::none;
  });
  if (nothing && alone && last.type == Step::Type::field) {
    if (last.field == "name"_f || last.field == "title"_f) return words_.plainName(record);
    if (first && (last.field == "code"_f || last.field == "code-seen"_f)) {
      std::string words = all[0].state == Reached::State::none      ? "none"
                          : all[0].state == Reached::State::unknown ? "not known"
                                                                    : "not recorded";
      // Without a number the name alone says which decoration is meant.
      if (const std::string_view name = words_.materials().records[record].text("name"_f); !name.empty())
        words += " (" + std::string(name) + ")";
      return words;
    }
    if (first) return words_.plainName(record);
  }
  if (all.size() == 1) return inWords(all[0]);
  // Of a choice of values those that say something count.
  std::vector<std::string> parts;
  for (const Reached& one : all) {
    if (!nothing && (one.state == Reached::State::absent || one.state == Reached::State::none)) continue;
    std::string words = inWords(one);
    if (std::find(parts.begin(), parts.end(), words) == parts.end()) parts.push_back(std::move(words));
  }
  const bool commas = std::any_of(parts.begin(), parts.end(),
                                  [](const std::string& one) { return one.find(',') != std::string::npos; });
  return base::joined(parts, commas ? "; " : ", ");
}

std::string CellMaker::groupName(const Reached& key, const Path& by) {
  const std::string head = columnHead(by, kind_);
  if (key.state == Reached::State::absent) return head + " not recorded";
  if (key.state == Reached::State::unknown) return head + " not known";
  if (key.state == Reached::State::none && key.value == nullptr) return "No " + base::folded(head);
  const Step& last = by.steps().back();
  if (last.type == Step::Type::field && last.field == "ware"_f && key.value != nullptr) {
    if (key.value->text == "flat") return "Flatware";
    if (key.value->text == "hollow") return "Hollowware";
    if (key.value->text == "set") return "Sets";
  }
  std::string words = inWords(key);
  if (words == "none") return "No " + base::folded(head);
  return capitalised(std::move(words));
}

}  // namespace saggar::compose
