#include "reading/guide_reader.h"

#include <algorithm>
#include <atomic>
#include <memory>
#include <thread>

#include "base/text.h"
#include "base/utf8.h"
#include "reading/date_pool.h"
#include "reading/folder.h"
#include "reading/pieces.h"
#include "reading/typed.h"
#include "reading/yaml_mistakes.h"

namespace saggar::reading {
namespace {

using records::Record;

constexpr std::size_t kLargestFile = 64u * 1024 * 1024;
constexpr std::size_t kShareBytes = 256 * 1024;

// What one thread needs and what its records' views point to.
struct Workshop {
  base::Arena kept;
  base::Arena scratch;
  DatePool dates;
};

// A run of pieces of one file, read by one thread; its results are put together in order.
struct Share {
  source::FileId file = source::kNoFile;
  bool guideFile = false;
  bool clean = true;  // the file is UTF-8 without control characters
  std::vector<CutPiece> pieces;
  std::vector<Record> records;
  std::vector<std::string_view> lostIds;
  diagnostics::Findings findings;
};

bool isUnfitControl(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return (byte < 0x20 && byte != '\t' && byte != '\n' && byte != '\r') || byte == 0x7F;
}

bool hasControls(std::string_view text) {
  unsigned bad = 0;
  for (char c : text) bad |= static_cast<unsigned>(isUnfitControl(c));
  return bad != 0;
}

// The first place of a text that is not plain UTF-8, as a finding; nothing if all is well.
std::optional<diagnostics::Finding> textFault(std::string_view text, source::FileId file, std::uint32_t begin, std::uint32_t end) {
  const std::string_view part = text.substr(begin, end - begin);
  const std::size_t invalid = base::firstInvalidUtf8(part);
  const auto control = std::find_if(part.begin(), part.end(), isUnfitControl);
  const auto controlAt = static_cast<std::size_t>(control - part.begin());
  if (invalid == std::string_view::npos && control == part.end()) return std::nullopt;
  const bool isControl = controlAt < invalid;
  const auto at = begin + static_cast<std::uint32_t>(std::min(invalid, controlAt));
  return diagnostics::Finding{
      .rule = "text-unfit"_rule,
      .span = {file, at, at + 1},
      .message = isControl ? (*control == '\0' ? "a NUL byte stands here" : "a control character stands here")
                           : "this is not UTF-8: the file was saved in another encoding",
      .hint = isControl ? "take it out: type the text of this record anew"
                        : "save the file as UTF-8 (in your editor: save with encoding, UTF-8)"};
}

void readShare(Share& share, const source::SourceSet& sources, Workshop& shop) {
  const std::string_view text = sources.text(share.file);
  TypedReader typed(share.file, text, shop.kept, shop.dates, share.findings);
  for (const CutPiece& cut : share.pieces) {
    const Piece piece{text, cut.begin, cut.end, share.file};
    shop.scratch.clear();
    TreeResult tree;
    if (!share.clean) {
      if (auto fault = textFault(text, share.file, cut.begin, cut.end)) {
        share.findings.add(std::move(*fault));
        tree.broken = true;
      }
    }
    if (!tree.broken && cut.stray) {
      share.findings.add(explainBroken(piece, cut.begin, "stray line"));
      tree.broken = true;
    }
    if (!tree.broken) tree = readTree(piece, shop.scratch, shop.kept, share.findings);
    auto keepStub = [&] {
      const FirstLine first = firstLineOf(piece);
      const auto kind = records::kindNamed(first.kind);
      if (kind && isId(first.id)) {
        Record stub;
        stub.kind = *kind;
        stub.broken = true;
        stub.file = share.file;
        stub.id = first.id;
        stub.place = {cut.begin, cut.end};
        stub.idPlace = {first.idBegin, first.idEnd};
        share.records.push_back(stub);
      } else if (!first.id.empty()) {
        share.lostIds.push_back(first.id);
      }
    };
    if (tree.broken) {
      keepStub();
      continue;
    }
    if (tree.root == nullptr) continue;  // comments only
    auto readOne = [&](const Node& node) {
      Record record;
      std::string_view lostId;
      const std::size_t before = share.findings.all().size();
      if (typed.readRecord(node, share.guideFile, record, lostId)) {
        for (std::size_t i = before; i < share.findings.all().size(); ++i)
          record.broken |= share.findings.all()[i].weight() == diagnostics::Severity::error;
        share.records.push_back(record);
      } else if (!lostId.empty()) {
        share.lostIds.push_back(lostId);
      }
    };
    if (tree.root->type == NodeType::sequence && tree.root->style == NodeStyle::block && !share.guideFile) {
      for (const Node* node = tree.root->first; node != nullptr; node = node->next) readOne(*node);
    } else {
      readOne(*tree.root);
    }
  }
}

void readShares(std::vector<Share>& shares, const source::SourceSet& sources, std::vector<std::shared_ptr<void>>& keep,
                unsigned threads) {
  std::atomic<std::size_t> next{0};
  auto work = [&](Workshop& shop) {
    for (std::size_t i = next++; i < shares.size(); i = next++) readShare(shares[i], sources, shop);
  };
  std::vector<std::shared_ptr<Workshop>> shops;
  threads = static_cast<unsigned>(std::clamp<std::size_t>(std::min<std::size_t>(threads, shares.size()), 1, 16));
  for (unsigned i = 0; i < threads; ++i) shops.push_back(std::make_shared<Workshop>());
  std::vector<std::thread> others;
  for (unsigned i = 1; i < threads; ++i) others.emplace_back([&, i] { work(*shops[i]); });
  work(*shops[0]);
  for (std::thread& one : others) one.join();
  for (auto& shop : shops) {
    shop->scratch = base::Arena();
    keep.push_back(std::move(shop));
  }
}

// Adds a text and what it is to be read as; UTF-16 and the like are one finding for the whole file.
void addShares(records::ReadGuide& guide, std::string path, std::string text, bool guideFile, std::vector<Share>& shares,
               diagnostics::Findings& findings) {
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF")) {
    const source::FileId file = guide.sources.add(std::move(path), "");
    findings.add({.rule = "text-unfit"_rule,
                  .span = {file, 0, 0},
                  .message = "this file is UTF-16, and nothing in it can be read",
                  .hint = "save the file as UTF-8 (in your editor: save with encoding, UTF-8)"});
    guide.lostFiles = true;
    return;
  }
  const bool clean = base::firstInvalidUtf8(text) == std::string_view::npos && !hasControls(text);
  const source::FileId file = guide.sources.add(std::move(path), std::move(text));
  const std::string_view kept = guide.sources.text(file);
  std::vector<CutPiece> pieces;
  if (guideFile) {
    pieces = {{static_cast<std::uint32_t>(kept.starts_with("\xEF\xBB\xBF") ? 3 : 0), static_cast<std::uint32_t>(kept.size()), false, false}};
  } else {
    pieces = cutIntoPieces(kept);
  }
  Share share;
  std::size_t bytes = 0;
  auto put = [&] {
    share.file = file;
    share.guideFile = guideFile;
    share.clean = clean;
    if (!share.pieces.empty()) shares.push_back(std::move(share));
    share = Share();
    bytes = 0;
  };
  for (const CutPiece& piece : pieces) {
    share.pieces.push_back(piece);
    bytes += piece.end - piece.begin;
    if (bytes >= kShareBytes) put();
  }
  put();
}

void gather(records::ReadGuide& guide, std::vector<Share>& shares, diagnostics::Findings& findings) {
  std::size_t count = guide.records.size();
  for (const Share& share : shares) count += share.records.size();
  guide.records.reserve(count);
  for (Share& share : shares) {
    for (const Record& record : share.records) {
      if (share.guideFile) {
        guide.guide = record;
      } else {
        guide.records.push_back(record);
      }
    }
    guide.lostIds.insert(share.lostIds.begin(), share.lostIds.end());
    findings.append(std::move(share.findings));
    share = Share();
  }
}

}  // namespace

records::ReadGuide readGuide(const source::Files& files, const std::string& folder, diagnostics::Findings& findings,
                             const ReadOptions& options) {
  records::ReadGuide guide;
  guide.folder = folder;
  FoundFiles found = findFiles(files, folder, guide.sources, findings);
  std::vector<Share> shares;
  std::size_t done = 0;
  const std::size_t all = found.records.size() + found.prose.size() + 1;
  auto readText = [&](const std::string& path) -> std::optional<std::string> {
    if (options.progress) options.progress(++done, all);
    const std::string full = source::pathJoined(folder, path);
    auto fail = [&](diagnostics::Rule rule, std::string message, std::string hint) {
      const source::FileId file = guide.sources.add(path, "");
      findings.add({.rule = rule, .span = {file, 0, 0}, .message = std::move(message), .hint = std::move(hint)});
      guide.lostFiles = true;
      return std::nullopt;
    };
    if (files.status(full).size > kLargestFile)
      return fail("yaml-too-big"_rule, "this file is larger than 64 MB", "cut it into several files, in folders of your own choosing");
    source::ReadResult read = files.read(full);
    if (!read.ok()) return fail("file-unreadable"_rule, "this file cannot be read: " + read.error, "look at its name and permissions");
    return std::move(read.bytes);
  };
  if (found.hasGuideFile) {
    if (auto text = readText("guide.yaml")) addShares(guide, "guide.yaml", std::move(*text), true, shares, findings);
  }
  for (const std::string& path : found.records)
    if (auto text = readText(path)) addShares(guide, path, std::move(*text), false, shares, findings);
  for (const std::string& path : found.prose) {
    auto text = readText(path);
    if (!text) continue;
    const bool clean = base::firstInvalidUtf8(*text) == std::string_view::npos && !hasControls(*text);
    const source::FileId file = guide.sources.add(path, std::move(*text));
    const std::string_view kept = guide.sources.text(file);
    if (!clean) {
      if (auto fault = textFault(kept, file, 0, static_cast<std::uint32_t>(kept.size()))) findings.add(std::move(*fault));
      continue;
    }
    guide.prose.push_back({file, path});
  }
  const unsigned threads = options.threads != 0 ? options.threads : std::max(1u, std::thread::hardware_concurrency());
  readShares(shares, guide.sources, guide.keep, threads);
  gather(guide, shares, findings);
  return guide;
}

void readRecords(records::ReadGuide& guide, std::string path, std::string text, diagnostics::Findings& findings) {
  std::vector<Share> shares;
  const bool guideFile = path == "guide.yaml";
  addShares(guide, std::move(path), std::move(text), guideFile, shares, findings);
  readShares(shares, guide.sources, guide.keep, 1);
  gather(guide, shares, findings);
}

}  // namespace saggar::reading
