#include "commands/print_faults.h"

#include <algorithm>
#include <charconv>

#include "base/text.h"
#include "base/utf8.h"
#include "compose/help_sheet.h"

namespace saggar::commands {

using linking::RecordIndex;

namespace {

// "U+1F600" as the sign itself.
std::string asUtf8(std::string_view name) {
  std::string out;
  std::uint32_t code = 0;
  if (!name.starts_with("U+")) return out;
  const auto [end, error] = std::from_chars(name.data() + 2, name.data() + name.size(), code, 16);
  if (error == std::errc() && code <= 0x10FFFF) base::appendUtf8(out, code);
  return out;
}

}  // namespace

void PrintFaults::fontMissing(RecordIndex checklist, const std::string& layout, const std::string& wanted,
                              const std::string& used) {
  const std::lock_guard guard(lock_);
  Fault& fault = fonts_[wanted];
  if (fault.checklists.empty() || checklist < *fault.checklists.begin()) {
    fault.layout = layout;
    fault.used = used;
  }
  fault.checklists.insert(checklist);
}

void PrintFaults::signMissing(RecordIndex checklist, const std::string& layout, const std::string& sign,
                              std::size_t words, const std::vector<RecordIndex>& records) {
  const source::Span span = placeOfSign(sign, records);
  const std::lock_guard guard(lock_);
  Fault& fault = signs_[sign];
  if (fault.checklists.empty() || checklist < *fault.checklists.begin()) {
    fault.layout = layout;
    fault.span = span;
  }
  fault.checklists.insert(checklist);
  fault.words += words;
}

source::Span PrintFaults::placeOfLayoutName(RecordIndex checklist) const {
  if (checklist != records::kNoRecord) {
    const records::Record& record = guide_.collection[checklist];
    if (const records::Value* own = record.find("layout"_f); own != nullptr && own->said())
      return record.span(own->place);
  }
  if (const records::Record* guide = guide_.collection.guide())
    if (const records::Value* settings = guide->find("settings"_f))
      if (const records::Value* named = settings->find("layout"_f); named != nullptr && named->said())
        return guide->span(named->place);
  return checklist == records::kNoRecord ? source::Span{} : guide_.collection[checklist].span();
}

source::Span PrintFaults::placeOfFont(const std::string& wanted, const Fault& fault) const {
  for (const records::LayoutFile& own : guide_.collection.read().layouts) {
    if (own.name != fault.layout || own.unreadable) continue;
    const std::string_view text = guide_.collection.sources().text(own.file);
    if (const std::size_t at = text.find('"' + wanted + '"'); at != std::string_view::npos)
      return {own.file, static_cast<std::uint32_t>(at + 1),
              static_cast<std::uint32_t>(at + 1 + wanted.size())};
  }
  return placeOfLayoutName(*fault.checklists.begin());
}

source::Span PrintFaults::placeOfSign(const std::string& sign,
                                      const std::vector<RecordIndex>& records) const {
  const std::string typed = asUtf8(sign);
  if (typed.empty()) return {};
  for (RecordIndex index : records) {
    const records::Record& record = guide_.collection[index];
    const std::string_view text = guide_.collection.sources().text(record.file);
    const std::size_t end = std::min<std::size_t>(record.place.end, text.size());
    if (record.place.begin >= end) continue;
    const std::size_t at = text.substr(record.place.begin, end - record.place.begin).find(typed);
    if (at == std::string_view::npos) continue;
    const auto begin = static_cast<std::uint32_t>(record.place.begin + at);
    return {record.file, begin, begin + static_cast<std::uint32_t>(typed.size())};
  }
  return {};
}

std::vector<std::string> PrintFaults::references(const Fault& fault) const {
  std::vector<std::string> out;
  for (RecordIndex one : fault.checklists)
    if (one != records::kNoRecord) out.push_back(guide_.collection[one].reference());
  return out;
}

std::string PrintFaults::firstOf(const Fault& fault) const {
  const RecordIndex first = *fault.checklists.begin();
  return first == records::kNoRecord ? std::string() : guide_.collection[first].reference();
}

std::string PrintFaults::sheetsInWords(const Fault& fault) const {
  std::vector<std::string> names = references(fault);
  if (fault.checklists.contains(records::kNoRecord))
    names.push_back("the sheet `" + std::string(compose::kHelpSheet) + "`");
  return base::listedInWords(names);
}

diagnostics::Findings PrintFaults::findings() const {
  diagnostics::Findings out;
  for (const auto& [wanted, fault] : fonts_) {
    const std::string used =
        fault.used.empty() ? ", and no other could be used" : ", and `" + fault.used + "` was used";
    out.add({.rule = "font-missing"_rule,
             .span = placeOfFont(wanted, fault),
             .message = "the layout `" + fault.layout + "` names the font file `" + wanted +
                        "`, which is not there" + used,
             .hint = "put the file into the guide's `fonts/`, install its package, or name another font in a "
                     "layout of your own",
             .record = firstOf(fault),
             .field = "layout",
             .records = references(fault)});
  }
  for (const auto& [sign, fault] : signs_) {
    out.add({.rule = "sign-missing"_rule,
             .span = fault.span.known() ? fault.span : placeOfLayoutName(*fault.checklists.begin()),
             .message = "no font of the layout `" + fault.layout + "` has the sign " + sign +
                        ": a box is printed in its place, in " + base::counted(fault.words, "word") + " of " +
                        sheetsInWords(fault),
             .hint = "write it another way, or put a font that has it into `fonts/` and name it as "
                     "`fallback` in a layout of your own",
             .record = firstOf(fault),
             .field = {},
             .records = references(fault)});
  }
  return out;
}

}  // namespace saggar::commands
