#include "compose/query.h"

#include "reading/text_map.h"

namespace saggar::compose {

using records::KindSet;

namespace {

// A list in sentences has no columns; one whose order is what it is for takes no other.
constexpr std::string_view kOfTables[] = {"grouped", "columns"};
constexpr std::string_view kOfTablesOrOrder[] = {"grouped", "columns", "in-order-of"};

struct BlockKinds {
  std::string_view block;
  KindSet kinds;
  std::span<const std::string_view> passedOver = kOfTables;
};

constexpr KindSet kWithFacts(Kind::maker, Kind::person, Kind::shape, Kind::form, Kind::motif, Kind::treatment,
                             Kind::set, Kind::mark);

constexpr BlockKinds kBlockKinds[] = {
    {"treatments", KindSet(Kind::treatment), {}},
    {"forms", KindSet(Kind::form), {}},
    {"marks", KindSet(Kind::mark), {}},
    {"codes", KindSet(Kind::treatment), kOfTablesOrOrder},
    {"timeline", KindSet(Kind::maker, Kind::shape, Kind::motif, Kind::treatment, Kind::set, Kind::mark),
     kOfTablesOrOrder},
    {"tell-apart", KindSet(Kind::shape, Kind::motif, Kind::treatment)},
    {"look-alikes", KindSet(Kind::shape, Kind::motif, Kind::treatment)},
    {"questions", KindSet(Kind::question)},
    {"help-wanted", kWithFacts, kOfTablesOrOrder},
    {"corrections", KindSet(Kind::claim)},
    {"claims", KindSet(Kind::claim)},
    {"makers", KindSet(Kind::maker)},
    {"glossary", KindSet(Kind::term)},
    {"sources", KindSet(Kind::source)},
    {"measures", KindSet(Kind::form), {}},
    {"cautions", KindSet(Kind::feature)},
    {"credits", KindSet(Kind::photo)},
};

template <class Visit>
void forEachKind(KindSet kinds, Visit&& visit) {
  for (std::size_t i = 0; i + 1 < records::kKindCount; ++i)
    if (kinds.has(static_cast<Kind>(i))) visit(static_cast<Kind>(i));
}

}  // namespace

const choosing::Query* Query::of(Kind kind) const {
  for (const choosing::Query& part : parts)
    if (part.kind == kind) return &part;
  return nullptr;
}

KindSet kindsOf(std::string_view block) {
  for (const BlockKinds& one : kBlockKinds)
    if (one.block == block) return one.kinds;
  return {};
}

std::span<const std::string_view> passedOverBy(std::string_view block) {
  for (const BlockKinds& one : kBlockKinds)
    if (one.block == block) return one.passedOver;
  return {};
}

Query wholeQuery(std::string_view block) {
  Query query{.block = std::string(block), .title = {}, .parts = {}};
  forEachKind(kindsOf(block), [&](Kind kind) { query.parts.emplace_back().kind = kind; });
  return query;
}

Query readQuery(const Block& block, const Materials& materials, diagnostics::Findings& findings) {
  Query query{.block = block.info, .title = {}, .parts = {}};
  const source::SourceSet& sources = materials.records.sources();
  const reading::LinesTextMap lines(block.span.known() ? sources.text(block.span.file) : std::string_view(),
                                    block.span, block.text);
  const reading::NoTextMap nowhere;
  const reading::TextMap& places = block.span.known() ? static_cast<const reading::TextMap&>(lines) : nowhere;
  diagnostics::Findings first;
  forEachKind(kindsOf(block.info), [&](Kind kind) {
    diagnostics::Findings own;
    choosing::Query part = choosing::readQuery(block.text, places, kind, materials.chooser.collection(), own,
                                               passedOverBy(block.info));
    if (!part.title.empty()) query.title = part.title;
    if (own.empty() || kindsOf(block.info).single()) query.parts.push_back(std::move(part));
    if (first.empty()) first = std::move(own);
  });
  if (query.parts.empty() || kindsOf(block.info).single()) findings.append(std::move(first));
  return query;
}

bool takesPerhaps(std::string_view block, Kind kind) {
  constexpr KindSet kWritten(Kind::question, Kind::claim, Kind::term, Kind::source, Kind::photo,
                             Kind::feature);
  return block != "look-alikes" && !kWritten.has(kind);
}

std::vector<choosing::Chosen> chosenBy(const Query& query, const Materials& materials) {
  std::vector<choosing::Chosen> all;
  for (const choosing::Query& part : query.parts) {
    std::vector<choosing::Chosen> some =
        materials.chooser.choose(part.kind, part.where, part.sure || !takesPerhaps(query.block, part.kind));
    if (!part.inOrderOf.empty()) materials.chooser.sort(some, part.inOrderOf);
    all.insert(all.end(), some.begin(), some.end());
  }
  return all;
}

}  // namespace saggar::compose
