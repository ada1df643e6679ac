#include <algorithm>

#include "base/edit_distance.h"
#include "base/text.h"
#include "reading/typed.h"

// What may stand beside a value: citations, the author's judgement, doubts, what others say.
namespace saggar::reading {

using records::Alternative;
using records::Citation;
using records::Evidence;
using records::FieldSpec;
using records::Kind;

bool TypedReader::isEvidenceKey(std::string_view key) {
  return key == "cite" || key == "judged" || key == "doubted" || key == "but" || key == "note" ||
         key == "complete";
}

const Evidence* TypedReader::readEvidence(const Node& mapping, const FieldSpec& spec,
                                          std::span<const FieldSpec> own) {
  auto* evidence = arena_.make<Evidence>();
  evidence->place = {mapping.begin, mapping.end};
  Evidence::Rest rest;
  bool any = false;
  forEachPair(mapping, [&](const Node& key, const Node& child) {
    for (const FieldSpec& field : own)
      if (field.field.name() == key.text) return;  // a field of the structure, not evidence
    if (key.text == "is") return;
    if (isEvidenceKey(key.text)) {
      any |= key.text != "cite";
      return readEvidenceKey(key, child, spec, *evidence, rest);
    }
    if (!own.empty()) return;  // reported by the structure
    std::vector<std::string_view> names;
    for (const FieldSpec& field : records::evidenceFields()) names.push_back(field.field.name());
    const auto near = base::nearest(key.text, names);
    report(
        "field-unknown"_rule, key.begin, key.end,
        "`" + base::shortened(key.text, 40) + "` cannot stand beside a value",
        near ? "did you mean `" + std::string(*near) + "`?"
             : "beside `is` may stand `cite`, `judged`, `doubted`, `but`, `note` and, on a list, `complete`");
  });
  if (any) evidence->rest = arena_.make<Evidence::Rest>(rest);
  return evidence;
}

void TypedReader::readEvidenceKey(const Node& key, const Node& child, const FieldSpec& spec,
                                  Evidence& evidence, Evidence::Rest& rest) {
  const std::string name(key.text);
  if (child.told) return;
  if (child.type == NodeType::empty) {
    unfit(child, "`" + name + "` has no value", "type the value, or take the line out");
    return;
  }
  if (name == "cite") {
    evidence.cite = readCitations(child);
    return;
  }
  if (name == "but") {
    std::vector<Alternative> all;
    if (child.type == NodeType::sequence) {
      for (const Node* one = child.first; one != nullptr; one = one->next)
        all.push_back(readAlternative(*one, spec));
    } else {
      all.push_back(readAlternative(child, spec));
    }
    rest.but = kept(std::span<const Alternative>(all));
    return;
  }
  const std::string_view outer = fieldName_;
  fieldName_ = key.text;
  if (!child.isScalar()) {
    static constexpr FieldSpec kWords{.field = "note"_f, .type = records::FieldType::prose};
    if (child.type == NodeType::mapping) {
      plainWanted(child, kWords);
    } else {
      unfit(child, "`" + name + "` takes plain words", "write `" + name + ": the reason`");
    }
  } else if (base::trimmed(child.text).empty()) {
    unfit(child, "`" + name + "` is empty", "type the words, or take the line out");
  } else if (name == "judged") {
    rest.judged = child.text;
  } else if (name == "doubted") {
    rest.doubted = child.text;
  } else if (name == "note") {
    rest.note = arena_.make<records::Value>(start(child, records::ValueType::prose));
  } else if (child.text == "yes" || child.text == "no") {
    rest.complete = child.text == "yes";
  } else {
    unfit(child, "`complete` takes `yes` or `no`", "write `complete: yes` if the list leaves nothing out");
  }
  fieldName_ = outer;
}

Alternative TypedReader::readAlternative(const Node& node, const FieldSpec& spec) {
  Alternative alternative;
  alternative.place = {node.begin, node.end};
  if (node.type != NodeType::mapping) {
    alternative.is = unfit(node, "`but` takes what another source says, with its citation",
                           "write `but: [{is: 1933, cite: dunnavick-1974}]`");
    return alternative;
  }
  bool hasIs = false;
  keysOnce(node);
  forEachPair(node, [&](const Node& key, const Node& child) {
    if (key.text == "is") {
      hasIs = true;
      alternative.is = readBare(child, spec, true);
    } else if (key.text == "cite" && child.type == NodeType::empty) {
      unfit(child, "`cite` has no value", "type the source's id, or take the line out");
    } else if (key.text == "cite") {
      alternative.cite = readCitations(child);
    } else if (key.text == "set-aside" && child.isScalar() && !base::trimmed(child.text).empty()) {
      alternative.setAside = child.text;
    } else if (key.text == "set-aside") {
      unfit(child, "`set-aside` takes the reason, in plain words",
            "write `set-aside: why the other source is not believed`");
    } else {
      report("field-unknown"_rule, key.begin, key.end,
             "`" + base::shortened(key.text, 40) + "` is no part of `but`",
             "it takes `is`, `cite` and `set-aside: reason`");
    }
  });
  if (!hasIs) alternative.is = unfit(node, "`but` does not say what the other source says", "add `is: …`");
  return alternative;
}

std::span<Citation> TypedReader::readCitations(const Node& node) {
  Gathered<Citation> citations(citations_);
  if (node.type == NodeType::sequence) {
    const bool inBrackets = node.style == NodeStyle::flow;
    for (const Node* one = node.first; one != nullptr; one = one->next)
      readCitation(*one, inBrackets, citations);
  } else {
    readCitation(node, false, citations);
  }
  return kept(citations.all());
}

bool TypedReader::citationId(const Node& node, Citation& citation) {
  const std::string_view text = base::trimmed(node.text);
  if (node.told) return false;
  citation.idPlace = {node.begin, node.end};
  const std::size_t colon = text.find(':');
  if (colon != std::string_view::npos) {
    const auto kind = records::kindNamed(text.substr(0, colon));
    const std::string_view rest = text.substr(colon + 1);
    if (kind && (*kind == Kind::source || *kind == Kind::specimen || *kind == Kind::photo) && isId(rest)) {
      citation.kind = *kind;
      citation.id = rest;
      return true;
    }
    if (kind) {
      unfit(node, "a " + std::string(records::name(*kind)) + " cannot be cited",
            "cite a source, a specimen or a photo");
      return false;
    }
    unfit(node, "`" + base::shortened(text, 60) + "` is no citation",
          "leave a blank after the colon: `" + std::string(text.substr(0, colon)) + ": " +
              base::shortened(rest, 60) + "`");
    return false;
  }
  if (!isId(text)) {
    unfit(node, "`" + base::shortened(text, 60) + "` is no source: a citation begins with a source's id",
          "write `source-id`, or `source-id: where in it`");
    return false;
  }
  citation.id = text;
  return true;
}

void TypedReader::readCitation(const Node& node, bool inBrackets, Gathered<Citation>& out) {
  if (node.told) return;
  if (node.isScalar()) {
    Citation citation;
    citation.place = {node.begin, node.end};
    const std::string_view text = base::trimmed(node.text);
    // `[decoration-books: vol. 3, May 1932]`: inside brackets the comma ended the citation.
    if (inBrackets && !out.all().empty() && !isId(text) && text.find(':') == std::string_view::npos) {
      const Citation& last = out.all().back();
      const std::string whole = std::string(last.id) + ": " + std::string(last.at) +
                                (last.at.empty() ? "" : ", ") + base::shortened(text, 60);
      unfit(node,
            "inside brackets a comma ends the citation, and `" + base::shortened(text, 40) + "` is left over",
            "put it in quotes, `[\"" + whole + "\"]`, or on a line of its own: `- " + whole + "`");
      return;
    }
    // A quoted citation with its locator: "decoration-books: vol. 3, May 1932".
    const std::size_t colon = text.find(": ");
    if (node.quoted() && colon != std::string_view::npos) {
      Node id = node;
      id.text = text.substr(0, colon);
      id.begin = node.begin + 1;
      id.end = std::min(node.end, id.begin + static_cast<std::uint32_t>(colon));
      if (!citationId(id, citation)) return;
      citation.at = base::trimmed(text.substr(colon + 2));
      out.add(citation);
      return;
    }
    if (citationId(node, citation)) out.add(citation);
    return;
  }
  if (node.type == NodeType::empty) {
    unfit(node, "a citation is missing here", "type the source's id, or take the line out");
    return;
  }
  if (node.type == NodeType::sequence) {
    unfit(node, "a list stands inside the list of citations", "write one list");
    return;
  }
  keysOnce(node);
  bool full = false;
  forEachPair(node, [&](const Node& key, const Node&) { full |= key.text == "source"; });
  if (full) {
    readFullCitation(node, out);
  } else {
    readShortCitations(node, out);
  }
}

// `source-id: where in it`, one or (under one dash) several.
void TypedReader::readShortCitations(const Node& node, Gathered<Citation>& out) {
  const Node* part = nullptr;  // of a citation in full
  const Node* meant = nullptr;
  forEachPair(node, [&](const Node& key, const Node&) {
    static constexpr std::string_view kSource[] = {"source"};
    if (key.text == "at" || key.text == "dated" || key.text == "says") part = part != nullptr ? part : &key;
    if (base::nearest(key.text, kSource)) meant = &key;
  });
  if (part != nullptr) {
    const Node& at = meant != nullptr ? *meant : *part;
    report("value-unfit"_rule, at.begin, at.end,
           "a citation with `" + std::string(part->text) + "` needs `source`",
           meant != nullptr ? "did you mean `source` for `" + base::shortened(meant->text, 40) + "`?"
                            : "write it in full: `{source: decoration-books, at: vol. 3, dated: 1932-05}`");
    return;
  }
  forEachPair(node, [&](const Node& key, const Node& child) {
    Citation citation;
    citation.place = {key.begin, std::max(key.end, child.end)};
    if (!isWord(key) || !citationId(key, citation)) return;
    const std::string id(citation.id);
    if (child.isScalar() && !base::trimmed(child.text).empty()) {
      citation.at = base::trimmed(child.text);
    } else if (child.type == NodeType::empty || child.isScalar()) {
      unfit(child, "the place in the source is missing after the colon",
            "type it, or leave the colon out: `" + id + "`");
    } else {
      const bool colon = child.type == NodeType::mapping && child.count == 2 &&
                         typed(child).find_first_of("{\n\r") == std::string_view::npos;
      unfit(child, "the place in a source is plain words",
            colon ? "put it in quotes: `" + id + ": \"" + base::shortened(typed(child), 60) + "\"`"
                  : "write `{source: " + id + ", at: …, dated: …}`");
    }
    out.add(citation);
  });
}

void TypedReader::readFullCitation(const Node& node, Gathered<Citation>& out) {
  Citation citation;
  citation.place = {node.begin, node.end};
  bool fits = true;
  const std::string_view outer = fieldName_;
  forEachPair(node, [&](const Node& key, const Node& child) {
    static constexpr std::string_view kNames[] = {"source", "at", "dated", "says"};
    if (std::find(std::begin(kNames), std::end(kNames), key.text) == std::end(kNames)) {
      const auto near = base::nearest(key.text, kNames);
      report("field-unknown"_rule, key.begin, key.end,
             "`" + base::shortened(key.text, 40) + "` is no part of a citation",
             near ? "did you mean `" + std::string(*near) + "`?"
                  : "it takes `source`, `at`, `dated` and `says`");
      return;
    }
    if (!child.isScalar() || base::trimmed(child.text).empty()) {
      unfit(child, "`" + std::string(key.text) + "` of a citation takes plain words",
            "write `" + std::string(key.text) + ": …`");
      fits &= key.text != "source";
      return;
    }
    if (key.text == "source") {
      fits &= citationId(child, citation);
    } else if (key.text == "at") {
      citation.at = base::trimmed(child.text);
    } else if (key.text == "dated") {
      fieldName_ = "dated";
      citation.dated = readMoment(child).date();
      fieldName_ = outer;
    } else if (child.text == "direct") {
      citation.says = records::Says::direct;
    } else if (child.text == "indirect") {
      citation.says = records::Says::indirect;
    } else if (child.text == "not-found") {
      citation.says = records::Says::notFound;
    } else {
      static constexpr std::string_view kSays[] = {"direct", "indirect", "not-found"};
      const auto near = base::nearest(child.text, kSays);
      unfit(child, "`" + base::shortened(child.text, 40) + "` is no value of `says`",
            near ? "did you mean `" + std::string(*near) + "`?"
                 : "it takes `direct`, `indirect` or `not-found`");
    }
  });
  if (fits && !citation.id.empty()) out.add(citation);
}

}  // namespace saggar::reading
