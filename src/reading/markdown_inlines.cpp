#include <algorithm>
#include <cstring>
#include <memory>

#include "base/edit_distance.h"
#include "base/text.h"
#include "document/address.h"
#include "reading/markdown_html.h"
#include "reading/markdown_tree.h"

namespace saggar::reading {

using diagnostics::operator""_rule;
using document::AddressKind;
using document::Inline;
using document::InlineKind;

namespace {

constexpr std::string_view kBox = "\xE2\x98\x90";  // ☐

Inline ofKind(InlineKind kind, source::Span span = {}) {
  Inline one;
  one.kind = kind;
  one.span = span;
  return one;
}

std::string stringOf(const char* text) {
  return text ? text : "";
}

bool isStruck(cmark_node* node) {
  return std::strcmp(cmark_node_get_type_string(node), "strikethrough") == 0;
}

// "a" of `<a id="a">`, which the very next node closes; empty for anything else.
std::string placeName(cmark_node* node) {
  constexpr std::string_view kBegin = "<a id=\"";
  const std::string html = stringOf(cmark_node_get_literal(node));
  cmark_node* next = cmark_node_next(node);
  if (!html.starts_with(kBegin) || !html.ends_with("\">") || next == nullptr) return {};
  if (cmark_node_get_type(next) != CMARK_NODE_HTML_INLINE) return {};
  if (stringOf(cmark_node_get_literal(next)) != "</a>") return {};
  const std::string name = html.substr(kBegin.size(), html.size() - kBegin.size() - 2);
  return name.find_first_of("\"<>&") == std::string::npos ? name : std::string();
}

// The single run of words of a node, or empty.
std::string_view onlyText(const document::Inlines& words) {
  return words.size() == 1 && words[0].kind == InlineKind::text ? std::string_view(words[0].text)
                                                                : std::string_view();
}

std::string shownAddress(const std::string& url) {
  return "`" + base::shortened(url, 60) + "`";
}

}  // namespace

void MarkdownTree::addText(std::string_view words, Inlines& out) {
  while (!words.empty()) {
    const std::size_t box = words.find(kBox);
    const std::string_view plain = words.substr(0, box);
    if (!plain.empty()) {
      if (!out.empty() && out.back().kind == InlineKind::text) {
        out.back().text += plain;
      } else {
        out.push_back(document::text(std::string(plain)));
      }
    }
    if (box == std::string_view::npos) return;
    out.push_back(document::tickBox());
    words.remove_prefix(box + kBox.size());
  }
}

// A text as the parser gives it: a mark of a footnote that is still in it has no footnote.
void MarkdownTree::addTyped(std::string_view words, Inlines& out, LinkPlaces& at) {
  addText(words, out);
  for (std::size_t i = words.find("[^"); i != std::string_view::npos; i = words.find("[^", i + 2)) {
    const std::size_t close = words.find_first_of("] \n", i);
    if (close == std::string_view::npos || words[close] != ']' || close == i + 2) continue;
    const std::string_view mark = words.substr(i, close + 1 - i);
    const auto place = at.words(mark);
    if (!place || (place->begin > 0 && text_[place->begin - 1] == '\\')) continue;
    note("link-missing"_rule, spanOf(*place),
         "there is no footnote `" + std::string(mark) + "`, so the mark is printed as it stands",
         "add a paragraph that begins with `" + std::string(mark) + ":`");
  }
}

void MarkdownTree::addInlines(cmark_node* parent, Inlines& out, LinkPlaces& at, int depth) {
  for (cmark_node* node = cmark_node_first_child(parent); node; node = cmark_node_next(node)) {
    switch (cmark_node_get_type(node)) {
      case CMARK_NODE_TEXT: addTyped(stringOf(cmark_node_get_literal(node)), out, at); continue;
      case CMARK_NODE_SOFTBREAK: out.push_back(ofKind(InlineKind::softBreak)); continue;
      case CMARK_NODE_LINEBREAK: out.push_back(ofKind(InlineKind::hardBreak)); continue;
      case CMARK_NODE_CODE: out.push_back(document::code(stringOf(cmark_node_get_literal(node)))); continue;
      case CMARK_NODE_HTML_INLINE: addHtmlInline(node, out, at); continue;
      case CMARK_NODE_FOOTNOTE_REFERENCE: addFootnote(node, out, at, depth); continue;
      case CMARK_NODE_LINK: addLink(node, out, at, depth); continue;
      case CMARK_NODE_IMAGE: addImage(node, out, at); continue;
      default: break;
    }
    Inlines children;
    if (depth >= kDeepest) {
      noteTooDeep(spanOf(at.whole()));
      children = wordsOf(node);
    } else {
      addInlines(node, children, at, depth + 1);
    }
    if (children.empty()) continue;
    const cmark_node_type type = cmark_node_get_type(node);
    const bool known = type == CMARK_NODE_EMPH || type == CMARK_NODE_STRONG || isStruck(node);
    if (!known) {
      for (Inline& one : children) out.push_back(std::move(one));
      continue;
    }
    Inline one = ofKind(type == CMARK_NODE_EMPH     ? InlineKind::emphasis
                        : type == CMARK_NODE_STRONG ? InlineKind::strong
                                                    : InlineKind::struck);
    one.children = std::move(children);
    out.push_back(std::move(one));
  }
}

MarkdownTree::Inlines MarkdownTree::wordsOf(cmark_node* top) {
  std::string words;
  const std::unique_ptr<cmark_iter, decltype(&cmark_iter_free)> walk(cmark_iter_new(top), cmark_iter_free);
  for (cmark_event_type event = cmark_iter_next(walk.get()); event != CMARK_EVENT_DONE;
       event = cmark_iter_next(walk.get())) {
    if (event != CMARK_EVENT_ENTER) continue;
    cmark_node* node = cmark_iter_get_node(walk.get());
    const cmark_node_type type = cmark_node_get_type(node);
    if (type == CMARK_NODE_FOOTNOTE_REFERENCE) continue;
    if (type == CMARK_NODE_SOFTBREAK || type == CMARK_NODE_LINEBREAK) {
      words += ' ';
    } else {
      words += stringOf(cmark_node_get_literal(node));
    }
  }
  Inlines out;
  addText(words, out);
  return out;
}

void MarkdownTree::addHtmlInline(cmark_node*& node, Inlines& out, LinkPlaces& at) {
  const std::string html = stringOf(cmark_node_get_literal(node));
  if (words_.ownAnchors) {
    if (std::string name = placeName(node); !name.empty()) {
      out.push_back(document::anchorAt(std::move(name)));
      node = cmark_node_next(node);
      return;
    }
  }
  const source::Span span = spanOf(at.words(html.substr(0, html.find('\n'))).value_or(at.whole()));
  bool comments = false;
  const std::string shown = withoutComments(html, comments);
  if (comments && shown.empty()) {
    note("html-in-prose"_rule, span, "the comment `" + base::shortened(html, 60) + "` is left out",
         "keep remarks to yourself in a field whose name begins with `my-`");
    return;
  }
  addText(shown, out);
  const std::string name = tagName(html);
  if (isClosingTag(html) && openedTags_.contains(name)) return;
  openedTags_.insert(name);
  note("html-in-prose"_rule, span,
       "HTML is never passed on: `" + base::shortened(html, 60) + "` is printed as it was typed",
       insteadOfTag(html));
}

source::Span MarkdownTree::placeOf(const std::string& url, std::string_view shown, LinkPlaces& at) {
  if (const auto place = at.destination(url)) return spanOf(*place);
  if (const auto place = definitions_.destination(url)) return spanOf(*place);
  if (!shown.empty() && url.ends_with(shown)) {
    if (const auto place = at.words(shown)) return spanOf(*place);
  }
  return spanOf(at.whole());
}

void MarkdownTree::addLink(cmark_node* node, Inlines& out, LinkPlaces& at, int depth) {
  const std::string url = stringOf(cmark_node_get_url(node));
  const std::string title = stringOf(cmark_node_get_title(node));
  Inlines children;
  if (depth >= kDeepest) {
    noteTooDeep(spanOf(at.whole()));
    children = wordsOf(node);
  } else {
    addInlines(node, children, at, depth + 1);
  }
  const source::Span span = placeOf(url, onlyText(children), at);
  const bool bare = onlyText(children) == url;
  if (addOurs(url, bare, children, out, span)) {
    if (title.empty()) return;
    note("value-lost"_rule, span,
         "the title `" + base::shortened(title, 60) + "` of this link is not printed",
         "put the words between the square brackets");
    return;
  }
  if (document::addressKind(url) == AddressKind::unsafe) {
    refuse(url, children, span);
    for (Inline& one : children) {
      if (one.kind == InlineKind::text) {
        addText(one.text, out);
      } else {
        out.push_back(std::move(one));
      }
    }
    return;
  }
  if (url.empty()) {
    note("link-missing"_rule, span, "a link without an address: `[…]()`",
         "type the address between the round brackets");
  }
  Inline one = ofKind(InlineKind::link, span);
  one.children = std::move(children);
  one.text = title;
  one.target.make().address = url;
  out.push_back(std::move(one));
}

// Links of the record language: true if `url` is one of them, or meant to be.
bool MarkdownTree::addOurs(const std::string& url, bool bare, Inlines& children, Inlines& out,
                           source::Span span) {
  const std::size_t colon = url.find(':');
  if (colon == std::string::npos || colon == 0) return false;
  const std::string_view scheme = std::string_view(url).substr(0, colon);
  if (scheme == "index") {
    Inline entry = ofKind(InlineKind::index, span);
    entry.text = base::trimmed(std::string_view(url).substr(colon + 1));
    if (bare) {
      entry.children.push_back(document::text(entry.text));
    } else {
      entry.children = std::move(children);
    }
    out.push_back(std::move(entry));
    return true;
  }
  if (std::find(words_.kinds.begin(), words_.kinds.end(), scheme) == words_.kinds.end()) return false;
  Inline one = ofKind(scheme == "source" ? InlineKind::citation : InlineKind::reference, span);
  one.text = scheme == "source" ? url.substr(colon + 1) : url;
  if (!bare) one.children = std::move(children);
  out.push_back(std::move(one));
  return true;
}

void MarkdownTree::refuse(const std::string& url, const Inlines& words, source::Span span) {
  const std::string scheme = base::folded(url.substr(0, url.find(':')));
  const std::string shown = document::plainText(words);
  const std::string kept =
      shown.empty() || shown == url ? "" : "; the words `" + base::shortened(shown, 40) + "` are printed";
  const bool word = !scheme.empty() && std::all_of(scheme.begin(), scheme.end(), base::isLower);
  const auto kind = word ? base::nearest(scheme, words_.kinds) : std::nullopt;
  if (kind) {
    const std::string typed = std::string(*kind) + url.substr(scheme.size());
    note("kind-unknown"_rule, span,
         "a link to " + shownAddress(url) + ", and there is no kind `" + scheme + "`" + kept,
         "did you mean `" + base::shortened(typed, 60) + "`?");
    return;
  }
  note("link-unsafe"_rule, span,
       "a link to " + shownAddress(url) +
           " is not passed on, because a reader's program could run or open it" + kept,
       "type an address with http, https or mailto, a path inside the guide, or a record as `kind:id`");
}

void MarkdownTree::addImage(cmark_node* node, Inlines& out, LinkPlaces& at) {
  const std::string url = stringOf(cmark_node_get_url(node));
  const std::string title = stringOf(cmark_node_get_title(node));
  Inlines alternative = wordsOf(node);
  const source::Span span = placeOf(url, {}, at);
  if (addOurs(url, false, alternative, out, span)) return;
  if (document::addressKind(url) == AddressKind::unsafe) {
    refuse(url, alternative, span);
    for (Inline& one : alternative) out.push_back(std::move(one));
    return;
  }
  if (url.empty()) {
    note("link-missing"_rule, span, "a picture without a file: `![…]()`",
         "type the path between the round brackets");
  }
  Inline one = ofKind(InlineKind::image, span);
  one.text = document::plainText(alternative);
  one.target.make().address = url;
  addText(title, one.children);
  out.push_back(std::move(one));
}

void MarkdownTree::addFootnote(cmark_node* node, Inlines& out, LinkPlaces& at, int depth) {
  const std::string number = stringOf(cmark_node_get_literal(node));
  std::size_t index = 0;
  for (char c : number) index = base::isDigit(c) ? index * 10 + static_cast<std::size_t>(c - '0') : 0;
  if (index == 0 || index > footnotes_.size()) return;
  cmark_node* definition = footnotes_[index - 1];
  const Range range = rangeOf(definition);
  const source::Span span = spanOf(at.whole());
  footnoteBytes_ += range.end - range.begin;
  if (footnoteOpen_[index - 1] || depth >= kDeepest || footnoteBytes_ > 8 * text_.size() + 10000) {
    note("text-unfit"_rule, span,
         footnoteOpen_[index - 1] ? "a footnote that has its own mark in it"
                                  : "footnotes within footnotes without end",
         "take the mark out of the footnote's text");
    return;
  }
  footnoteOpen_[index - 1] = true;
  Blocks blocks;
  addBlocks(definition, blocks, depth + 1);
  footnoteOpen_[index - 1] = false;
  Inline note = ofKind(InlineKind::footnote, spanOf(range));
  for (document::Block& block : blocks) {
    if (!note.children.empty()) note.children.push_back(document::hardBreak());
    if (block.kind == document::BlockKind::paragraph) {
      for (Inline& one : block.inlines) note.children.push_back(std::move(one));
    } else {
      addText(document::plainText(document::Blocks{std::move(block)}), note.children);
    }
  }
  out.push_back(std::move(note));
}

}  // namespace saggar::reading
