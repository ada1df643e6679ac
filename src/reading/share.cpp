#include "reading/share.h"

#include <algorithm>
#include <optional>

#include "base/text.h"
#include "reading/typed.h"
#include "reading/yaml_mistakes.h"

namespace saggar::reading {
namespace {

using records::Record;

constexpr diagnostics::Rule kBroken = "yaml-broken"_rule;
constexpr diagnostics::Rule kQuoteOpen = "quote-open"_rule;
constexpr std::size_t kRunBytes =
    16 * 1024;  // read in one pass: enough to spare the parser's start, little to do again

class ShareReader {
 public:
  ShareReader(Share& share, const source::SourceSet& sources, Workshop& shop)
      : share_(share),
        text_(sources.text(share.file)),
        shop_(shop),
        trees_(shop.scratch, shop.kept),
        typed_(share.file, text_, shop.kept, shop.dates, share.findings) {}

  void run() {
    share_.records.reserve(share_.pieces.size());
    for (std::size_t i = 0; i < share_.pieces.size();) {
      const std::size_t next = std::max(endOfRun(i), i + 1);
      if (next == i + 1 || !readTogether(i, next))
        for (std::size_t one = i; one < next; ++one) readPiece(share_.pieces[one]);
      i = next;
    }
  }

 private:
  Piece pieceOf(const CutPiece& cut) const { return {text_, cut.begin, cut.end, share_.file}; }
  bool isUnfit(const CutPiece& cut) const {
    return std::binary_search(share_.unfit.begin(), share_.unfit.end(), cut.begin);
  }

  // Neighbouring ordinary items, up to some kilobytes.
  std::size_t endOfRun(std::size_t first) const {
    std::size_t next = first;
    while (next < share_.pieces.size()) {
      const CutPiece& cut = share_.pieces[next];
      if (cut.type != PieceType::item || cut.cutShort || isUnfit(cut) ||
          cut.end - share_.pieces[first].begin > kRunBytes)
        break;
      if (next > first && share_.pieces[next - 1].end != cut.begin) break;
      ++next;
    }
    return next;
  }

  bool readTogether(std::size_t first, std::size_t next) {
    shop_.scratch.clear();
    starts_.clear();
    for (std::size_t i = first; i < next; ++i) starts_.push_back(share_.pieces[i].begin);
    const Piece all{text_, share_.pieces[first].begin, share_.pieces[next - 1].end, share_.file};
    if (!trees_.readTogether(all, starts_, items_)) return false;
    for (const Node* item : items_) readRecord(*item, false, share_.findings.all().size());
    return true;
  }

  void readPiece(const CutPiece& cut) {
    shop_.scratch.clear();
    const Piece piece = pieceOf(cut);
    if (isUnfit(cut)) return keepStub(piece);
    if (cut.type == PieceType::stray) {
      // What stands in front may have been broken by the same slip: a bracket that was closed out here.
      if (!brokenBefore_) share_.findings.add(explainStray(piece));
      brokenBefore_ = false;
      return keepStub(piece);
    }
    if (cut.type == PieceType::outOfLine && !cut.silent) share_.findings.add(explainOutOfLine(piece));
    const std::size_t before = share_.findings.all().size();
    const TreeResult tree = trees_.read(piece, share_.findings);
    brokenBefore_ =
        cut.cutShort && std::any_of(share_.findings.all().begin() + static_cast<std::ptrdiff_t>(before),
                                    share_.findings.all().end(), [](const auto& one) {
                                      return one.rule == kBroken || one.rule == kQuoteOpen;
                                    });
    if (tree.broken && share_.guideFile && readGuideInParts(piece, before)) return;
    if (tree.broken) return keepStub(piece);
    if (tree.root == nullptr) return;  // comments only
    if (tree.root->type == NodeType::sequence && !share_.guideFile) {
      for (const Node* node = tree.root->first; node != nullptr; node = node->next)
        readRecord(*node, cut.cutShort, before);
    } else {
      readRecord(*tree.root, cut.cutShort, before);
    }
  }

  // A mistake in the guide file costs the setting it stands in, not all of them: what stands under each key at the
  // margin is read by itself, and what can be read is put together again.
  bool readGuideInParts(const Piece& piece, std::size_t before) {
    const std::vector<std::uint32_t> keys = marginKeysIn(piece);
    if (keys.size() < 2 || base::trimmed(piece.text.substr(keys[0], 6)) != "guide:") return false;
    auto& findings = share_.findings.all();
    const std::vector<diagnostics::Finding> ofWhole(findings.begin() + static_cast<std::ptrdiff_t>(before),
                                                    findings.end());
    findings.resize(before, diagnostics::Finding{});
    Node title{.type = NodeType::empty, .told = true, .begin = keys[0] + 6, .end = keys[0] + 6};
    Node titleKey{.type = NodeType::scalar,
                  .begin = keys[0],
                  .end = keys[0] + 5,
                  .text = text_.substr(keys[0], 5),
                  .next = &title};
    Node whole{.type = NodeType::mapping, .style = NodeStyle::block, .begin = piece.begin, .end = piece.end};
    Node* last = nullptr;
    for (std::size_t i = 0; i < keys.size(); ++i) {
      const Piece part{text_, keys[i], i + 1 < keys.size() ? keys[i + 1] : piece.end, piece.file};
      const TreeResult tree = trees_.read(part, share_.findings);
      const bool fits = !tree.broken && tree.root != nullptr && tree.root->type == NodeType::mapping &&
                        tree.root->first != nullptr;
      if (!fits && i != 0) continue;
      const Node* first = fits ? tree.root->first : &titleKey;
      (last == nullptr ? whole.first : last->next) = first;
      for (last = const_cast<Node*>(first); last->next != nullptr;) last = const_cast<Node*>(last->next);
      whole.count += fits ? tree.root->count : 2;
    }
    const bool told =
        std::any_of(findings.begin() + static_cast<std::ptrdiff_t>(before), findings.end(),
                    [](const auto& one) { return one.weight() == diagnostics::Severity::error; });
    if (!told) {  // nothing is wrong with any part alone
      findings.resize(before, diagnostics::Finding{});
      findings.insert(findings.end(), ofWhole.begin(), ofWhole.end());
      return false;
    }
    readRecord(whole, true, before);
    return true;
  }

  // An error among the findings from `before` on is one of this record.
  void readRecord(const Node& node, bool cutShort, std::size_t before) {
    Record record;
    std::string_view lostId;
    if (typed_.readRecord(node, share_.guideFile, record, lostId)) {
      record.broken = cutShort;
      for (std::size_t i = before; i < share_.findings.all().size(); ++i)
        record.broken |= share_.findings.all()[i].weight() == diagnostics::Severity::error;
      share_.records.push_back(record);
    }
    lose(lostId);
  }

  // Of what could not be read, at least the kind and id are kept.
  void keepStub(const Piece& piece) {
    const FirstLine first = firstLineOf(piece);
    const auto kind = share_.guideFile ? std::optional(records::Kind::guide) : records::kindNamed(first.kind);
    if (kind && (share_.guideFile || !first.id.empty())) {
      Record stub;
      stub.kind = *kind;
      stub.broken = true;
      stub.file = share_.file;
      stub.place = {piece.begin, piece.end};
      if (!share_.guideFile) {
        stub.id = first.id;
        stub.idPlace = {first.idBegin, first.idEnd};
      }
      share_.records.push_back(stub);
    } else {
      lose(first.id);
    }
    for (std::string_view id : recordIdsIn(piece)) lose(id);
  }

  // The id as it was typed, and as references will have it.
  void lose(std::string_view id) {
    if (id.empty()) return;
    share_.lostIds.push_back(id);
    if (const std::string mended = asId(id); mended != id && !mended.empty())
      share_.lostIds.push_back(shop_.kept.copy(std::string_view(mended)));
  }

  Share& share_;
  std::string_view text_;
  Workshop& shop_;
  TreeReader trees_;
  TypedReader typed_;
  bool brokenBefore_ = false;  // by a slip of YAML, the piece that a stray one follows
  std::vector<std::uint32_t> starts_;
  std::vector<const Node*> items_;
};

}  // namespace

void readShare(Share& share, const source::SourceSet& sources, Workshop& shop) {
  ShareReader(share, sources, shop).run();
}

}  // namespace saggar::reading
