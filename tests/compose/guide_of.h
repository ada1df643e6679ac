#pragma once
#include <doctest/doctest.h>

#include <map>
#include <memory>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "compose/guide.h"
#include "compose/words.h"
#include "diagnostics/report.h"
#include "linking/link.h"
#include "linking/prose.h"
#include "reading/guide_reader.h"
#include "reading/markdown.h"
#include "reading/text_map.h"
#include "render/markdown.h"

// Small guides typed in a test, composed and printed. All data in them is invented.
namespace saggar::compose::testing {

using Texts = std::map<std::string, std::string>;

class Guide {
 public:
  // Paths and texts: {"records.yaml", "…"}, {"prose/a.md", "…"}. Without a guide.yaml an empty one is put.
  explicit Guide(const Texts& texts) {
    source::MemoryFiles files;
    if (!texts.contains("guide.yaml")) files.put("g/guide.yaml", "guide: A guide\n");
    for (const auto& [path, text] : texts) files.put("g/" + path, text);
    diagnostics::Findings found;
    diagnostics::Settings settings;
    collection = linking::link(reading::readGuide(files, "g", found), found, settings);
    bounds_ = std::make_unique<choosing::OwnBounds>(collection, dates::Reading::Plain);
    chooser_ = std::make_unique<choosing::Chooser>(collection, *bounds_);
    codes_ = choosing::CodeReadings::read(*chooser_, found);
    weights_ = std::make_unique<evidence::Weights>(collection);
    chronology_ = chronology::Chronology::reason(collection, *weights_, *codes_.days());
    for (const chronology::FactId fact : chronology_.disputed())
      if (!chronology_.fact(fact).cites()) weights_->dispute(*chronology_.fact(fact).value);
    published_ = std::make_unique<Published>(collection);
    claims_ = choosing::ClaimResults::of(collection, *weights_, chronology_);
    materials = std::make_unique<Materials>(
        Materials{*published_, *chooser_, codes_, *weights_, chronology_, claims_});
    before = found;
    places = std::make_unique<Places>(Places::plan(*materials, planned));
  }

  // Every file of the guide by its name, as Markdown; composes once.
  const std::map<std::string, std::string>& files() {
    if (files_.empty()) {
      composeGuide(
          *materials, *places,
          [&](Composed made) {
            order.push_back(made.document.file);
            images.insert(made.images.begin(), made.images.end());
            madeFrom[made.document.file] = made.madeFrom;
            files_[made.document.file] = render::renderMarkdown(made.document);
          },
          composing);
    }
    return files_;
  }
  const std::string& file(const std::string& name) {
    const auto found = files().find(name);
    REQUIRE_MESSAGE(found != files().end(), name);
    return found->second;
  }

  RecordIndex at(std::string_view reference) const {
    const auto found = collection.find(reference);
    REQUIRE_MESSAGE(found.has_value(), std::string(reference));
    return found.value_or(0);
  }
  PublishedRecord record(std::string_view reference) const { return (*published_)[at(reference)]; }
  Words words() const { return Words(*materials, places.get()); }
  Words unlinked() const { return Words(*materials, nullptr); }

  // "file: rule: message" of the findings of planning, by place.
  std::vector<std::string> findings() const {
    std::vector<std::string> out;
    for (const diagnostics::Finding& one : planned.all()) {
      const source::Place place = one.span.known() ? collection.sources().place(one.span) : source::Place{};
      out.push_back(std::string(place.path) + ':' + std::to_string(place.line) + ':' +
                    std::to_string(place.column) + ": " + one.message + " [" + std::string(one.rule.id()) +
                    "] " + one.hint);
    }
    return out;
  }

  linking::Collection collection;
  diagnostics::Findings before;     // of reading, linking and codes
  diagnostics::Findings planned;    // of Places::plan
  diagnostics::Findings composing;  // of composeGuide
  std::unique_ptr<Materials> materials;
  std::unique_ptr<Places> places;
  std::vector<std::string> order;
  std::set<std::string> images;
  std::map<std::string, std::set<std::string>> madeFrom;

 private:
  std::unique_ptr<choosing::OwnBounds> bounds_;
  std::unique_ptr<choosing::Chooser> chooser_;
  choosing::CodeReadings codes_;
  std::unique_ptr<evidence::Weights> weights_;
  chronology::Chronology chronology_;
  choosing::ClaimResults claims_;
  std::unique_ptr<Published> published_;
  std::map<std::string, std::string> files_;
};

// The part of a text from a line on, up to the next line that begins like `until`.
inline std::string part(const std::string& text, const std::string& from, const std::string& until) {
  const std::size_t begin = text.find(from);
  REQUIRE_MESSAGE(begin != std::string::npos, from << " is not in\n" << text);
  const std::size_t end = text.find(until, begin + from.size());
  return text.substr(begin, end == std::string::npos ? end : end - begin);
}

inline bool holds(const std::string& text, std::string_view words) {
  return text.find(words) != std::string::npos;
}

inline std::string plain(const Inlines& inlines) {
  return document::plainText(inlines);
}

// What leads nowhere: "file -> target". Reads the printed Markdown again.
inline std::vector<std::string> deadLinks(const std::map<std::string, std::string>& files) {
  std::map<std::string, std::multiset<std::string>> anchors;
  std::map<std::string, std::vector<std::string>> links;
  const reading::NoTextMap nowhere;
  for (const auto& [name, text] : files) {
    const auto read = reading::parseMarkdown(text, nowhere, {{}, {}, true});
    document::forEachInline(read.blocks, [&, file = name](const Inline& one) {
      if (one.kind == document::InlineKind::anchor) anchors[file].insert(one.text);
      if (one.kind == document::InlineKind::link) links[file].push_back(one.target->address);
    });
    // Anchors in front of blocks are paragraphs of their own or belong to headings: found by their tag.
    for (std::size_t at = text.find("<a id=\""); at != std::string::npos;
         at = text.find("<a id=\"", at + 1)) {
      const std::size_t end = text.find('"', at + 7);
      const std::string anchor = text.substr(at + 7, end - at - 7);
      if (!anchors[name].contains(anchor)) anchors[name].insert(anchor);
    }
  }
  std::vector<std::string> dead;
  for (const auto& [name, targets] : links)
    for (const std::string& address : targets) {
      if (address.find("://") != std::string::npos) continue;
      const std::size_t hash = address.find('#');
      std::string file = address.substr(0, hash);
      file = file.empty() ? name : file.ends_with(".md") ? file.substr(0, file.size() - 3) : file;
      const std::string anchor = hash == std::string::npos ? std::string() : address.substr(hash + 1);
      if (!files.contains(file) || (!anchor.empty() && !anchors[file].contains(anchor)))
        dead.push_back(name + " -> " + address);
    }
  for (const auto& [name, own] : anchors)
    for (const std::string& anchor : own)
      if (own.count(anchor) > 1) dead.push_back(name + " has " + anchor + " twice");
  return dead;
}

// A small pottery with everything in it: two firms, three shapes, sources of each worth.
inline const std::string kPottery = R"(
- maker: amblecote
  name: Amblecote & Tarn
  also: [A&T]
  trade: pottery
  place: Velm
  founded: 1900
  closed: 1950
  works:
    - {works: low, name: Low works, letter: L, used: 1900/1950}
  cite:
    - town-book: 1901, potters
  codes:
    - rule: number
      used: 1920/1950
      written: PREFIX-SERIAL-LINING
      parts:
        PREFIX: [shape.prefix, for.prefix]
        SERIAL: 2 digits
        LINING:
          0: {look: {edge-line: none}}
          1: {look: {edge-line: gold}}
      order: SERIAL within PREFIX
      means: The number on the foot.
      cite:
        - pattern-book: first leaf
    - rule: date code
      on: specimen.date-code
      written: WORKS YY QUARTER
      parts: {WORKS: maker.works.letter, YY: year 19YY, QUARTER: quarter}
      alike: [4 9]
- maker: rival
  name: Rival China
  trade: pottery
- maker: decals
  name: Ostrand Decals
  trade: decal supplier
- maker: shop
  name: Corner Shop
  trade: retailer
  prefix: CS
- person: mo
  name: Mo Delling
  part: modeller
- shape: bryn
  name: Bryn
  maker: amblecote
  prefix: BR
  modeller: mo
  introduced:
    is: 1921
    cite:
      - pattern-book: p. 1
  withdrawn: 1940
  look: {outline: round, glaze: [white, {is: ivory, used: 1930/..}], embossing: in panels, finial: closed knob}
  resembles:
    - shape: other
      tell: Theirs is heavier.
  cite:
    - pattern-book: list of shapes
- shape: cairn
  name: Cairn
  maker: amblecote
  prefix: CA
  modeller: unknown
  introduced: {is: about 1930, judged: by its glaze}
- shape: other
  name: Other
  maker: rival
  look: {outline: square}
- motif: fern
  name: Fern
  supplier: decals
  supplier-number: 12
  named-by: collectors
  introduced: 1922
  look: {picture: leaves}
  cite:
    - pattern-book: p. 2
- form: plate
  name: 7-inch plate
  also: [dinner plate]
  ware: flat
  nominal: 7 in
  actual: 9 1/8 in
  made-in: all
  cite:
    - price-list: p. 1
- form: pot
  name: pot
  ware: hollow
  nominal: none
  holds: 24 fl oz
  made-in: {is: [bryn], complete: yes}
  cite:
    - price-list: p. 2
- treatment: br-01
  shape: bryn
  motif: fern
  code: BR-01-1
  look: {edge-line: gold}
  introduced: 1922
  withdrawn: 1930
  forms: [plate, pot]
  met: often
  cite:
    - pattern-book: BR-01
- treatment: br-02
  shape: bryn
  motif: none
  code: BR-02-0
  look: {edge-line: none}
  introduced: {is: 1923, doubted: The ink is another.}
  for: shop
  status: sample
- treatment: ca-shop
  shape: cairn
  motif: fern
  code: unknown
  cite: a-book
- mark: one
  name: A crown
  maker: amblecote
  method: printed
  colour: [red, blue]
  reads: VELM
  carries: date code
  used: 1920/1950
  shapes: {is: [bryn], complete: yes}
  photo: crown
  cite:
    - pattern-book: inside the cover
- specimen: br-01-plate
  treatment: br-01
  form: plate
  marks: [{mark: one, at: in the foot}]
  code-seen: BR-01-1
  date-code: L241
  size: 9 1/8 in
  seen: {on: 2001-02-03, by: mo, how: in-hand}
  holder: a museum
  kept: shelf nine
  owner: Mrs Secretname
  my-thought: hush
- specimen: br-01-pot
  treatment: br-01
  form: pot
  seen: {by: a friend, how: reported}
- specimen: other-plate
  shape: other
  motif: unknown
  form: plate
  seen: {how: photograph}
- feature: outline
  of: shape
  ask: What is the outline?
  values: {round: a circle, square: four sides}
  effort: 1
- feature: embossing
  of: shape
  values: {in panels: fields, none: smooth}
  effort: 2
- feature: finial
  of: shape
  values: {closed knob: solid}
- feature: glaze
  of: [shape, treatment]
  values: {white: white, ivory: {is: cream, used: 1930/..}}
- feature: picture
  of: motif
  values: {leaves: leaves}
- feature: edge-line
  of: treatment
  values:
    none: no line
    gold: {is: a thin line, caution: Gold sparks.}
- source: pattern-book
  type: decoration-book
  title: The Pattern Book of Amblecote & Tarn
  date: 1920/1950
  holder: a museum
- source: price-list
  type: price-list
  title: Price List
  date: 1930
- source: town-book
  type: directory
  title: The Town Book
  date: 1900/1950
- source: a-book
  type: book
  title: Plates of Velm
  by: mo
  date: 1970
  draws-on: gossip
- source: gossip
  type: hearsay
  title: Gossip
- claim: only-panels
  says: Only Bryn has panels.
  about: [shape:bryn]
  test:
    - count: shape
      where: {look.embossing: in panels}
      makes: 1
- claim: first-old
  says: Bryn came out in 1920.
  about: [shape:bryn]
  status: withdrawn
- claim: first-new
  says: Bryn came out in 1921.
  about: [shape:bryn]
  replaces: first-old
  change: corrigendum
  because: The book was misread.
  issued: 2 May 2020
  stated:
    - {edition: 1, at: p. 3}
  cite:
    - pattern-book: p. 1
- question: why-two
  name: Why two
  asks: Why has [Bryn](shape:bryn) two glazes?
  about: [shape:bryn]
  for:
    - says: A white one is known.
      cite: specimen:br-01-plate
  against:
    - says: The book has one only.
      cite:
        - pattern-book: list of shapes
  would-settle: A kiln book.
- term: verge
  means: Where rim meets well.
- term: well
  means: The middle of a plate, inside the [verge](term:verge).
  related: [verge]
- photo: crown
  file: images/crown.png
  shows: mark:one
  alt: A crown.
  caption: The crown of [Amblecote](maker:amblecote).
  credit: Mo
  rights: CC BY 4.0
- talk: first
  title: A first talk
  budget: 10:00
  segments:
    - {title: Opening, time: "10:00"}
- checklist: all
  title: Everything
  show: treatment
- set: tea
  name: Tea set
  for: shop
  offered: 1930/
  pieces:
    - {form: pot, of: treatment:br-01, how-many: 1}
)";

}  // namespace saggar::compose::testing
