#include "reading/layout_xml.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <pugixml.hpp>
#include <set>
#include <span>
#include <utility>

#include "base/edit_distance.h"
#include "base/text.h"
#include "base/utf8.h"
#include "layout/built_in.h"

// Problem: an author who writes `leeding="12"` must hear of it at that place, and a layout with one slip must
// not stop the guide. Choice: every element asks for the attributes it knows by name and type through one
// small helper, which remembers what was asked for, so that unknown names, their suggestions and the places
// of bad values all come from the calls that read the good ones. Cost: pugixml gives no place for attributes,
// so they are found again in the text. Longer than most files, because each element is a short function that
// needs the one helper, and nobody else does.
namespace saggar::reading {
namespace {

using layout::Breaking;
using layout::builtInLayout;
using layout::builtInLayoutNames;
using layout::Caps;
using layout::DraftMark;
using layout::Face;
using layout::Fallback;
using layout::Ink;
using layout::NoticeRules;
using layout::NoticeSpec;
using layout::PageLayout;
using layout::paperNamed;
using layout::paperNames;
using layout::placeNamed;
using layout::placeNames;
using layout::Role;
using layout::roleNamed;
using layout::roleNames;
using layout::RuleLine;
using layout::RunningLine;
using layout::Setting;
using layout::Style;
using layout::TableSpec;
using layout::Tick;
using layout::whatIsUnfit;

constexpr std::size_t kMostBytes = 1 << 20;
constexpr int kMostLike = 4;
constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

std::optional<double> readNumber(std::string_view text) {
  text = base::trimmed(text);
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !(value > -1e6 && value < 1e6))
    return std::nullopt;
  return value;
}

std::optional<double> readPercent(std::string_view text) {
  text = base::trimmed(text);
  if (!text.ends_with('%')) return std::nullopt;
  const auto value = readNumber(text.substr(0, text.size() - 1));
  return value ? std::optional(*value / 100) : std::nullopt;
}

template <class Value>
struct Word {
  std::string_view name;
  Value value;
};
constexpr Word<bool> kYesNo[] = {{"yes", true}, {"no", false}};
constexpr Word<bool> kWeights[] = {{"regular", false}, {"bold", true}};
constexpr Word<bool> kSlopes[] = {{"upright", false}, {"italic", true}};
constexpr Word<bool> kOrientations[] = {{"portrait", false}, {"landscape", true}};
constexpr Word<Caps> kCaps[] = {
    {"typed", Caps::asTyped}, {"small", Caps::small}, {"small-only", Caps::smallOnly}};
constexpr Word<Setting> kSettings[] = {{"left", Setting::left},
                                       {"right", Setting::right},
                                       {"centre", Setting::centre},
                                       {"justify", Setting::justify}};
constexpr Word<NoticeRules> kNoticeRules[] = {{"none", NoticeRules::none},
                                              {"beside", NoticeRules::beside},
                                              {"above-below", NoticeRules::aboveBelow},
                                              {"around", NoticeRules::around}};

// Where an element stands in the text, and where in it an attribute.
class Places {
 public:
  Places(source::FileId file, std::string_view text, std::size_t shift)
      : file_(file), text_(text), shift_(shift) {}

  source::Span span(std::size_t begin, std::size_t length) const {
    begin = std::min(begin, text_.size());
    length = std::min(length, text_.size() - begin);
    return {file_, static_cast<std::uint32_t>(begin + shift_),
            static_cast<std::uint32_t>(begin + length + shift_)};
  }
  source::Span element(pugi::xml_node node) const {
    const auto at = node.offset_debug();
    return at < 0 ? span(0, 0) : span(static_cast<std::size_t>(at), std::string_view(node.name()).size());
  }
  source::Span attribute(pugi::xml_node node, std::string_view name) const {
    const auto start = node.offset_debug();
    if (start < 0) return span(0, 0);
    char quote = 0;
    for (std::size_t at = static_cast<std::size_t>(start); at < text_.size(); ++at) {
      const char c = text_[at];
      if (quote != 0) {
        if (c == quote) quote = 0;
      } else if (c == '"' || c == '\'') {
        quote = c;
      } else if (c == '>') {
        break;
      } else if (base::isBlank(c) && text_.substr(at + 1).starts_with(name)) {
        std::size_t after = at + 1 + name.size();
        while (after < text_.size() && base::isBlank(text_[after])) ++after;
        if (after < text_.size() && text_[after] == '=') return span(at + 1, name.size());
      }
    }
    return element(node);
  }

 private:
  source::FileId file_;
  std::string_view text_;
  std::size_t shift_;
};

std::string suggestion(std::string_view word, std::span<const std::string_view> known,
                       std::string_view what) {
  if (const auto near = base::nearest(word, known)) return fmt::format("did you mean \"{}\"?", *near);
  std::vector<std::string> names(known.begin(), known.end());
  std::sort(names.begin(), names.end());
  return fmt::format("{} are {}", what, base::listedInWords(names));
}

class Element {
 public:
  Element(pugi::xml_node node, const Places& places, std::vector<LayoutProblem>& problems)
      : node_(node), places_(places), problems_(problems) {}

  pugi::xml_node node() const { return node_; }
  std::string_view name() const { return node_.name(); }

  void say(std::string_view attribute, std::string message, std::string hint = {}) const {
    problems_.push_back({attribute.empty() ? places_.element(node_) : places_.attribute(node_, attribute),
                         std::move(message), std::move(hint)});
  }
  bool has(const char* attribute) const { return !node_.attribute(attribute).empty(); }

  std::string_view text(const char* attribute) {
    asked_.push_back(attribute);
    return node_.attribute(attribute).value();
  }
  void text(const char* attribute, std::string& into) {
    const std::string_view value = text(attribute);
    if (has(attribute)) into = value;
  }
  void length(const char* attribute, double& into) {
    read(attribute, into, readLength, "a length",
         "give a number with its unit, such as 12mm, 10.5pt or 0.5in");
  }
  void number(const char* attribute, double& into) {
    read(attribute, into, readNumber, "a number", "give a number such as 2 or 1.5");
  }
  void share(const char* attribute, double& into) {
    read(attribute, into, readPercent, "a percentage", "give a percentage such as 92%");
  }
  void ink(const char* attribute, Ink& into) {
    read(attribute, into, readInk, "an ink",
         "give a share of black such as 60%, or a colour such as #2a4a52");
  }
  void count(const char* attribute, int& into, int least, int most) {
    read(
        attribute, into,
        [&](std::string_view typed) -> std::optional<int> {
          const auto value = readNumber(typed);
          if (!value || *value < least || *value > most || *value != static_cast<int>(*value))
            return std::nullopt;
          return static_cast<int>(*value);
        },
        "a count that fits", fmt::format("give a whole number from {} to {}", least, most));
  }
  template <class Value, std::size_t N>
  void word(const char* attribute, Value& into, const Word<Value> (&words)[N]) {
    const std::string_view typed = text(attribute);
    if (!has(attribute)) return;
    std::vector<std::string_view> names;
    for (const auto& one : words) {
      if (one.name == typed) {
        into = one.value;
        return;
      }
      names.push_back(one.name);
    }
    say(attribute, fmt::format("\"{}\" is no value of {}", base::shortened(typed, 40), attribute),
        suggestion(typed, names, "the values"));
  }

  // To be called when everything the element may hold has been asked for.
  void finish() const {
    std::vector<std::string_view> seen;
    for (pugi::xml_attribute one : node_.attributes()) {
      const std::string_view attribute = one.name();
      if (std::find(seen.begin(), seen.end(), attribute) != seen.end())
        say(attribute,
            fmt::format("{} is given twice in one <{}>, so one of the two has no effect", attribute, name()),
            "keep the one that is meant");
      seen.push_back(attribute);
      if (std::find(asked_.begin(), asked_.end(), attribute) == asked_.end())
        say(attribute,
            fmt::format("<{}> has no attribute \"{}\", so it has no effect", name(),
                        base::shortened(attribute, 40)),
            suggestion(attribute, asked_, "its attributes"));
    }
  }

 private:
  template <class Value, class Read>
  void read(const char* attribute, Value& into, Read&& reader, std::string_view what, std::string hint) {
    const std::string_view typed = text(attribute);
    if (!has(attribute)) return;
    if (auto value = reader(typed)) {
      into = *value;
    } else {
      say(attribute,
          fmt::format("{} of <{}> is \"{}\", which is not {}", attribute, name(), base::shortened(typed, 40),
                      what),
          std::move(hint));
    }
  }

  pugi::xml_node node_;
  const Places& places_;
  std::vector<LayoutProblem>& problems_;
  std::vector<std::string_view> asked_;
};

void readMargins(Element& at, PageLayout& layout) {
  at.length("top", layout.top);
  at.length("right", layout.right);
  at.length("bottom", layout.bottom);
  at.length("left", layout.left);
}

void readFace(Element& at, PageLayout& layout, std::set<std::string>& seen) {
  Face face;
  at.text("name", face.name);
  at.text("roman", face.roman);
  at.text("italic", face.italic);
  at.text("bold", face.bold);
  at.text("bold-italic", face.boldItalic);
  at.text("substitute", face.substitute);
  if (face.name.empty())
    return at.say("", "this face has no name, so no style can ask for it", "add name=\"text\"");
  if (face.roman.empty())
    return at.say("", fmt::format("the face \"{}\" names no font file", face.name),
                  "add the file's name, for example roman=\"GentiumBookPlus-Regular.ttf\"");
  for (Face& known : layout.faces) {
    if (known.name != face.name) continue;
    if (seen.insert(face.name).second)
      known = std::move(face);  // the like layout's
    else
      at.say("name", fmt::format("there is a face \"{}\" already", face.name),
             "give each face a name of its own");
    return;
  }
  seen.insert(face.name);
  layout.faces.push_back(std::move(face));
}

void readFallback(Element& at, PageLayout& layout) {
  Fallback fallback;
  at.text("face", fallback.face);
  at.share("scale", fallback.scale);
  at.share("raise", fallback.raise);
  layout.fallbacks.push_back(std::move(fallback));
}

void readStyle(Element& at, PageLayout& layout) {
  const std::string_view typed = at.text("role");
  const auto role = roleNamed(typed);
  if (!role) {
    const auto names = roleNames();
    at.say(at.has("role") ? "role" : "",
           typed.empty() ? "this style says no role, so nothing is set in it"
                         : fmt::format("there is no role \"{}\"", base::shortened(typed, 40)),
           suggestion(typed, names, "the roles"));
  }
  Style nothing;
  Style& style = role ? layout.style(*role) : nothing;
  const bool sized = at.has("size"), led = at.has("leading");
  at.text("face", style.face);
  at.length("size", style.size);
  at.length("leading", style.leading);
  if (sized && !led) style.leading = style.size * 1.3;
  at.word("weight", style.bold, kWeights);
  at.word("slope", style.italic, kSlopes);
  at.word("caps", style.caps, kCaps);
  at.number("tracking", style.tracking);
  at.word("align", style.align, kSettings);
  at.word("hyphenate", style.hyphenate, kYesNo);
  at.length("measure", style.measure);
  at.length("indent", style.indent);
  at.length("before", style.before);
  at.length("after", style.after);
  at.ink("ink", style.ink);
}

void readRunningLine(Element& at, RunningLine& line) {
  at.length("gap", line.gap);
  at.word("first-page", line.onFirstPage, kYesNo);
  at.text("left", line.left);
  at.text("centre", line.centre);
  at.text("right", line.right);
  static constexpr std::string_view kFields[] = {"title", "edition", "authors", "page",
                                                 "pages", "group",   "section"};
  for (const auto& [attribute, words] :
       {std::pair{"left", line.left}, {"centre", line.centre}, {"right", line.right}}) {
    for (std::size_t open = words.find('{'); open != std::string::npos; open = words.find('{', open + 1)) {
      const std::size_t close = words.find('}', open);
      const std::string field = words.substr(open + 1, close == std::string::npos ? close : close - open - 1);
      if (close == std::string::npos ||
          std::find(std::begin(kFields), std::end(kFields), field) == std::end(kFields))
        at.say(attribute,
               fmt::format("{{{}}} stands for nothing here and would be printed as it is",
                           base::shortened(field, 30)),
               suggestion(field, kFields, "the fields"));
    }
  }
}

void readTable(Element& at, TableSpec& table) {
  at.length("gutter", table.gutter);
  at.length("row-above", table.rowAbove);
  at.length("row-below", table.rowBelow);
  at.length("group-above", table.groupAbove);
  at.length("before", table.before);
  at.length("after", table.after);
  at.length("write-in", table.writeIn);
  at.text("continued", table.continued);
}

void readTick(Element& at, Tick& tick) {
  at.text("sign", tick.sign);
  at.length("size", tick.size);
  at.length("raise", tick.raise);
  if (tick.sign.empty()) {
    at.say("sign", "the tick box has no sign, so there would be nothing to tick", "use ☐");
    tick.sign = Tick{}.sign;
  }
}

void readNotice(Element& at, PageLayout& layout) {
  NoticeSpec fresh;
  at.text("kind", fresh.kind);
  NoticeSpec* notice = nullptr;
  for (NoticeSpec& known : layout.notices)
    if (known.kind == fresh.kind) notice = &known;
  if (!notice) notice = &layout.notices.emplace_back(std::move(fresh));
  at.length("inset", notice->inset);
  at.length("before", notice->before);
  at.length("after", notice->after);
  at.word("rules", notice->rules, kNoticeRules);
}

void readRule(Element& at, PageLayout& layout) {
  const std::string_view typed = at.text("place");
  const auto place = placeNamed(typed);
  RuleLine nothing;
  RuleLine& rule = place ? layout.rule(*place) : nothing;
  at.length("weight", rule.weight);
  at.ink("ink", rule.ink);
  if (!place) {
    const auto names = placeNames();
    at.say(at.has("place") ? "place" : "",
           fmt::format("there is no place \"{}\" for a rule", base::shortened(typed, 40)),
           suggestion(typed, names, "the places"));
  }
}

void readDraft(Element& at, DraftMark& draft) {
  at.text("words", draft.words);
  at.number("angle", draft.angle);
  at.ink("ink", draft.ink);
  if (base::trimmed(draft.words).empty()) {
    at.say("words", "the draft mark has no words, so a draft would look finished", "use words=\"Draft\"");
    draft.words = DraftMark{}.words;
  }
}

void readBreaking(Element& at, Breaking& breaking) {
  at.number("tolerance", breaking.tolerance);
  at.number("hyphen-penalty", breaking.hyphenPenalty);
  at.count("hyphen-left", breaking.hyphenLeft, 1, 20);
  at.count("hyphen-right", breaking.hyphenRight, 1, 20);
  at.count("widows", breaking.widows, 1, 5);
  at.count("orphans", breaking.orphans, 1, 5);
  at.count("group-rows", breaking.groupRows, 1, 5);
}

void readHyphenation(Element& at, PageLayout& layout) {
  const std::string_view words = at.node().child_value();
  std::size_t begin = 0;
  while (begin < words.size()) {
    while (begin < words.size() && base::isBlank(words[begin])) ++begin;
    std::size_t end = begin;
    while (end < words.size() && !base::isBlank(words[end])) ++end;
    if (end > begin) layout.hyphenation.emplace_back(words.substr(begin, end - begin));
    begin = end;
  }
}

std::pair<std::string, std::string> inWords(pugi::xml_parse_status status) {
  switch (status) {
    case pugi::status_end_element_mismatch:
      return {"an element is closed here that is not the one last opened",
              "every <name …> ends with </name> or with />"};
    case pugi::status_bad_attribute:
      return {"an attribute cannot be read here", "write name=\"value\" with straight quotes"};
    case pugi::status_bad_start_element:
      return {"an element cannot be read here",
              "write <name attribute=\"value\"/>; a < in a value is written &lt;"};
    case pugi::status_bad_comment: return {"a comment is not closed", "end it with -->"};
    case pugi::status_no_document_element:
      return {"there is no <layout> here", "begin with <layout name=\"…\" paper=\"A4\">"};
    default:
      return {"the file cannot be read as XML from here on", "look for a missing quote, / or > just before"};
  }
}

void readElement(pugi::xml_node node, const Places& places, PageLayout& layout,
                 std::set<std::string>& facesSeen, std::vector<LayoutProblem>& problems) {
  Element at(node, places, problems);
  static constexpr std::string_view kElements[] = {
      "margins", "face",   "fallback", "style",      "running-head", "running-foot", "table",
      "tick",    "notice", "rule",     "draft-mark", "breaking",     "hyphenation"};
  const std::string_view name = at.name();
  if (name == "margins")
    readMargins(at, layout);
  else if (name == "face")
    readFace(at, layout, facesSeen);
  else if (name == "fallback")
    readFallback(at, layout);
  else if (name == "style")
    readStyle(at, layout);
  else if (name == "running-head")
    readRunningLine(at, layout.head);
  else if (name == "running-foot")
    readRunningLine(at, layout.foot);
  else if (name == "table")
    readTable(at, layout.table);
  else if (name == "tick")
    readTick(at, layout.tick);
  else if (name == "notice")
    readNotice(at, layout);
  else if (name == "rule")
    readRule(at, layout);
  else if (name == "draft-mark")
    readDraft(at, layout.draft);
  else if (name == "breaking")
    readBreaking(at, layout.breaking);
  else if (name == "hyphenation")
    readHyphenation(at, layout);
  else {
    at.say("", fmt::format("a layout has no <{}>, so it has no effect", base::shortened(name, 40)),
           suggestion(name, kElements, "its elements"));
    return;
  }
  at.finish();
  for (pugi::xml_node child : node.children()) {
    if (child.type() == pugi::node_element)
      problems.push_back({places.element(child),
                          fmt::format("<{}> holds nothing inside, but here is <{}>", name,
                                      base::shortened(child.name(), 40)),
                          "put it beside, directly in <layout>"});
    else if (name != "hyphenation")
      at.say("",
             fmt::format("<{}> holds no text, but here is \"{}\"", name,
                         base::shortened(base::trimmed(child.value()), 30)),
             "say it in attributes");
  }
}

// Styles that are not written follow the body, so the body is read first, wherever it stands; what is wrong
// with it is said when it is read in its place.
void followBody(pugi::xml_node root, const Places& places, PageLayout& layout) {
  for (pugi::xml_node node : root.children("style")) {
    if (roleNamed(node.attribute("role").value()) != Role::body) continue;
    std::vector<LayoutProblem> saidLater;
    Element body(node, places, saidLater);
    readStyle(body, layout);
    const Style like = layout.style(Role::body);
    for (Style& style : layout.styles) {
      style.face = like.face;
      style.size = like.size;
      style.leading = like.leading;
      style.ink = like.ink;
    }
    return;
  }
}

LayoutRead readLayoutAt(source::FileId file, std::string_view xml, int depth);

// Where the layout says like="…", it begins as that one.
bool beginLike(Element& at, PageLayout& layout, int depth) {
  const std::string_view like = at.text("like");
  if (!at.has("like")) return false;
  const auto text = builtInLayout(like);
  const auto names = builtInLayoutNames();
  if (!text || std::find(names.begin(), names.end(), like) == names.end()) {
    at.say(
        "like",
        fmt::format("no layout is called \"{}\", so this one begins with nothing", base::shortened(like, 40)),
        suggestion(like, names, "the layouts"));
    return false;
  }
  if (depth >= kMostLike) {
    at.say("like", "these layouts are each like the other, so there is no first",
           "write one of them out in full");
    return false;
  }
  auto read = readLayoutAt(source::kNoFile, *text, depth + 1);
  if (!read.layout) return false;
  layout = std::move(*read.layout);
  return true;
}

}  // namespace

std::optional<double> readLength(std::string_view text) {
  static constexpr std::pair<std::string_view, double> kUnits[] = {
      {"pt", 1}, {"pc", 12}, {"mm", 72 / 25.4}, {"cm", 720 / 25.4}, {"in", 72}};
  text = base::trimmed(text);
  for (const auto& [unit, points] : kUnits) {
    if (!text.ends_with(unit)) continue;
    const auto value = readNumber(text.substr(0, text.size() - unit.size()));
    return value ? std::optional(*value * points) : std::nullopt;
  }
  const auto value = readNumber(text);
  return value && *value == 0 ? value : std::nullopt;  // a bare number could be anything; nothing is nothing
}

std::optional<Ink> readInk(std::string_view text) {
  text = base::trimmed(text);
  if (const auto black = readPercent(text)) {
    if (*black < 0 || *black > 1) return std::nullopt;
    const double left = 1 - *black;
    return Ink{left, left, left};
  }
  if (!text.starts_with('#') || (text.size() != 4 && text.size() != 7)) return std::nullopt;
  text.remove_prefix(1);
  double parts[3];
  const std::size_t digits = text.size() / 3;
  for (std::size_t i = 0; i < 3; ++i) {
    const char* begin = text.data() + i * digits;
    unsigned value = 0;
    const auto [end, error] = std::from_chars(begin, begin + digits, value, 16);
    if (error != std::errc{} || end != begin + digits) return std::nullopt;
    parts[i] = (digits == 1 ? value * 17 : value) / 255.0;
  }
  return Ink{parts[0], parts[1], parts[2]};
}

namespace {

LayoutRead readLayoutAt(source::FileId file, std::string_view xml, int depth) {
  LayoutRead out;
  const std::size_t shift = xml.starts_with(kByteOrderMark) ? kByteOrderMark.size() : 0;
  xml.remove_prefix(shift);
  const Places places(file, xml, shift);
  if (xml.size() > kMostBytes) {
    out.problems.push_back(
        {places.span(0, 0),
         fmt::format("this layout has {} bytes, and no layout needs more than a million", xml.size()),
         {}});
    return out;
  }
  if (const std::size_t bad = base::firstInvalidUtf8(xml); bad != std::string_view::npos) {
    out.problems.push_back({places.span(bad, 1),
                            "this byte is no UTF-8, so the text around it cannot be read",
                            "save the file as UTF-8"});
    return out;
  }
  pugi::xml_document document;
  const auto result = document.load_buffer(xml.data(), xml.size(), pugi::parse_default, pugi::encoding_utf8);
  if (!result) {
    auto [message, hint] = inWords(result.status);
    out.problems.push_back(
        {places.span(static_cast<std::size_t>(std::max<std::ptrdiff_t>(result.offset, 0)), 1),
         std::move(message), std::move(hint)});
    return out;
  }
  const pugi::xml_node root = document.document_element();
  if (std::string_view(root.name()) != "layout") {
    out.problems.push_back({places.element(root),
                            fmt::format("a layout begins with <layout>, and this file with <{}>",
                                        base::shortened(root.name(), 40)),
                            {}});
    return out;
  }
  PageLayout layout;
  layout.paper = *paperNamed("A4");
  Element at(root, places, out.problems);
  const bool isLike = beginLike(at, layout, depth);
  at.text("name", layout.name);
  if (const std::string_view paper = at.text("paper"); at.has("paper")) {
    const auto names = paperNames();
    if (const auto known = paperNamed(paper))
      layout.paper = *known;
    else
      at.say("paper", fmt::format("no paper is called \"{}\"", base::shortened(paper, 40)),
             suggestion(paper, names, "the papers"));
  }
  at.word("orientation", layout.landscape, kOrientations);
  at.finish();
  if (!isLike) followBody(root, places, layout);

  std::set<std::string> facesSeen;
  for (pugi::xml_node node : root.children()) {
    if (node.type() == pugi::node_element)
      readElement(node, places, layout, facesSeen, out.problems);
    else
      at.say("",
             fmt::format("there is text between the elements: \"{}\"",
                         base::shortened(base::trimmed(node.value()), 30)),
             "take it out, or put it in <!-- -->");
  }
  if (layout.faces.empty())
    at.say("", "this layout names no face, so there is nothing to set with",
           "add <face name=\"text\" roman=\"GentiumBookPlus-Regular.ttf\"/>");
  for (Style& style : layout.styles)
    if (style.face.empty() && !layout.faces.empty()) style.face = layout.faces.front().name;
  if (!layout.faces.empty()) {
    const auto reasons = whatIsUnfit(layout);
    for (const std::string& reason : reasons) at.say("", reason);
    if (reasons.empty()) out.layout = std::move(layout);
  }
  std::stable_sort(out.problems.begin(), out.problems.end(),
                   [](const auto& a, const auto& b) { return a.span.begin < b.span.begin; });
  return out;
}

}  // namespace

LayoutRead readLayout(source::FileId file, std::string_view xml) {
  return readLayoutAt(file, xml, 0);
}

}  // namespace saggar::reading
