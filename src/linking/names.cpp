#include "linking/names.h"

#include "base/text.h"

namespace saggar::linking {

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

// One line of Markdown without its signs: enough for the name of a statement.
std::string withoutLinks(std::string_view markdown) {
  std::string out;
  for (std::size_t i = 0; i < markdown.size(); ++i) {
    const char c = markdown[i];
    if (c == ']' && i + 1 < markdown.size() && markdown[i + 1] == '(') {
      const std::size_t close = markdown.find(')', i);
      if (close == std::string_view::npos) break;
      i = close;
    } else if (c == '\n') {
      out += ' ';
    } else if (c != '[' && c != '*' && c != '`') {
      out += c;
    }
  }
  std::string_view trimmed = base::trimmed(out);
  if (trimmed.ends_with('.')) trimmed.remove_suffix(1);
  return base::shortened(trimmed, 90);
}

}  // namespace

std::string plainName(const Published& records, RecordIndex index) {
  const PublishedRecord record = records[index];
  for (records::Field field : {"name"_f, "title"_f})
    if (const std::string_view own = record.text(field); !own.empty()) return std::string(own);
  auto nameOf = [&](records::Field field) {
    const RecordIndex target = targetOf(record, field);
    return target == records::kNoRecord || target == index ? std::string() : plainName(records, target);
  };
  switch (record.kind()) {
    case Kind::treatment: {
      std::string code;
      if (const Value* typed = record.find("code"_f);
          typed != nullptr && typed->said() && !typed->each().empty())
        code = std::string(typed->each()[0].text);
      const std::string motif = nameOf("motif"_f);
      if (!code.empty() && !motif.empty()) return code + ' ' + motif;
      const std::string shape = nameOf("shape"_f);
      if (!motif.empty() && !shape.empty()) return motif + " on " + shape;
      const Value* none = record.find("motif"_f);
      const bool plain = none != nullptr && none->type == ValueType::none;
      if (!code.empty() && plain) return code + " without a motif";
      if (!code.empty()) return shape.empty() ? code : code + " on " + shape;
      if (plain && !shape.empty()) return shape + " without a motif";
      if (!motif.empty()) return motif;
      break;
    }
    case Kind::specimen: {
      std::string what = nameOf("treatment"_f);
      if (what.empty()) {
        what = nameOf("shape"_f);
        if (const std::string motif = nameOf("motif"_f); !motif.empty())
          what += (what.empty() ? "" : " ") + motif;
      }
      const std::string form = nameOf("form"_f);
      if (!form.empty() && !what.empty()) return what + ", " + form;
      if (!form.empty() || !what.empty()) return form + what;
      break;
    }
    case Kind::claim:
      if (const std::string_view says = record.text("says"_f); !says.empty()) return withoutLinks(says);
      break;
    case Kind::question:
      if (const std::string_view asks = record.text("asks"_f); !asks.empty()) return withoutLinks(asks);
      break;
    case Kind::term:
    case Kind::feature: {
      std::string words = fromId(record.id());
      if (!words.empty() && base::isUpper(words[0])) words[0] = static_cast<char>(words[0] - 'A' + 'a');
      return words;
    }
    default: break;
  }
  return fromId(record.id());
}

std::string nameForAuthor(const Collection& collection, RecordIndex index) {
  const Record& record = collection[index];
  const bool named = !record.text("name"_f).empty();
  if (record.kind == Kind::specimen && !named) return '`' + std::string(record.id) + '`';
  std::string name = base::onOneLine(plainName(collection, index));
  const bool sentence = !named && (record.kind == Kind::claim || record.kind == Kind::question);
  return sentence ? '"' + std::move(name) + '"' : name;
}

}  // namespace saggar::linking
