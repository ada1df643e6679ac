#include <algorithm>

#include "base/edit_distance.h"
#include "base/text.h"
#include "choosing/reach.h"
#include "choosing/say.h"

// From dotted words to steps, each looked up in the table of what stands before it.
namespace saggar::choosing {

using records::Field;
using records::FieldSpec;
using records::FieldType;
using records::KindSet;

namespace {

constexpr std::size_t kMostSteps = 16;

std::vector<Kind> members(KindSet kinds) {
  std::vector<Kind> all;
  for (std::size_t i = 0; i < records::kKindCount; ++i)
    if (kinds.has(static_cast<Kind>(i))) all.push_back(static_cast<Kind>(i));
  return all;
}

}  // namespace

class PathCompiler {
 public:
  PathCompiler(std::string_view text, const Scope& from, const Collection& collection, PathProblem& problem,
               bool allowPrivate)
      : text_(text), collection_(collection), problem_(problem), allowPrivate_(allowPrivate) {
    path_.scope_ = from;
  }

  Path run() {
    if (text_.empty()) {
      fail(0, 0, "a path is missing here", "write a field, as `shape` or `motif.supplier`");
      return {};
    }
    while (at_ < text_.size()) {
      const std::size_t dot =
          path_.scope_.type == Scope::Type::headings ? std::string_view::npos : text_.find('.', at_);
      const std::string_view word = text_.substr(at_, dot == std::string_view::npos ? dot : dot - at_);
      const bool lastDot = dot != std::string_view::npos && dot + 1 == text_.size();
      if (word.empty() || lastDot) {
        fail(at_, std::max<std::size_t>(word.size(), 1), "a step of the path is missing beside a dot",
             "write it as `motif.supplier`");
        return {};
      }
      if (path_.steps_.size() >= kMostSteps) {
        fail(at_, text_.size() - at_, "this path has more than 16 steps", "choose by something nearer");
        return {};
      }
      if (!step(word)) return {};
      at_ = dot == std::string_view::npos ? text_.size() : dot + 1;
    }
    const Scope& end = path_.scope_;
    if (end.type == Scope::Type::structure && !end.inner.empty() && endsInStructure_)
      path_.end_ = end.inner[0];
    path_.text_ = std::string(text_);
    return std::move(path_);
  }

 private:
  bool fail(std::size_t at, std::size_t length, std::string message, std::string hint) {
    problem_ = {at, length, std::move(message), std::move(hint)};
    return false;
  }
  bool fail(std::string_view word, std::string message, std::string hint) {
    return fail(at_, word.size(), std::move(message), std::move(hint));
  }

  bool step(std::string_view word) {
    path_.feature_ = records::kNoRecord;
    path_.endsInMadeIn_ = false;
    endsInStructure_ = false;
    path_.before_ = path_.scope_;
    switch (path_.scope_.type) {
      case Scope::Type::record: return recordStep(word);
      case Scope::Type::structure: return structureStep(word);
      case Scope::Type::keys: return keyStep(word);
      case Scope::Type::look: return featureStep(word);
      case Scope::Type::headings: return headingStep(word);
      case Scope::Type::span: return spanStep(word);
      case Scope::Type::leaf:
        return fail(
            word,
            inTicks(path_.scope_.called) + " leads no further, so " + inTicks(word) + " cannot follow it",
            "end the path at " + inTicks(path_.scope_.called));
    }
    return false;
  }

  void push(Step step) { path_.steps_.push_back(std::move(step)); }

  // Goes into a field: what its type leads to.
  void enter(const FieldSpec& spec) {
    push({.type = Step::Type::field, .field = spec.field, .key = {}});
    path_.end_ = spec;
    Scope next;
    next.called = spec.field.name();
    switch (spec.type) {
      case FieldType::reference:
        next.type = Scope::Type::record;
        next.kinds = spec.kinds;
        break;
      case FieldType::madeIn:
        next.type = Scope::Type::record;
        next.kinds = KindSet(Kind::shape);
        break;
      case FieldType::structure:
        next.type = Scope::Type::structure;
        next.inner = spec.inner;
        endsInStructure_ = true;
        break;
      case FieldType::structureMap:
        next.type = Scope::Type::keys;
        next.inner = spec.inner;
        break;
      case FieldType::look: next.type = Scope::Type::look; break;
      case FieldType::headings: next.type = Scope::Type::headings; break;
      case FieldType::span: next.type = Scope::Type::span; break;
      default: next.type = Scope::Type::leaf;
    }
    path_.scope_ = next;
  }

  bool recordStep(std::string_view word) {
    const KindSet kinds = path_.scope_.kinds;
    if (word == "id") {
      push({.type = Step::Type::itself, .key = {}});
      path_.end_ = referenceSpec(Kind::guide);
      path_.end_.kinds = kinds;
      path_.scope_ = {.type = Scope::Type::leaf, .called = "id"};
      return true;
    }
    if (word.starts_with("my-") && word.size() > 3) {
      if (!allowPrivate_) return isPrivate(word);
      push({.type = Step::Type::heading, .key = std::string(word)});
      path_.end_ = headingSpec();
      path_.scope_ = {.type = Scope::Type::leaf, .called = headingSpec().field.name()};
      return true;
    }
    const auto field = records::fieldNamed(word);
    if (field) {
      const FieldSpec* found = nullptr;
      FieldSpec merged;
      for (Kind kind : members(kinds)) {
        const FieldSpec* spec = records::specOf(kind, *field);
        if (spec == nullptr && kind == Kind::specimen && throughTreatment(*field))
          spec = records::specOf(Kind::treatment, *field);
        if (spec == nullptr) continue;
        if (spec->has(records::kPrivate) && !allowPrivate_) return isPrivate(word);
        if (found == nullptr) {
          found = spec;
          merged = *spec;
        } else if (found->type == FieldType::reference && spec->type == FieldType::reference) {
          if (members(merged.kinds) != members(spec->kinds)) merged.kinds = KindSet::any();
        }
        path_.endsInMadeIn_ |=
            (kind == Kind::form && *field == "made-in"_f) || (kind == Kind::shape && *field == "forms"_f);
      }
      if (found != nullptr) {
        enter(merged);
        return true;
      }
    }
    if (const auto to = records::kindNamed(word)) {
      // The pieces of a shape and the shapes of a piece are one relation.
      if (kinds.single() && kinds.only() == Kind::shape && *to == Kind::form) return recordStep("forms");
      if (kinds.single() && kinds.only() == Kind::form && *to == Kind::shape) return recordStep("made-in");
      bool ever = false;
      for (Kind kind : members(kinds)) ever |= canRefer(*to, kind);
      if (ever) {
        push({.type = Step::Type::backwards, .kind = *to, .key = {}});
        path_.backwards_ = true;
        path_.end_ = referenceSpec(*to);
        path_.scope_ = {.type = Scope::Type::record, .kinds = KindSet(*to), .called = records::name(*to)};
        return true;
      }
    }
    return fail(word, kindsInWords() + " has no field " + inTicks(word), hintForField(word));
  }

  bool isPrivate(std::string_view word) {
    return fail(word, inTicks(word) + " is private: nothing that is published can choose by it or show it",
                "choose another field");
  }

  std::string kindsInWords() const {
    const auto kinds = members(path_.scope_.kinds);
    if (kinds.size() != 1) return kinds.size() > 4 ? "no kind of record" : "none of these kinds";
    return "a " + std::string(records::name(kinds[0]));
  }

  // Where else the word stands: at the end of a reference, among the features; else the nearest field or kind.
  std::string hintForField(std::string_view word) const {
    const std::string before(text_.substr(0, at_));
    auto meant = [&](std::string_view path) { return "did you mean `" + before + std::string(path) + "`?"; };
    const auto kinds = members(path_.scope_.kinds);
    std::vector<std::string_view> words;
    for (Kind kind : kinds) {
      for (const FieldSpec* spec : records::fieldsOf(kind)) {
        if (spec->has(records::kPrivate) && !allowPrivate_) continue;
        words.push_back(spec->field.name());
        if (spec->type == FieldType::look && collection_.find(Kind::feature, word))
          return meant("look." + std::string(word));
        if (spec->type != FieldType::reference || !spec->kinds.single()) continue;
        if (spec->field == "continues"_f || spec->field == "in"_f) continue;
        const auto field = records::fieldNamed(word);
        if (field && records::specOf(spec->kinds.only(), *field) != nullptr && !isCommon(*field))
          return meant(std::string(spec->field.name()) + "." + std::string(word));
      }
      for (std::size_t i = 0; i + 1 < records::kKindCount; ++i)
        if (canRefer(static_cast<Kind>(i), kind)) words.push_back(records::kKindNames[i].one);
    }
    words.push_back("id");
    if (const auto near = base::nearest(word, words)) return meant(*near);
    const std::string kind(records::name(kinds.empty() ? Kind::shape : kinds[0]));
    return "`saggar blank " + kind + "` prints what a " + kind + " can hold";
  }

  static bool isCommon(Field field) {
    return std::any_of(records::commonFields().begin(), records::commonFields().end(),
                       [&](const FieldSpec& one) { return one.field == field; });
  }

  const FieldSpec* innerField(std::string_view word) const {
    for (const FieldSpec& spec : path_.scope_.inner)
      if (spec.field.name() == word) return &spec;
    return nullptr;
  }

  bool structureStep(std::string_view word) {
    if (const FieldSpec* spec = innerField(word)) {
      enter(*spec);
      return true;
    }
    std::vector<std::string_view> words;
    for (const FieldSpec& spec : path_.scope_.inner) words.push_back(spec.field.name());
    std::vector<std::string> shown;
    for (std::string_view one : words) shown.push_back(inTicks(one));
    const auto near = base::nearest(word, words);
    // `marks.maker`: on from the record that the mapping names first.
    const FieldSpec& first = path_.scope_.inner[0];
    if (!near && first.type == FieldType::reference) {
      enter(first);
      return recordStep(word);
    }
    return fail(word, inTicks(word) + " is no part of " + inTicks(path_.scope_.called),
                near ? "did you mean `" + std::string(text_.substr(0, at_)) + std::string(*near) + "`?"
                     : "its parts are " + base::listedInWords(shown));
  }

  // In a mapping with free keys: a part of each of its members, or one of the keys.
  bool keyStep(std::string_view word) {
    if (innerField(word) != nullptr) return structureStep(word);
    push({.type = Step::Type::heading, .key = std::string(word)});
    path_.end_ = path_.scope_.inner[0];
    path_.scope_.type = Scope::Type::structure;
    endsInStructure_ = true;
    return true;
  }

  bool featureStep(std::string_view word) {
    const auto feature = collection_.find(Kind::feature, word);
    if (!feature && !collection_.read().lostFiles && !collection_.read().lostIds.contains(word)) {
      std::vector<std::string_view> ids;
      for (RecordIndex one : collection_.ofKind(Kind::feature)) ids.push_back(collection_[one].id);
      const auto near = base::nearest(word, ids);
      return fail(word, "there is no feature " + inTicks(word),
                  near ? "did you mean `" + std::string(text_.substr(0, at_)) + std::string(*near) + "`?"
                       : "add the record `- feature: " + std::string(word) + "`, or mend the id");
    }
    push({.type = Step::Type::feature, .key = std::string(word)});
    path_.end_ = featureValueSpec();
    path_.feature_ = feature.value_or(records::kNoRecord);
    path_.scope_ = {.type = Scope::Type::leaf,
                    .called = feature ? collection_[*feature].id : std::string_view("look")};
    return true;
  }

  bool headingStep(std::string_view word) {
    push({.type = Step::Type::heading, .key = std::string(word)});
    path_.end_ = headingSpec();
    path_.scope_ = {.type = Scope::Type::leaf, .called = "more"};
    return true;
  }

  // One end of a span: a day, as a moment is.
  bool spanStep(std::string_view word) {
    if (word != "from" && word != "until") {
      static constexpr std::string_view kEnds[] = {"from", "until"};
      const bool meansUntil = word == "to" || word == "end" || word == "till";
      const auto near = meansUntil ? std::optional<std::string_view>(kEnds[1]) : base::nearest(word, kEnds);
      return fail(
          word, inTicks(path_.scope_.called) + " lasted: it has `from` and `until`, and no " + inTicks(word),
          near ? "did you mean `" + std::string(text_.substr(0, at_)) + std::string(*near) + "`?"
               : "write `" + std::string(text_.substr(0, at_)) + "from` for the day it began");
    }
    push({.type = Step::Type::spanEnd, .key = std::string(word)});
    path_.end_.type = FieldType::moment;
    path_.scope_ = {.type = Scope::Type::leaf, .called = word == "from" ? "from" : "until"};
    return true;
  }

  std::string_view text_;
  const Collection& collection_;
  PathProblem& problem_;
  bool allowPrivate_;
  std::size_t at_ = 0;
  bool endsInStructure_ = false;
  Path path_;
};

Path Path::compile(std::string_view text, Kind from, const Collection& collection, PathProblem& problem,
                   bool allowPrivate) {
  return compile(text,
                 Scope{.type = Scope::Type::record, .kinds = KindSet(from), .called = records::name(from)},
                 collection, problem, allowPrivate);
}

Path Path::compile(std::string_view text, const Scope& from, const Collection& collection,
                   PathProblem& problem, bool allowPrivate) {
  return PathCompiler(text, from, collection, problem, allowPrivate).run();
}

}  // namespace saggar::choosing
