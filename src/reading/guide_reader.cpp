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
constexpr std::size_t kRunBytes = 16 * 1024;
constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

// What one thread needs and what its records' views point to.
struct Workshop {
  base::Arena kept;
  base::Arena scratch;
  DatePool dates;
};

bool isUnfitControl(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return (byte < 0x20 && byte != '\t' && byte != '\n' && byte != '\r') || byte == 0x7F;
}

// UTF-8 without control characters but tabs and line ends, and with no byte order mark but at its start.
bool isPlain(std::string_view text) {
  unsigned bad = 0;
  for (char c : text) bad |= static_cast<unsigned>(isUnfitControl(c));
  return bad == 0 && base::firstInvalidUtf8(text) == std::string_view::npos &&
         text.find(kByteOrderMark, 1) == std::string_view::npos;
}

// The first place of a text that is not plain.
struct TextFault {
  std::size_t at = 0;
  bool encoding =
      false;  // it was saved in another encoding; else a character stands there that does not belong
  std::string message;
};

std::optional<TextFault> textFault(std::string_view text, bool atStart) {
  const std::size_t invalid = base::firstInvalidUtf8(text);
  const auto control =
      static_cast<std::size_t>(std::find_if(text.begin(), text.end(), isUnfitControl) - text.begin());
  const std::size_t mark = text.find(kByteOrderMark, atStart ? 1 : 0);
  const std::size_t first = std::min({invalid, control, mark});
  if (first >= text.size()) return std::nullopt;
  if (first == invalid)
    return TextFault{first, true, "this is not UTF-8: the file was saved in another encoding"};
  if (first == mark) return TextFault{first, false, "a byte order mark stands here, inside the text"};
  return TextFault{first, false,
                   text[first] == '\0' ? "a NUL byte stands here" : "a control character stands here"};
}

diagnostics::Finding unfitText(source::FileId file, std::size_t begin, const TextFault& fault) {
  const auto at = static_cast<std::uint32_t>(begin + fault.at);
  return {.rule = "text-unfit"_rule,
          .span = {file, at, at + 1},
          .message = fault.message,
          .hint = fault.encoding ? "save the file as UTF-8 (in your editor: save with encoding, UTF-8)"
                                 : "take it out: type the line anew"};
}

// UTF-16 and UTF-32 with their mark, or with a NUL in every other byte.
bool isWideText(std::string_view text) {
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF")) return true;
  const std::string_view head = text.substr(0, 512);
  return head.size() >= 4 &&
         static_cast<std::size_t>(std::count(head.begin(), head.end(), '\0')) * 5 >= head.size() * 2;
}

// A run of pieces of one file, read by one thread; its results are put together in order.
struct Share {
  source::FileId file = source::kNoFile;
  bool guideFile = false;
  std::vector<CutPiece> pieces;
  std::vector<std::uint32_t> unfit;  // where pieces begin that are not plain UTF-8: their findings are made
  std::vector<Record> records;
  std::vector<std::string_view> lostIds;
  diagnostics::Findings findings;
};

// Reads one share with one thread's tools.
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
                                      return one.rule == "yaml-broken"_rule || one.rule == "quote-open"_rule;
                                    });
    if (tree.broken) return keepStub(piece);
    if (tree.root == nullptr) return;  // comments only
    if (tree.root->type == NodeType::sequence && !share_.guideFile) {
      for (const Node* node = tree.root->first; node != nullptr; node = node->next)
        readRecord(*node, cut.cutShort, before);
    } else {
      readRecord(*tree.root, cut.cutShort, before);
    }
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
      ShareReader(shares[i], sources, shop).run();
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
