#include "commands/set_checklist.h"

#include <memory>
#include <optional>

#include "base/text.h"
#include "compose/checklist.h"
#include "compose/help_sheet.h"
#include "layout/built_in.h"
#include "reading/layout_xml.h"
#include "render/pdf/pdf.h"

namespace saggar::commands {

using linking::RecordIndex;

namespace {

constexpr const char* kBuiltIn = "checklist";
constexpr const char* kMachineFonts = "/usr/share/fonts";

// The guide's own layout of that name goes before the built-in one.
std::optional<layout::PageLayout> layoutNamed(const Guide& guide, const std::string& name) {
  for (const records::LayoutFile& own : guide.collection.read().layouts)
    if (own.name == name && !own.unreadable)
      return reading::readLayout(own.file, guide.collection.sources().text(own.file)).layout;
  const auto text = layout::builtInLayout(name);
  return text ? reading::readLayout(source::kNoFile, *text).layout : std::nullopt;
}

using Compose = std::function<void(const compose::ChecklistSink&, std::vector<RecordIndex>&)>;

// `checklist` is kNoRecord for the sheet that is none; `called` is what the author is told it is.
SetChecklist setSheet(const Environment& environment, const Guide& guide, RecordIndex checklist,
                      const std::string& called, std::string layoutName, PrintFaults& faults,
                      const std::function<void(std::string_view)>& take, const Compose& composeSheet) {
  SetChecklist out;
  std::optional<layout::PageLayout> layout = layoutNamed(guide, layoutName);
  if (!layout) layout = layoutNamed(guide, layoutName = kBuiltIn);
  if (!layout) {
    out.error = "the program's own layout cannot be read";
    out.hint = "build the program anew";
    return out;
  }
  render::FontBook fonts(
      {{&environment.files, source::pathJoined(guide.folder, "fonts")}, {&environment.files, kMachineFonts}});
  std::unique_ptr<render::PdfWriter> writer;
  composeSheet({.begin =
                    [&](const compose::ChecklistHead& head) {
                      writer = std::make_unique<render::PdfWriter>(head.document, *layout, fonts);
                      for (const document::Block& block : head.document.blocks) writer->add(block);
                      if (head.hasRows) writer->beginTable(head.columns);
                    },
                .row = [&](document::Row row) { writer->addRow(row); }},
               out.madeFrom);
  if (writer == nullptr) return out;
  const render::PdfResult made = writer->finish(take);
  for (const render::FontSubstitution& one : fonts.substitutions())
    faults.fontMissing(checklist, layoutName, one.wanted, one.used);
  using NoticeKind = render::PdfNotice::Kind;
  for (const render::PdfNotice& one : made.notices) {
    if (one.kind == NoticeKind::characterMissing)
      faults.signMissing(checklist, layoutName, one.what, one.count, out.madeFrom);
    if (one.kind == NoticeKind::hyphenationMissing)
      out.notices.push_back("there are no hyphenation patterns for `" + one.what +
                            "`: lines of the checklists break between words only");
    if (one.kind == NoticeKind::linkLeftOut)
      out.notices.push_back("the " + called + " is paper: " + base::counted(one.count, "link") + " in it " +
                            (one.count == 1 ? "is" : "are") + " printed as words");
  }
  if (!made.ok()) {
    out.error = "the " + called + " could not be set: " + made.error;
    out.hint = "look at its layout, and at the fonts that the README names";
  }
  return out;
}

}  // namespace

SetChecklist setChecklist(const Environment& environment, const Guide& guide, RecordIndex checklist,
                          PrintFaults& faults, const std::function<void(std::string_view)>& take) {
  return setSheet(environment, guide, checklist,
                  "checklist `" + std::string(guide.collection[checklist].id) + "`",
                  compose::layoutNameOf(*guide.materials, checklist), faults, take,
                  [&](const compose::ChecklistSink& sink, std::vector<RecordIndex>& madeFrom) {
                    compose::composeChecklist(*guide.materials, checklist, sink, madeFrom);
                  });
}

SetChecklist setHelpSheet(const Environment& environment, const Guide& guide, PrintFaults& faults,
                          const std::function<void(std::string_view)>& take) {
  return setSheet(environment, guide, records::kNoRecord, "sheet `" + std::string(compose::kHelpSheet) + "`",
                  guide.collection.settings().layout, faults, take,
                  [&](const compose::ChecklistSink& sink, std::vector<RecordIndex>& madeFrom) {
                    compose::composeHelpSheet(*guide.materials, sink, madeFrom);
                  });
}

}  // namespace saggar::commands
