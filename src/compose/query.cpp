#include "compose/query.h"

#include <algorithm>
#include <deque>

#include "base/edit_distance.h"
#include "reading/date_pool.h"
#include "reading/text_map.h"
#include "reading/typed.h"
#include "reading/yaml_tree.h"

namespace saggar::compose {

using records::Entry;
using records::KindSet;
using records::Value;

namespace {

struct BlockKinds {
  std::string_view block;
  KindSet kinds;
};

const BlockKinds kBlockKinds[] = {
    {"treatments", KindSet(Kind::treatment)},
    {"forms", KindSet(Kind::form)},
    {"marks", KindSet(Kind::mark)},
    {"codes", KindSet(Kind::treatment)},
    {"timeline", KindSet::any()},
    {"tell-apart", KindSet(Kind::shape)},
    {"look-alikes", KindSet(Kind::shape, Kind::motif, Kind::treatment)},
    {"questions", KindSet(Kind::question)},
    {"help-wanted", KindSet::any()},
    {"corrections", KindSet(Kind::claim)},
    {"claims", KindSet(Kind::claim)},
    {"makers", KindSet(Kind::maker)},
    {"glossary", KindSet(Kind::term)},
    {"sources", KindSet(Kind::source)},
    {"measures", KindSet(Kind::form)},
    {"cautions", KindSet(Kind::feature)},
    {"credits", KindSet(Kind::photo)},
};

// What a query's values live in.
struct Kept {
  base::Arena nodes;
  base::Arena texts;
  base::Arena values;
  reading::DatePool dates;
  std::string text;
};

constexpr std::string_view kKeys[] = {"where", "in-order-of", "sure"};

// Findings made over the YAML alone, moved to where it stands in its file.
void moveFindings(diagnostics::Findings& from, const Block& block, const Materials& materials,
                  diagnostics::Findings& to) {
  if (!block.span.known()) return to.append(std::move(from));
  const reading::LinesTextMap map(materials.records.sources().text(block.span.file), block.span, block.text);
  for (diagnostics::Finding& finding : from.all()) {
    finding.span = map.at(finding.span.begin, finding.span.end);
    for (diagnostics::Related& related : finding.related) related.span = map.at(related.span.begin, related.span.end);
    to.add(std::move(finding));
  }
}

}  // namespace

KindSet kindsOf(std::string_view block) {
  for (const BlockKinds& one : kBlockKinds)
    if (one.block == block) return one.kinds;
  return {};
}

Query wholeQuery(std::string_view block) {
  Query query;
  query.block = block;
  query.kinds = kindsOf(block);
  return query;
}

std::vector<choosing::Path> readOrder(const Value& value, Kind kind, const Materials& materials, source::FileId file,
                                      diagnostics::Findings& findings) {
  std::vector<choosing::Path> order;
  for (const Value& one : value.each()) {
    choosing::PathProblem problem;
    choosing::Path path = choosing::Path::compile(one.text, kind, materials.chooser.collection(), problem);
    if (path.empty()) {
      const auto begin = one.place.begin + static_cast<std::uint32_t>(one.quoted ? 0 : problem.at);
      findings.add({.rule = "field-unknown"_rule,
                    .span = {file, begin, std::max(begin, one.place.end)},
                    .message = problem.message.empty() ? "`in-order-of` takes a field" : problem.message,
                    .hint = problem.hint});
    } else {
      order.push_back(std::move(path));
    }
  }
  return order;
}

Query readQuery(const Block& block, const Materials& materials, diagnostics::Findings& findings) {
  Query query = wholeQuery(block.info);
  if (block.text.find_first_not_of(" \t\r\n") == std::string::npos) return query;
  auto kept = std::make_shared<Kept>();
  kept->text = block.text;
  if (kept->text.back() != '\n') kept->text += '\n';
  diagnostics::Findings own;
  const source::FileId file = block.span.file;
  const reading::Piece piece{kept->text, 0, static_cast<std::uint32_t>(kept->text.size()), file};
  const reading::TreeResult tree = reading::TreeReader(kept->nodes, kept->texts).read(piece, own);
  const Kind kind = query.kinds.single() ? query.kinds.only() : Kind::shape;
  if (tree.root != nullptr && !tree.broken) {
    if (tree.root->type != reading::NodeType::mapping) {
      own.add({.rule = "value-unfit"_rule,
               .span = {file, tree.root->begin, tree.root->end},
               .message = "a block of `" + block.info + "` takes conditions, here is something else",
               .hint = "write `where: {field: value}`, or leave the block empty for everything"});
    } else {
      reading::TypedReader reader(file, kept->text, kept->values, kept->dates, own);
      const Value typed = reader.readTree(*tree.root);
      for (const Entry& entry : typed.entries()) {
        if (entry.key == "where") {
          query.where = query.kinds.single()
                            ? choosing::Condition::compile(entry.value, kind, materials.chooser.collection(), file, own)
                            : choosing::Condition::compile(entry.value, query.kinds, materials.chooser.collection(),
                                                           file, own);
        } else if (entry.key == "in-order-of") {
          query.order = readOrder(entry.value, kind, materials, file, own);
        } else if (entry.key == "sure") {
          query.sure = entry.value.text == "yes";
        } else {
          const auto near = base::nearest(entry.key, kKeys);
          own.add({.rule = "field-unknown"_rule,
                   .span = {file, entry.keyPlace.begin, entry.keyPlace.end},
                   .message = "a block has no `" + std::string(entry.key) + "`",
                   .hint = near ? "did you mean `" + std::string(*near) + "`?"
                                : "it takes `where`, `in-order-of` and `sure`; a condition goes under `where:`"});
        }
      }
    }
  }
  moveFindings(own, block, materials, findings);
  query.keep = std::move(kept);
  return query;
}

std::vector<choosing::Chosen> chosenBy(const Query& query, const Materials& materials) {
  std::vector<choosing::Chosen> all;
  for (std::size_t i = 0; i + 1 < records::kKindCount; ++i) {
    const Kind kind = static_cast<Kind>(i);
    if (!query.kinds.has(kind)) continue;
    const auto some = materials.chooser.choose(kind, query.where, query.sure);
    all.insert(all.end(), some.begin(), some.end());
  }
  if (!query.order.empty()) materials.chooser.sort(all, query.order);
  return all;
}

}  // namespace saggar::compose
