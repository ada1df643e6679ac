#include "reading/guide_reader.h"

#include <algorithm>
#include <atomic>
#include <memory>
#include <thread>

#include "base/text.h"
#include "reading/folder.h"
#include "reading/share.h"
#include "reading/text_fault.h"

namespace saggar::reading {
namespace {

using records::Record;

constexpr std::size_t kLargestFile = 64u * 1024 * 1024;
constexpr std::size_t kShareBytes = 256 * 1024;

void readShares(std::vector<Share>& shares, const source::SourceSet& sources,
                std::vector<std::shared_ptr<void>>& keep, unsigned threads,
                const std::function<void(std::size_t, std::size_t)>& progress) {
  std::atomic<std::size_t> next{0};
  std::size_t told = 0;
  auto tell = [&](std::size_t done) {
    while (progress && told < done) progress(++told, shares.size());
  };
  auto work = [&](Workshop& shop, bool tells) {
    for (std::size_t i = next++; i < shares.size(); i = next++) {
      if (tells) tell(i);
      readShare(shares[i], sources, shop);
    }
  };
  std::vector<std::shared_ptr<Workshop>> shops;
  threads =
      static_cast<unsigned>(std::clamp<std::size_t>(std::min<std::size_t>(threads, shares.size()), 1, 16));
  for (unsigned i = 0; i < threads; ++i) shops.push_back(std::make_shared<Workshop>());
  std::vector<std::thread> others;
  for (unsigned i = 1; i < threads; ++i) others.emplace_back([&, i] { work(*shops[i], false); });
  work(*shops[0], true);
  for (std::thread& one : others) one.join();
  tell(shares.size());
  for (auto& shop : shops) {
    shop->scratch = base::Arena();
    keep.push_back(std::move(shop));
  }
}

// Notes which pieces cannot be read because of their letters. A file in another encoding is one mistake, however many
// records it touches; other characters that do not belong are told record by record.
std::vector<std::uint32_t> findUnfit(std::string_view text, source::FileId file,
                                     const std::vector<CutPiece>& pieces, diagnostics::Findings& findings) {
  std::vector<std::uint32_t> unfit;
  std::optional<std::size_t> encoding;  // the finding about it
  std::size_t touched = 0;
  for (const CutPiece& piece : pieces) {
    const auto fault = textFault(text.substr(piece.begin, piece.end - piece.begin), false);
    if (!fault) continue;
    unfit.push_back(piece.begin);
    touched += fault->encoding;
    if (fault->encoding && encoding) continue;
    if (fault->encoding) encoding = findings.all().size();
    findings.add(unfitText(file, piece.begin, *fault));
  }
  if (touched > 1)
    findings.all()[*encoding].message +=
        "; it touches " + base::counted(touched, "record") + " of the file, and they are not read";
  return unfit;
}

// Adds a text and what it is to be read as.
void addShares(records::ReadGuide& guide, std::string path, std::string text, bool guideFile,
               std::vector<Share>& shares, diagnostics::Findings& findings) {
  if (isWideText(text)) {
    const source::FileId file = guide.sources.add(std::move(path), "");
    findings.add({.rule = "text-unfit"_rule,
                  .span = {file, 0, 0},
                  .message = "this file is not UTF-8 but UTF-16 or the like, and nothing in it can be read",
                  .hint = "save the file as UTF-8 (in your editor: save with encoding, UTF-8)"});
    guide.lostFiles = true;
    return;
  }
  const source::FileId file = guide.sources.add(std::move(path), std::move(text));
  const std::string_view kept = guide.sources.text(file);
  const auto begin = static_cast<std::uint32_t>(kept.starts_with(kByteOrderMark) ? kByteOrderMark.size() : 0);
  std::vector<CutPiece> pieces;
  if (guideFile) {
    pieces.push_back({begin, static_cast<std::uint32_t>(kept.size()), PieceType::whole, false, false});
  } else {
    pieces = cutIntoPieces(kept);
  }
  std::vector<std::uint32_t> unfit;
  if (!isPlain(kept)) unfit = findUnfit(kept, file, pieces, findings);
  for (std::size_t i = 0; i < pieces.size();) {
    Share& share = shares.emplace_back();
    share.file = file;
    share.guideFile = guideFile;
    share.unfit = unfit;
    for (std::size_t bytes = 0; i < pieces.size() && bytes < kShareBytes; ++i) {
      share.pieces.push_back(pieces[i]);
      bytes += pieces[i].end - pieces[i].begin;
    }
  }
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

records::ReadGuide readGuide(const source::Files& files, const std::string& folder,
                             diagnostics::Findings& findings, const ReadOptions& options) {
  records::ReadGuide guide;
  guide.folder = folder;
  FoundFiles found = findFiles(files, folder, guide.sources, findings);
  guide.lostFiles = found.lost;
  auto readText = [&](const std::string& path) -> std::optional<std::string> {
    const std::string full = source::pathJoined(folder, path);
    auto fail = [&](diagnostics::Rule rule, std::string message, std::string hint) {
      const source::FileId file = guide.sources.add(path, "");
      findings.add(
          {.rule = rule, .span = {file, 0, 0}, .message = std::move(message), .hint = std::move(hint)});
      return std::nullopt;
    };
    if (files.status(full).size > kLargestFile)
      return fail("yaml-too-big"_rule, "this file is larger than 64 MB",
                  "cut it into several files, in folders of your own choosing");
    source::ReadResult read = files.read(full);
    if (!read.ok())
      return fail("file-unreadable"_rule, "this file cannot be read: " + read.error,
                  "look at its name and permissions");
    return std::move(read.bytes);
  };
  std::vector<Share> shares;
  auto addRecords = [&](const std::string& path) {
    auto text = readText(path);
    if (text) {
      addShares(guide, path, std::move(*text), path == "guide.yaml", shares, findings);
    } else {
      guide.lostFiles = true;
    }
  };
  if (found.hasGuideFile) addRecords("guide.yaml");
  for (const std::string& path : found.records) addRecords(path);
  for (const std::string& path : found.prose) {
    auto text = readText(path);
    if (!text) continue;
    const source::FileId file = guide.sources.add(path, std::move(*text));
    const auto fault = textFault(guide.sources.text(file), true);
    if (fault) {
      findings.add(unfitText(file, 0, *fault));
    } else {
      guide.prose.push_back({file, path});
    }
  }
  for (const std::string& path : found.layouts) {
    const std::size_t begin = path.rfind('/') + 1;
    records::LayoutFile layout{
        .name = path.substr(begin, path.size() - begin - 4), .file = {}, .unreadable = true};
    if (auto text = readText(path)) {
      layout.file = guide.sources.add(path, std::move(*text));
      const auto fault = textFault(guide.sources.text(layout.file), true);
      layout.unreadable = fault.has_value();
      if (fault) findings.add(unfitText(layout.file, 0, *fault));
    }
    guide.layouts.push_back(std::move(layout));
  }
  const unsigned threads =
      options.threads != 0 ? options.threads : std::max(1u, std::thread::hardware_concurrency());
  readShares(shares, guide.sources, guide.keep, threads, options.progress);
  gather(guide, shares, findings);
  return guide;
}

void readRecords(records::ReadGuide& guide, std::string path, std::string text,
                 diagnostics::Findings& findings) {
  std::vector<Share> shares;
  const bool guideFile = path == "guide.yaml";
  addShares(guide, std::move(path), std::move(text), guideFile, shares, findings);
  readShares(shares, guide.sources, guide.keep, 1, {});
  gather(guide, shares, findings);
}

}  // namespace saggar::reading
