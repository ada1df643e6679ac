#include "commands/set_checklist.h"

#include <memory>
#include <optional>

#include "base/text.h"
#include "compose/checklist.h"
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

}  // namespace

SetChecklist setChecklist(const Environment& environment, const Guide& guide, RecordIndex checklist,
                          PrintFaults& faults, const std::function<void(std::string_view)>& take) {
  SetChecklist out;
  const std::string id(guide.collection[checklist].id);
  std::string name = compose::layoutNameOf(*guide.materials, checklist);
  std::optional<layout::PageLayout> layout = layoutNamed(guide, name);
  if (!layout) layout = layoutNamed(guide, name = kBuiltIn);
  if (!layout) {
    out.error = "the program's own layout cannot be read";
    out.hint = "build the program anew";
    return out;
  }
  render::FontBook fonts(
      {{&environment.files, source::pathJoined(guide.folder, "fonts")}, {&environment.files, kMachineFonts}});
  std::unique_ptr<render::PdfWriter> writer;
  compose::composeChecklist(*guide.materials, checklist,
                            {.begin =
                                 [&](const compose::ChecklistHead& head) {
                                   writer =
                                       std::make_unique<render::PdfWriter>(head.document, *layout, fonts);
                                   for (const document::Block& block : head.document.blocks)
                                     writer->add(block);
                                   if (head.hasRows) writer->beginTable(head.columns);
                                 },
                             .row = [&](document::Row row) { writer->addRow(row); }},
                            out.madeFrom);
  const render::PdfResult made = writer->finish(take);
  for (const render::FontSubstitution& one : fonts.substitutions())
    faults.fontMissing(checklist, name, one.wanted, one.used);
  using NoticeKind = render::PdfNotice::Kind;
  for (const render::PdfNotice& one : made.notices) {
    if (one.kind == NoticeKind::characterMissing)
      faults.signMissing(checklist, name, one.what, one.count, out.madeFrom);
    if (one.kind == NoticeKind::hyphenationMissing)
      out.notices.push_back("there are no hyphenation patterns for `" + one.what +
                            "`: lines of the checklists break between words only");
    if (one.kind == NoticeKind::linkLeftOut)
      out.notices.push_back("the checklist `" + id + "` is paper: " + base::counted(one.count, "link") +
                            " in it " + (one.count == 1 ? "is" : "are") + " printed as words");
  }
  if (!made.ok()) {
    out.error = "the checklist `" + id + "` could not be set: " + made.error;
    out.hint = "look at its layout, and at the fonts that the README names";
    return out;
  }
  return out;
}

}  // namespace saggar::commands
