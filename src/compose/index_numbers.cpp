#include <algorithm>
#include <memory>

#include "compose/index.h"
#include "compose/numbers.h"

// The numbers of the index, by prefix and value.
namespace saggar::compose {

using document::text;
using records::Value;

namespace {

struct Number {
  std::string_view code;
  RecordIndex record;
};

// "Copper Pantry on Jessamount"
std::string whatOf(const Page& page, RecordIndex treatment) {
  const PublishedRecord record = page.record(treatment);
  if (const std::string_view own = record.text("name"_f); !own.empty()) return std::string(own);
  const Value* motif = record.find("motif"_f);
  const Value* shape = record.find("shape"_f);
  std::string words = motif == nullptr                          ? "motif not recorded"
                      : motif->type == records::ValueType::none ? "no motif"
                      : motif->target() != records::kNoRecord   ? page.words().plainName(motif->target())
                                                                : "motif not known";
  if (shape != nullptr && shape->said())
    words += (words == "no motif" ? ", on " : " on ") +
             page.words().plainValue(shape, records::specOf(Kind::treatment, "shape"_f), record);
  return words;
}

// One line a number, with everything that bears it, under its prefix in bold.
Blocks lines(const Page& page, std::span<const Number> numbers) {
  Blocks out;
  std::vector<Blocks> items;
  std::string_view prefix;
  auto flush = [&] {
    if (items.empty()) return;
    out.push_back(document::paragraph(
        {document::strong({text(prefix.empty() ? std::string("Without a prefix") : std::string(prefix))})}));
    out.push_back(document::list(std::move(items)));
    items.clear();
  };
  for (std::size_t i = 0; i < numbers.size();) {
    const std::string_view code = numbers[i].code;
    if (prefixOf(code) != prefix) {
      flush();
      prefix = prefixOf(code);
    }
    Inlines words;
    put(words, code);
    put(words, ", ");
    std::vector<Inlines> holders;
    for (; i < numbers.size() && numbers[i].code == code; ++i)
      holders.push_back(page.words().linked(numbers[i].record, {text(whatOf(page, numbers[i].record))}));
    put(words, separated(std::move(holders), "; "));
    items.push_back(item(std::move(words)));
  }
  flush();
  return out;
}

}  // namespace

void indexNumbers(Page& page, Blocks& out) {
  std::vector<Number> all;
  for (RecordIndex treatment : page.records().ofKind(Kind::treatment)) {
    const Value* code = page.record(treatment).find("code"_f);
    if (code == nullptr || !code->said()) continue;
    for (const Value& each : code->each())
      if (each.type == records::ValueType::text) all.push_back({each.text, treatment});
  }
  if (all.empty()) return;
  std::stable_sort(all.begin(), all.end(),
                   [](const Number& a, const Number& b) { return choosing::codeBefore(a.code, b.code); });
  out.push_back(document::heading(2, {text("Numbers")}));
  std::vector<std::string_view> codes;
  std::vector<std::size_t> begins;  // of each code, in `all`
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (i > 0 && all[i].code == all[i - 1].code) continue;
    codes.push_back(all[i].code);
    begins.push_back(i);
  }
  begins.push_back(all.size());
  const std::vector<NumberPart> parts = partsOf(codes);
  Blocks made;
  if (parts.size() == 1) {
    made = lines(page, all);
  } else {
    const auto numbers = std::make_shared<const std::vector<Number>>(std::move(all));
    made = cutIntoFiles(page, parts,
                        countedInWords(codes.size(), "number", "numbers") +
                            " are too many for one page. They are listed on pages of their own:",
                        [numbers, begins = std::move(begins)](Page& part, const NumberPart& which) {
                          const std::size_t begin = begins[which.begin];
                          return lines(part, std::span(*numbers).subspan(begin, begins[which.end] - begin));
                        });
  }
  for (Block& block : made) out.push_back(std::move(block));
}

}  // namespace saggar::compose
