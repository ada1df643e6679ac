#include "choosing/sort_key.h"

#include <unicode/coll.h>
#include <unicode/locid.h>
#include <unicode/unistr.h>

#include <bit>
#include <cmath>

#include "base/text.h"
#include "choosing/reach.h"
#include "choosing/walk.h"
#include "dates/length.h"

namespace saggar::choosing {

using records::FieldSpec;
using records::FieldType;
using records::Value;
using records::ValueType;

namespace {

// Ranks: values, `none`, what is not recorded.
constexpr char kValue = '\x01';
constexpr char kNone = '\x02';
constexpr char kNothing = '\x03';

void appendBytes(std::string& key, std::uint64_t number) {
  for (int shift = 56; shift >= 0; shift -= 8) key += static_cast<char>(number >> shift);
}

void appendDay(std::string& key, dates::Day day, dates::Day whenUnknown) {
  if (day.isUnknown()) day = whenUnknown;
  dates::Int128 number = 0;
  const dates::Int128 limit = static_cast<dates::Int128>(1) << 100;
  if (day == dates::Day::minusInfinity())
    number = -limit;
  else if (day == dates::Day::plusInfinity())
    number = limit;
  else
    number = day.number();
  number += limit;  // never below zero: a year has twenty-four digits at most
  appendBytes(key, static_cast<std::uint64_t>(number >> 64));
  appendBytes(key, static_cast<std::uint64_t>(number));
}

void appendReal(std::string& key, double value) {
  std::uint64_t bits = std::bit_cast<std::uint64_t>(value);
  bits = (bits >> 63) != 0 ? ~bits : bits | (1ULL << 63);
  appendBytes(key, bits);
}

bool isCode(records::Field field) {
  return field == "code"_f || field == "code-seen"_f || field == "date-code"_f || field == "registered"_f;
}

}  // namespace

struct SortKeys::Collation {
  std::unique_ptr<icu::Collator> collator;

  explicit Collation(const std::string& language) {
    UErrorCode status = U_ZERO_ERROR;
    icu::Locale locale = icu::Locale::forLanguageTag(language, status);
    if (U_FAILURE(status) || locale.isBogus()) locale = icu::Locale::getRoot();
    status = U_ZERO_ERROR;
    collator.reset(icu::Collator::createInstance(locale, status));
    if (U_FAILURE(status) || collator == nullptr) {
      collator.reset();
      return;
    }
    collator->setAttribute(UCOL_NUMERIC_COLLATION, UCOL_ON, status);
  }

  // Ends with a zero byte and holds no other.
  void append(std::string& key, std::string_view text) const {
    if (collator == nullptr) {
      key += base::folded(text);
      key += '\0';
      return;
    }
    const auto unicode =
        icu::UnicodeString::fromUTF8(icu::StringPiece(text.data(), static_cast<int32_t>(text.size())));
    std::uint8_t buffer[256];
    const int32_t length = collator->getSortKey(unicode, buffer, sizeof buffer);
    if (length <= static_cast<int32_t>(sizeof buffer)) {
      key.append(reinterpret_cast<const char*>(buffer), static_cast<std::size_t>(length));
      return;
    }
    std::vector<std::uint8_t> longer(static_cast<std::size_t>(length));
    collator->getSortKey(unicode, longer.data(), length);
    key.append(reinterpret_cast<const char*>(longer.data()), longer.size());
  }
};

SortKeys::SortKeys(const Collection& collection)
    : collection_(collection), collation_(std::make_unique<Collation>(collection.settings().language)) {}
SortKeys::~SortKeys() = default;

void SortKeys::appendText(std::string& key, std::string_view text) {
  auto [found, fresh] = texts_.try_emplace(text);
  if (fresh) collation_->append(found->second, text);
  key += found->second;
}

void SortKeys::appendName(std::string& key, RecordIndex index) {
  if (names_.empty()) names_.resize(collection_.size());
  std::string& name = names_[index];
  if (name.empty()) {
    const records::Record& record = collection_[index];
    std::string_view text = record.text(records::spec(record.kind).title);
    collation_->append(name, text.empty() ? record.id : text);
    name += record.id;
    name += '\0';
  }
  key += name;
}

std::size_t SortKeys::placeInFeature(RecordIndex feature, std::string_view value) {
  auto [found, fresh] = features_.try_emplace(feature);
  if (fresh)
    if (const Value* values = collection_[feature].find("values"_f))
      for (const records::Entry& entry : values->entries())
        found->second.emplace(entry.key, found->second.size());
  const auto place = found->second.find(value);
  return place == found->second.end() ? 0xFFFF : place->second;
}

void SortKeys::append(std::string& key, const Path& path, const Reached& reached) {
  switch (reached.state) {
    case Reached::State::absent:
    case Reached::State::unknown: key += kNothing; return;
    case Reached::State::none:
      // A feature's own `none` has its place among the feature's values.
      if (reached.value != nullptr && path.feature() != records::kNoRecord &&
          placeInFeature(path.feature(), "none") != 0xFFFF)
        break;
      key += reached.value != nullptr ? kNone : kNothing;
      return;
    case Reached::State::record:
      key += kValue;
      if (path.steps().back().type == Step::Type::itself) {
        appendText(key, collection_[reached.record].id);
      } else {
        appendName(key, reached.record);
      }
      return;
    case Reached::State::value: break;
  }
  key += kValue;
  appendValue(key, path, reached);
}

void SortKeys::appendValue(std::string& key, const Path& path, const Reached& reached) {
  const Value& value = *reached.value;
  const FieldSpec* spec = reached.spec;
  if (reached.end != SpanEnd::whole) return appendEnd(key, value, reached.end);
  if (path.feature() != records::kNoRecord) {
    const std::size_t place = placeInFeature(path.feature(), value.text);
    key += static_cast<char>(place >> 8);
    key += static_cast<char>(place & 0xFF);
    return appendText(key, value.text);
  }
  switch (value.type) {
    case ValueType::date: {
      const dates::Options& options = collection_.settings().dates;
      const dates::Bounds plain = spec != nullptr && spec->type == FieldType::span
                                      ? dates::spanOf(*value.date(), dates::Reading::Plain, options).hull()
                                      : value.date()->plain(options);
      appendDay(key, plain.earliest, dates::Day::minusInfinity());
      appendDay(key, plain.latest, dates::Day::plusInfinity());
      return;
    }
    case ValueType::between: {
      const auto ends = value.items();
      const dates::Options& options = collection_.settings().dates;
      const bool left = ends.size() == 2 && ends[0].date() != nullptr;
      const bool right = ends.size() == 2 && ends[1].date() != nullptr;
      appendDay(key, left ? ends[0].date()->plain(options).earliest : dates::Day::minusInfinity(),
                dates::Day::minusInfinity());
      appendDay(key, right ? ends[1].date()->plain(options).latest : dates::Day::plusInfinity(),
                dates::Day::plusInfinity());
      return;
    }
    case ValueType::number:
    case ValueType::yes: return appendReal(key, static_cast<double>(value.number()));
    case ValueType::measure: {
      const records::Measure& measure = *value.measure();
      key += measure.isLength() ? '\x01' : measure.isVolume() ? '\x02' : '\x03';
      return appendReal(key, records::inMetric(measure));
    }
    case ValueType::reference:
    case ValueType::event:
      if (value.target() != records::kNoRecord) return appendName(key, value.target());
      return appendText(key, value.text);
    case ValueType::length: {
      const auto length = dates::parseLength(value.text).length;
      if (length) return appendReal(key, static_cast<double>(length->mostDays()));
      return appendText(key, value.text);
    }
    case ValueType::mapping: {
      for (const records::Entry& entry : value.entries())
        for (const Value& one : entry.value.each()) appendText(key, one.text);
      key += '\0';
      return;
    }
    default: break;
  }
  if (spec != nullptr && spec->type == FieldType::choice) {
    const auto place = static_cast<std::size_t>(
        std::find(spec->words.begin(), spec->words.end(), value.text) - spec->words.begin());
    key += static_cast<char>(place & 0xFF);
    return;
  }
  if (spec != nullptr && isCode(spec->field)) {
    key += codeKey(value.text);
    return;
  }
  appendText(key, value.text);
}

void SortKeys::appendEnd(std::string& key, const Value& span, SpanEnd end) {
  const bool from = end == SpanEnd::from;
  const dates::Options& options = collection_.settings().dates;
  dates::Bounds day{dates::Day::minusInfinity(), dates::Day::plusInfinity()};
  if (const dates::Expression* date = span.date()) {
    const dates::SpanBounds days = dates::spanOf(*date, dates::Reading::Plain, options);
    day = from ? days.begin : days.end;
  } else if (const auto ends = span.items(); ends.size() == 2) {
    if (const dates::Expression* one = ends[from ? 0 : 1].date()) day = one->plain(options);
  }
  appendDay(key, day.earliest, dates::Day::minusInfinity());
  appendDay(key, day.latest, dates::Day::plusInfinity());
}

void SortKeys::append(std::string& key, const Path& path, RecordIndex record) {
  const bool least = path.goesBackwards() || path.endsInMadeIn();
  std::string best;
  std::string one;
  auto visit = [&](const Reached& reached) {
    one.clear();
    append(one, path, reached);
    if (best.empty() || (least ? one < best : best[0] != kValue && one < best)) best = one;
    return least || best[0] != kValue;
  };
  Walker(collection_, path.steps(), false, visit).from({.record = record});
  key += best;
}

}  // namespace saggar::choosing
