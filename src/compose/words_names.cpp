#include "base/text.h"
#include "compose/words.h"

// What a record is called in print.
namespace saggar::compose {

using records::Value;
using records::ValueType;

namespace {

std::string fromId(std::string_view id) {
  std::string out(id);
  for (char& c : out)
    if (c == '-') c = ' ';
  if (!out.empty() && base::isLower(out[0])) out[0] = static_cast<char>(out[0] - 'a' + 'A');
  return out;
}

RecordIndex targetOf(const PublishedRecord& record, records::Field field) {
  const Value* value = record.find(field);
  if (value == nullptr || !value->said()) return records::kNoRecord;
  const auto each = value->each();
  return each.empty() ? records::kNoRecord : each[0].target();
}

}  // namespace

std::string Words::plainName(RecordIndex index) const {
  const PublishedRecord record = materials_->records[index];
  for (records::Field field : {"name"_f, "title"_f})
    if (const std::string_view own = record.text(field); !own.empty()) return std::string(own);
  auto nameOf = [&](records::Field field) {
    const RecordIndex target = targetOf(record, field);
    return target == records::kNoRecord || target == index ? std::string() : plainName(target);
  };
  if (record.kind() == Kind::treatment) {
    std::vector<std::string> parts;
    if (const Value* code = record.find("code"_f); code != nullptr && code->said() && !code->each().empty())
      parts.emplace_back(code->each()[0].text);
    if (std::string motif = nameOf("motif"_f); !motif.empty()) {
      parts.push_back(std::move(motif));
    } else if (const Value* none = record.find("motif"_f); none != nullptr && none->type == ValueType::none && parts.empty()) {
      if (const std::string shape = nameOf("shape"_f); !shape.empty()) return shape + " without a motif";
    }
    if (parts.size() == 1 && !parts[0].empty())
      if (const std::string shape = nameOf("shape"_f); !shape.empty()) parts.push_back("on " + shape);
    if (!parts.empty()) return base::joined(parts, " ");
  }
  if (record.kind() == Kind::specimen) {
    std::string form = nameOf("form"_f);
    std::string what = nameOf("treatment"_f);
    if (what.empty()) {
      what = nameOf("shape"_f);
      if (const std::string motif = nameOf("motif"_f); !motif.empty()) what += (what.empty() ? "" : " ") + motif;
    }
    if (!form.empty() && !what.empty()) return what + ", " + form;
    if (!form.empty() || !what.empty()) return form + what;
  }
  return fromId(record.id());
}

Inlines Words::name(RecordIndex index) const {
  Inlines words{document::text(plainName(index))};
  if (places_ == nullptr) return words;
  const auto place = places_->of(index);
  if (!place) return words;
  return {document::link(std::move(words), *place)};
}

}  // namespace saggar::compose
