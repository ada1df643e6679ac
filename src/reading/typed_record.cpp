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
  for (std::size_t i = 0; i + 1 < records::kKindCount; ++i) names.push_back('`' + std::string(records::kKindNames[i].one) + '`');
  return base::listedInWords(names, "or");
}

// What an unknown field was meant to be: a field of the kind, an English synonym, or a field of evidence.
std::string fieldHint(Kind kind, std::string_view key) {
  std::vector<std::string_view> names;
  for (const FieldSpec* field : records::fieldsOf(kind)) names.push_back(field->field.name());
  names.push_back("cite");
  if (const auto near = base::nearest(key, names)) return "did you mean `" + std::string(*near) + "`?";
  const std::string kindName(records::name(kind));
  if (records::fieldNamed(key))
    return "other kinds have it; `saggar blank " + kindName + "` prints what a " + kindName + " can hold";
  return "`saggar blank " + kindName + "` prints the fields there are; a heading of your own goes under `more:`, a private "
         "note under a name that begins with `my-`";
}

}  // namespace

bool TypedReader::readRecord(const Node& node, bool inGuideFile, Record& record, std::string_view& lostId) {
  recordName_.clear();
  fieldName_ = {};
  if (node.type != NodeType::mapping || node.first == nullptr) {
    const std::string shown = base::shortened(node.text, 60);
    if (node.isScalar() && node.text.find(':') != std::string_view::npos) {
      const std::size_t colon = node.text.find(':');
      report("yaml-broken"_rule, node.begin, node.end, "`" + shown + "` has no blank after the colon",
             "write `" + std::string(node.text.substr(0, colon)) + ": " + base::shortened(node.text.substr(colon + 1), 40) + "`");
      lostId = node.text.substr(colon + 1);
    } else {
      report("kind-unknown"_rule, node.begin, std::max(node.end, node.begin + 1),
             node.isScalar() ? "`" + shown + "` is no record" : "no record begins here",
             "a record begins with its kind and its id, as `- shape: jessamount`");
    }
    return false;
  }
  const Node& kindKey = *node.first;
  const Node& idNode = *kindKey.next;
  const bool guideKey = kindKey.isScalar() && kindKey.text == "guide";
  std::optional<Kind> kind = kindKey.isScalar() ? records::kindNamed(kindKey.text) : std::nullopt;
  if (guideKey && inGuideFile) kind = Kind::guide;
  if (!kind || (inGuideFile && kind != Kind::guide)) {
    std::string hint;
    std::string message = "`" + base::shortened(kindKey.text, 40) + "` is no kind of record";
    if (guideKey) {
      message = "the guide's own mapping stands in `guide.yaml` only";
      hint = "move it to `guide.yaml` in the guide's folder";
    } else if (inGuideFile) {
      message = "`guide.yaml` begins with `guide:` and the guide's title";
      hint = "write `guide: The title` first; records go into other files";
    } else {
      std::vector<std::string_view> names;
      for (const auto& one : records::kKindNames) names.push_back(one.one);
      const auto near = base::nearest(kindKey.text, names);
      if (near && *near != "guide") {
        hint = "did you mean `" + std::string(*near) + "`?";
      } else if (records::fieldNamed(kindKey.text)) {
        hint = "a record's first line is its kind and its id, as `- shape: jessamount`; the other fields follow";
      } else {
        hint = "a kind is " + allKinds();
      }
    }
    report("kind-unknown"_rule, kindKey.begin, kindKey.end, message, hint);
    if (idNode.isScalar()) lostId = idNode.text;
    return false;
  }
  record.kind = *kind;
  record.file = file_;
  record.place = {node.begin, node.end};
  record.idPlace = {idNode.begin, idNode.end};
  if (idNode.isScalar()) record.id = idNode.text;
  if (*kind != Kind::guide && !isId(record.id)) {
    const std::string near = asId(record.id);
    fieldName_ = records::name(*kind);
    if (record.id.empty()) {
      unfit(idNode, "this " + std::string(records::name(*kind)) + " has no id",
            "write a short name of small letters, figures and hyphens, as `" + std::string(records::name(*kind)) + ": blue-rim`");
    } else {
      unfit(idNode, "`" + base::shortened(record.id, 60) + "` cannot be an id: ids are small letters, figures and hyphens",
            near.empty() ? "choose a short name, as `blue-rim`" : "write `" + std::string(records::name(*kind)) + ": " + near +
                                                                     "`, and the words for print under `name:`");
    }
    lostId = record.id;
    return false;
  }
  recordName_ = record.reference();
  std::vector<Entry> entries;
  entries.reserve(node.count / 2);
  bool first = true;
  forEachPair(node, [&](const Node& key, const Node& child) {
    if (first) {
      first = false;
      return;
    }
    fieldName_ = key.text;
    if (!key.isScalar()) {
      unfit(key, "a field's name must be a word", "write `word: value`");
      return;
    }
    if (!keyOnce(node, key)) return;
    if (key.text == "cite" && *kind != Kind::guide) {
      if (child.type == NodeType::empty) {
        unfit(child, "`cite` has no value", "type the source's id, or take the line out");
        return;
      }
      auto* evidence = arena_.make<Evidence>();
      evidence->cite = arena_.copy(readCitations(child));
      evidence->place = {key.begin, child.end};
      record.evidence = evidence;
      return;
    }
    Entry entry;
    entry.key = key.text;
    entry.keyPlace = {key.begin, key.end};
    if (key.text.starts_with("my-")) {
      entry.value = child.type == NodeType::empty ? start(child, records::ValueType::none) : readTree(child);
      entries.push_back(entry);
      return;
    }
    const auto field = records::fieldNamed(key.text);
    const FieldSpec* spec = field ? records::specOf(*kind, *field) : nullptr;
    if (spec == nullptr) {
      report("field-unknown"_rule, key.begin, key.end,
             "a " + std::string(records::name(*kind)) + " has no field `" + base::shortened(key.text, 40) + "`", fieldHint(*kind, key.text));
      return;
    }
    entry.field = *field;
    entry.known = true;
    entry.value = readValue(child, *spec);
    entries.push_back(entry);
  });
  record.fields = arena_.copy(entries);
  return true;
}

}  // namespace saggar::reading
