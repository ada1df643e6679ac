#include "base/edit_distance.h"
#include "base/text.h"
#include "reading/typed.h"

// A mapping whose first key is its kind and that key's value its id.
namespace saggar::reading {

using records::Entry;
using records::Evidence;
using records::FieldSpec;
using records::Kind;
using records::Record;

namespace {

std::string allKinds() {
  std::vector<std::string> names;
  for (std::size_t i = 0; i + 1 < records::kKindCount; ++i)
    names.push_back('`' + std::string(records::kKindNames[i].one) + '`');
  return base::listedInWords(names, "or");
}

// What an unknown field was meant to be: a field of the kind, an English synonym, or a field of evidence.
std::string fieldHint(Kind kind, std::string_view key) {
  // Sources, talks and checklists have a title, all others a name.
  for (const auto& [typed, meant] : {std::pair{"name"_f, "title"_f}, std::pair{"title"_f, "name"_f}})
    if (key == typed.name() && records::specOf(kind, meant) != nullptr)
      return "did you mean `" + std::string(meant.name()) + "`?";
  std::vector<std::string_view> names;
  for (const FieldSpec* field : records::fieldsOf(kind)) names.push_back(field->field.name());
  names.push_back("cite");
  if (const auto near = base::nearest(key, names)) return "did you mean `" + std::string(*near) + "`?";
  const std::string kindName(records::name(kind));
  if (records::fieldNamed(key))
    return "other kinds have it; `saggar blank " + kindName + "` prints what a " + kindName + " can hold";
  return "`saggar blank " + kindName +
         "` prints the fields there are; a heading of your own goes under `more:`, a private "
         "note under a name that begins with `my-`";
}

}  // namespace

bool TypedReader::readRecord(const Node& node, bool inGuideFile, Record& record, std::string_view& lostId) {
  record_ = nullptr;
  fieldName_ = {};
  if (node.told && node.type != NodeType::mapping) return false;
  if (node.type != NodeType::mapping || node.first == nullptr) return noRecord(node, inGuideFile, lostId);
  const Node& kindKey = *node.first;
  const Node& idNode = *kindKey.next;
  const bool guideKey = kindKey.isScalar() && kindKey.text == "guide";
  std::optional<Kind> kind = kindKey.isScalar() ? records::kindNamed(kindKey.text) : std::nullopt;
  if (guideKey && inGuideFile) kind = Kind::guide;
  if (!kind || (inGuideFile && kind != Kind::guide)) return noKind(node, inGuideFile, lostId);
  record.kind = *kind;
  record.file = file_;
  record.place = {node.begin, node.end};
  record.idPlace = {idNode.begin, idNode.end};
  if (idNode.isScalar()) record.id = idNode.text;
  if (*kind != Kind::guide && !isId(record.id)) return noId(idNode, *kind, record.id, lostId);
  record_ = &record;
  if (*kind == Kind::guide && record.id.empty()) {
    fieldName_ = "guide";
    unfit(idNode, "the guide has no title", "write `guide: The title`");
  }
  keysOnce(node);
  {
    Gathered<Entry> entries(entries_);
    bool first = true;
    forEachPair(node, [&](const Node& key, const Node& child) {
      if (!first && lostId.empty() && !beginsAnother(node, key, child, record.kind, lostId))
        readField(key, child, record, entries);
      first = false;
    });
    record.fields = kept(entries.all());
  }
  if (lostId.empty()) needsAll(node, record);
  record_ = nullptr;
  return true;
}

// What a record of its kind says nothing without. An unknown word among its fields, which has been told, may be it.
void TypedReader::needsAll(const Node& node, const Record& record) {
  for (const FieldSpec& field : records::spec(record.kind).fields) {
    if (!field.has(records::kEssential) || record.find(field.field) != nullptr) continue;
    const std::string kind(records::name(record.kind));
    bool guess = false;
    forEachPair(node, [&](const Node& key, const Node&) {
      guess |= key.told || !key.isScalar() ||
               (!records::fieldNamed(key.text) && !key.text.starts_with("my-") && &key != node.first);
    });
    if (guess) return;
    fieldName_ = field.field.name();
    report("value-unfit"_rule, record.idPlace.begin, record.idPlace.end,
           "the " + kind + " `" + base::shortened(record.id, 40) + "` needs `" + std::string(fieldName_) +
               "`: " + std::string(field.meaning),
           "add `" + std::string(fieldName_) + ": " + base::shortened(field.example, 60) + "`");
  }
}

// `specimen: a-plate` among the fields of a treatment: the dash in front of a record was lost, and all that follows is
// that record's.
bool TypedReader::beginsAnother(const Node& mapping, const Node& key, const Node& child, Kind kind,
                                std::string_view& lostId) {
  if (mapping.style != NodeStyle::block || !key.isScalar() || !child.isScalar() || !isId(child.text))
    return false;
  if (!records::kindNamed(key.text) || kind == Kind::guide) return false;
  const auto field = records::fieldNamed(key.text);
  if (field && records::specOf(kind, *field) != nullptr) return false;
  fieldName_ = key.text;
  const std::string typed = std::string(key.text) + ": " + std::string(child.text);
  report("yaml-broken"_rule, key.begin, child.end,
         "`" + typed + "` stands among the fields of another record",
         "if a new record begins here, its line begins with a dash: `- " + typed + "`");
  lostId = child.text;
  return true;
}

void TypedReader::readField(const Node& key, const Node& child, Record& record, Gathered<Entry>& entries) {
  fieldName_ = key.text;
  if (!key.isScalar() || key.text.empty()) {
    unfit(key, "a field's name must be a word", "write `word: value`");
    return;
  }
  if (key.text == "cite" && record.kind != Kind::guide) {
    if (child.type == NodeType::empty) {
      unfit(child, "`cite` has no value", "type the source's id, or take the line out");
      return;
    }
    auto* evidence = arena_.make<Evidence>();
    evidence->cite = readCitations(child);
    evidence->place = {key.begin, child.end};
    record.evidence = evidence;
    return;
  }
  Entry entry;
  entry.key = key.text;
  entry.keyPlace = {key.begin, key.end};
  if (key.text.starts_with("my-")) {
    entry.value = child.type == NodeType::empty ? start(child, records::ValueType::none) : readTree(child);
    entries.add(entry);
    return;
  }
  const auto field = records::fieldNamed(key.text);
  const FieldSpec* spec = field ? records::specOf(record.kind, *field) : nullptr;
  if (spec == nullptr) {
    const std::string kind(records::name(record.kind));
    report("field-unknown"_rule, key.begin, key.end,
           (record.kind == Kind::guide ? "the " : "a ") + kind + " has no field `" +
               base::shortened(key.text, 40) + "`",
           fieldHint(record.kind, key.text));
    return;
  }
  entry.field = *field;
  entry.known = true;
  entry.value = readValue(child, *spec);
  entries.add(entry);
}

bool TypedReader::noRecord(const Node& node, bool inGuideFile, std::string_view& lostId) {
  const std::string shown = base::shortened(node.text, 60);
  const std::size_t colon = node.isScalar() ? node.text.find(':') : std::string_view::npos;
  if (colon != std::string_view::npos && colon != 0 && colon + 1 < node.text.size() &&
      node.text[colon + 1] != ' ') {
    report("yaml-broken"_rule, node.begin, node.end, "`" + shown + "` has no blank after the colon",
           "write `" + base::shortened(node.text.substr(0, colon), 40) + ": " +
               base::shortened(node.text.substr(colon + 1), 40) + "`");
    lostId = node.text.substr(colon + 1);
  } else {
    report("kind-unknown"_rule, node.begin, std::max(node.end, node.begin + 1),
           inGuideFile       ? "`guide.yaml` begins with `guide:` and the guide's title"
           : node.isScalar() ? "`" + shown + "` is no record"
                             : "no record begins here",
           inGuideFile ? "write `guide: The title` first; records go into other files"
                       : "a record begins with its kind and its id, as `- shape: jessamount`");
  }
  return false;
}

bool TypedReader::noKind(const Node& node, bool inGuideFile, std::string_view& lostId) {
  const Node& kindKey = *node.first;
  const Node& idNode = *kindKey.next;
  // A record whose first line was moved down is still the record of its id.
  const Node* moved = nullptr;
  forEachPair(node, [&](const Node& key, const Node& child) {
    if (moved == nullptr && key.isScalar() && records::kindNamed(key.text) && child.isScalar() &&
        isId(child.text))
      moved = &key;
  });
  lostId = moved != nullptr ? moved->next->text : idNode.isScalar() ? idNode.text : std::string_view();
  if (kindKey.told) return false;
  std::string hint;
  std::string message = "`" + base::shortened(kindKey.text, 40) + "` is no kind of record";
  if (kindKey.isScalar() && kindKey.text == "guide") {
    message = "the guide's own mapping stands in `guide.yaml` only";
    hint = "move it to `guide.yaml` in the guide's folder";
  } else if (inGuideFile) {
    message = "`guide.yaml` begins with `guide:` and the guide's title";
    hint = "write `guide: The title` first; records go into other files";
  } else if (!kindKey.isScalar()) {
    message = "no record begins here";
    hint = "a record begins with its kind and its id, as `- shape: jessamount`";
  } else {
    std::vector<std::string_view> names;
    for (const auto& one : records::kKindNames)
      if (one.one != "guide") names.push_back(one.one);
    const auto near = base::nearest(kindKey.text, names);
    const bool known = records::fieldNamed(kindKey.text).has_value();
    if (known && moved != nullptr) {
      hint = "the kind and the id come first: begin with `- " + std::string(moved->text) + ": " +
             std::string(moved->next->text) + "`";
    } else if (near && (!known || std::string_view(kindKey.text) == std::string(*near) + 's')) {
      hint = "did you mean `" + std::string(*near) + "`?";
    } else if (known) {
      hint =
          "a record's first line is its kind and its id, as `- shape: jessamount`; the other fields follow";
    } else {
      hint = "a kind is " + allKinds();
    }
  }
  report("kind-unknown"_rule, kindKey.begin, kindKey.end, message, hint);
  return false;
}

bool TypedReader::noId(const Node& idNode, Kind kind, std::string_view id, std::string_view& lostId) {
  const std::string kindName(records::name(kind));
  const std::string near = asId(id);
  fieldName_ = records::name(kind);
  if (id.empty()) {
    unfit(idNode, "this " + kindName + " has no id",
          "write a short name of small letters, figures and hyphens, as `" + kindName + ": blue-rim`");
  } else {
    unfit(idNode,
          "`" + base::shortened(id, 60) + "` cannot be an id: ids are small letters, figures and hyphens",
          near.empty() ? "choose a short name, as `blue-rim`"
                       : "write `" + kindName + ": " + near + "`, and the words for print under `name:`");
  }
  lostId = id;
  return false;
}

}  // namespace saggar::reading
