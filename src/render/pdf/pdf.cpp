#include "render/pdf/pdf.h"

#include <algorithm>
#include <exception>
#include <new>
#include <stdexcept>
#include <unordered_map>
#include <utility>

#include <fmt/format.h>

#include "base/text.h"
#include "layout/built_in.h"
#include "render/pdf/blocks.h"
#include "render/pdf/deflate.h"
#include "render/pdf/embedded_font.h"
#include "render/pdf/flow.h"
#include "render/pdf/furniture.h"
#include "render/pdf/haru.h"
#include "render/pdf/operators.h"

// The order of things: text is set and poured into pages while it comes; only when the last page is full are
// the number of pages, the used glyphs and the places of all anchors known, and the file is put together from
// what was kept.
namespace saggar::render {
namespace {

using Kind = PdfNotice::Kind;

void mix(std::uint64_t& hash, std::string_view bytes) {
  std::size_t at = 0;
  for (; at + 8 <= bytes.size(); at += 8) {
    std::uint64_t eight = 0;
    for (std::size_t i = 0; i < 8; ++i)
      eight |= static_cast<std::uint64_t>(static_cast<unsigned char>(bytes[at + i])) << (8 * i);
    hash = (hash ^ eight) * 1099511628211ULL;
    hash ^= hash >> 29;
  }
  for (; at < bytes.size(); ++at) hash = (hash ^ static_cast<unsigned char>(bytes[at])) * 1099511628211ULL;
}

std::string languageOf(const document::Document& head) {
  std::string out;
  for (const char c : head.language.substr(0, 35))
    if ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-') out += c;
  return out.empty() ? "en" : out;
}

// A URI as PDF wants it: ASCII, in round brackets.
std::string uriString(const std::string& address) {
  std::string out = "(";
  for (const char c : address) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte <= 0x20 || byte >= 0x7F)
      out += fmt::format("%{:02X}", byte);
    else if (c == '(' || c == ')' || c == '\\')
      (out += '\\') += c;
    else
      out += c;
  }
  return out + ")";
}

std::string destination(Haru::Id page, double left, double top) {
  std::string out = "[" + referenceTo(page) + " /XYZ ";
  appendNumber(out, left);
  out += ' ';
  appendNumber(out, top);
  return out + " null]";
}

}  // namespace

struct PdfWriter::State {
  document::Document head;
  const layout::PageLayout& layout;
  FontSet fonts;
  Hyphenator hyphenator;
  Shared shared;
  TextSetter texts;
  Deflater deflater;
  Flow flow;
  BlockSetter blocks;

  State(const document::Document& document, const layout::PageLayout& pageLayout, FontBook& book)
      : head{document.file,
             document.title,
             document.language,
             document.authors,
             document.edition,
             document.draft,
             {}},
        layout(pageLayout),
        fonts(pageLayout, book, languageOf(document)),
        hyphenator(source::DiskFiles(), languageOf(document),
                   layout::builtInLayout("trade-words.txt").value_or(""), pageLayout.hyphenation,
                   pageLayout.breaking.hyphenLeft, pageLayout.breaking.hyphenRight),
        texts(fonts, pageLayout, hyphenator, shared),
        flow(pageLayout, deflater),
        blocks(pageLayout, texts, shared, [this](Slab&& slab) { flow.add(std::move(slab)); }) {
    shared.file = document.file;
  }

  // Between blocks and rows no shaped word is in use.
  void rest() { fonts.trim(); }

  PdfResult assembled(const std::function<void(std::string_view)>& take);
  std::string fileId(const std::vector<std::string>& bodies) const;
  void addOutline(Haru& file, const std::vector<Haru::Id>& pages, std::string& catalogue) const;
  void addLinks(Haru& file, const std::vector<Haru::Id>& pages, std::vector<PdfNotice>& notices) const;
};

void PdfWriter::State::addOutline(Haru& file, const std::vector<Haru::Id>& pages,
                                  std::string& catalogue) const {
  const auto& marks = flow.outline();
  if (marks.empty()) return;
  struct Item {
    Haru::Id id = 0;
    std::size_t parent = 0, previous = 0, next = 0, first = 0, last = 0,
                count = 0;  // indices from 1; 0: none
  };
  // Item 0 is the root. An item hangs under the last one of a lower level.
  std::vector<Item> items(marks.size() + 1);
  std::vector<std::size_t> open = {0};
  std::vector<int> levels = {0};
  for (std::size_t i = 0; i < items.size(); ++i) items[i].id = file.reserve();
  for (std::size_t i = 1; i < items.size(); ++i) {
    const int level = std::max(marks[i - 1].mark.level, 1);
    while (levels.back() >= level) {
      levels.pop_back();
      open.pop_back();
    }
    Item& parent = items[open.back()];
    items[i].parent = open.back();
    items[i].previous = parent.last;
    if (parent.last != 0)
      items[parent.last].next = i;
    else
      parent.first = i;
    parent.last = i;
    ++parent.count;
    open.push_back(i);
    levels.push_back(level);
  }
  auto link = [&](std::string& out, const char* key, std::size_t item) {
    if (item != 0) out += fmt::format("/{} {}\n", key, referenceTo(items[item].id));
  };
  for (std::size_t i = 0; i < items.size(); ++i) {
    std::string out;
    if (i == 0) {
      out = fmt::format("/Type /Outlines\n/Count {}\n", items[0].count);
    } else {
      const PlacedOutline& mark = marks[i - 1];
      out = "/Title " + textString(base::shortened(mark.mark.words, 200)) + "\n/Dest " +
            destination(pages[mark.page], layout.left, mark.top) + "\n/Parent " +
            referenceTo(items[items[i].parent].id) + "\n";
      if (items[i].count > 0) out += fmt::format("/Count -{}\n", items[i].count);  // closed at first
      link(out, "Prev", items[i].previous);
      link(out, "Next", items[i].next);
    }
    link(out, "First", items[i].first);
    link(out, "Last", items[i].last);
    file.write(items[i].id, std::move(out));
  }
  catalogue += "/Outlines " + referenceTo(items[0].id) + "\n";
  if (marks.size() > 1) catalogue += "/PageMode /UseOutlines\n";
}

void PdfWriter::State::addLinks(Haru& file, const std::vector<Haru::Id>& pages,
                                std::vector<PdfNotice>& notices) const {
  if (shared.targets.empty()) return;
  std::unordered_map<std::string_view, const PlacedAnchor*> anchors;
  for (const PlacedAnchor& one : flow.anchors()) anchors.try_emplace(one.name, &one);
  std::vector<std::string_view> reported;
  for (std::size_t i = 0; i < flow.pages().size(); ++i) {
    std::vector<Haru::Id> onPage;
    for (const PlacedLink& link : flow.pages()[i].links) {
      const document::Target& target = shared.targets[link.target];
      std::string entries = "/Type /Annot\n/Subtype /Link\n/Border [0 0 0]\n/Rect [";
      for (const double value : {link.left, link.bottom, link.right, link.top}) {
        appendNumber(entries, value);
        entries += ' ';
      }
      entries.back() = ']';
      if (!target.address.empty()) {
        entries += "\n/A <</Type /Action /S /URI /URI " + uriString(target.address) + ">>\n";
      } else if (target.anchor.empty()) {
        entries += "\n/Dest " + destination(pages[0], 0, layout.pageHeight()) + "\n";
      } else if (const auto found = anchors.find(target.anchor); found != anchors.end()) {
        entries +=
            "\n/Dest " + destination(pages[found->second->page], layout.left, found->second->top) + "\n";
      } else {
        if (std::find(reported.begin(), reported.end(), target.anchor) == reported.end()) {
          reported.push_back(target.anchor);
          notices.push_back({Kind::anchorMissing, target.anchor, 1});
        }
        continue;
      }
      onPage.push_back(file.add(std::move(entries)));
    }
    if (!onPage.empty()) file.annotate(pages[i], onPage);
  }
}

// Sixteen bytes that differ when the content differs, and never else.
std::string PdfWriter::State::fileId(const std::vector<std::string>& bodies) const {
  std::uint64_t halves[2] = {14695981039346656037ULL, 0x9E3779B97F4A7C15ULL};
  std::string id;
  for (std::uint64_t& half : halves) {
    mix(half, head.title + '\n' + head.edition + '\n' + languageOf(head));
    for (const std::string& body : bodies) mix(half, body);
    for (int shift = 56; shift >= 0; shift -= 8) id += static_cast<char>(half >> shift & 0xFF);
  }
  return id;
}

PdfResult PdfWriter::State::assembled(const std::function<void(std::string_view)>& take) {
  PdfResult out;
  blocks.finish();
  flow.finish();
  std::vector<std::string> bodies = deflater.finish();
  const std::size_t count = bodies.size();

  Haru file;
  file.fileId(fileId(bodies));
  const Haru::Id resources = file.reserve();
  Furniture furniture(layout, fonts, texts, head, count);
  std::vector<Haru::Id> pages;
  pages.reserve(count);
  for (std::size_t i = 0; i < count; ++i) {
    std::string front = furniture.draw(flow.pages()[i], i);
    std::string small = deflated(front);
    const bool worth = small.size() + 24 < front.size();
    const Haru::Id body = file.addStream(std::exchange(bodies[i], {}), true);
    pages.push_back(file.addPage(layout.pageWidth(), layout.pageHeight(), std::move(worth ? small : front),
                                 worth, body, resources));
    rest();
  }
  std::string used = "/Font <<";
  for (const UsedFont& font : fonts.fonts())
    if (!font.glyphs().empty())
      used += fmt::format("/F{} {} ", font.number(), referenceTo(embed(file, font)));
  file.write(resources, used + ">>\n");

  std::string catalogue = "/Lang (" + languageOf(head) + ")\n/ViewerPreferences <</DisplayDocTitle true>>\n";
  addOutline(file, pages, catalogue);
  for (const auto& [character, times] : fonts.missing())
    out.notices.push_back(
        {Kind::characterMissing, fmt::format("U+{:04X}", static_cast<std::uint32_t>(character)), times});
  if (!hyphenator.hasPatterns()) out.notices.push_back({Kind::hyphenationMissing, languageOf(head), 1});
  if (shared.linksLeftOut > 0) out.notices.push_back({Kind::linkLeftOut, {}, shared.linksLeftOut});
  addLinks(file, pages, out.notices);
  for (const std::string& picture : blocks.picturesLeftOut())
    out.notices.push_back({Kind::pictureLeftOut, picture, 1});
  file.catalogue(std::move(catalogue));

  std::string information = "/Title " + textString(head.title) + "\n/Creator " + textString("Saggar") + "\n";
  if (!head.authors.empty()) information += "/Author " + textString(base::listedInWords(head.authors)) + "\n";
  if (!head.edition.empty()) information += "/Subject " + textString(head.edition) + "\n";
  file.information(std::move(information));
  file.plainPageLabels();
  file.save(take);
  out.pages = count;
  return out;
}

template <class Work>
void PdfWriter::guarded(Work&& work) {
  if (!error_.empty()) return;
  try {
    work();
  } catch (const HaruError& error) {
    error_ = error.inWords();
  } catch (const std::bad_alloc&) {
    error_ = "there is not enough memory for the PDF file";
  } catch (const std::exception& error) {
    error_ = error.what();
  }
}

PdfWriter::PdfWriter(const document::Document& head, const layout::PageLayout& layout, FontBook& fonts) {
  guarded([&] {
    const auto unfit = layout::whatIsUnfit(layout);
    if (!unfit.empty()) throw std::runtime_error("the layout cannot be used: " + unfit.front());
    state_ = std::make_unique<State>(head, layout, fonts);
  });
}

PdfWriter::~PdfWriter() = default;

void PdfWriter::add(const document::Block& block) {
  guarded([&] {
    state_->rest();
    state_->blocks.add(block);
  });
}

void PdfWriter::beginTable(const document::Table& head) {
  guarded([&] { state_->blocks.beginTable(head); });
}

void PdfWriter::addRow(const document::Row& row) {
  guarded([&] {
    state_->rest();
    state_->blocks.addRow(row);
  });
}

PdfResult PdfWriter::finish() {
  std::string bytes;
  PdfResult out = finish([&](std::string_view piece) { bytes += piece; });
  if (out.ok()) out.bytes = std::move(bytes);
  return out;
}

PdfResult PdfWriter::finish(const std::function<void(std::string_view)>& take) {
  PdfResult out;
  guarded([&] { out = state_->assembled(take); });
  if (!error_.empty()) {
    out = {};
    out.error = error_;
  }
  return out;
}

PdfResult renderPdf(const document::Document& document, const layout::PageLayout& layout, FontBook& fonts) {
  PdfWriter writer(document, layout, fonts);
  for (const document::Block& block : document.blocks) writer.add(block);
  return writer.finish();
}

}  // namespace saggar::render
