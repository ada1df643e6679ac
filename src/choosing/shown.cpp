#include "choosing/shown.h"

#include <algorithm>
#include <tuple>

#include "base/text.h"
#include "evidence/seen.h"

namespace saggar::choosing {

using records::Entry;
using records::kNoRecord;
using records::Record;
using records::Value;

namespace {

// What a field names, if it names one record alone.
RecordIndex only(const Record& record, records::Field field) {
  const Value* value = record.find(field);
  return value != nullptr && value->each().size() == 1 ? value->each()[0].target() : kNoRecord;
}

template <class Row>
std::span<const Row> rowsOf(const std::vector<Row>& rows, RecordIndex of) {
  const auto begin =
      std::partition_point(rows.begin(), rows.end(), [&](const Row& row) { return row.of < of; });
  const auto end = std::partition_point(begin, rows.end(), [&](const Row& row) { return row.of == of; });
  return {rows.data() + (begin - rows.begin()), static_cast<std::size_t>(end - begin)};
}

std::string foldedText(const Value& value) {
  std::string text;
  for (const Value& one : value.each()) text += base::folded(one.text) + '\n';
  return text;
}

}  // namespace

Shown::Ware Shown::wareOf(const linking::Collection& collection, RecordIndex piece) {
  const Record& record = collection[piece];
  Ware ware;
  ware.treatment = only(record, "treatment"_f);
  const Record* treatment = ware.treatment == kNoRecord ? nullptr : &collection[ware.treatment];
  for (const auto& [field, which] : {std::pair{"shape"_f, &ware.shape}, std::pair{"motif"_f, &ware.motif}}) {
    if (record.find(field) != nullptr) {
      *which = only(record, field);
    } else if (treatment != nullptr) {
      *which = only(*treatment, field);
    }
  }
  return ware;
}

bool Shown::isOf(const linking::Collection& collection, RecordIndex feature, Kind kind) {
  if (feature == kNoRecord) return false;
  const Value* of = collection[feature].find("of"_f);
  if (of == nullptr || !of->said()) return true;
  return std::any_of(of->each().begin(), of->each().end(),
                     [&](const Value& one) { return one.text == records::name(kind); });
}

Shown::Shown(const linking::Collection& collection) {
  const auto pieces = collection.ofKind(Kind::specimen);
  // Those that were seen best come first, so that they are the ones that are kept.
  std::vector<std::pair<evidence::Seen, RecordIndex>> order;
  order.reserve(pieces.size());
  for (const RecordIndex piece : pieces)
    order.emplace_back(evidence::bestSeen(collection[piece].find("seen"_f)), piece);
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });

  for (const auto& [seen, piece] : order) {
    const Record& record = collection[piece];
    const Ware ware = wareOf(collection, piece);
    if (const Value* look = record.find("look"_f)) {
      for (const RecordIndex of : {ware.shape, ware.motif, ware.treatment}) {
        if (of == kNoRecord) continue;
        byWare_.push_back({of, piece});
        for (const Entry& entry : look->entries())
          if (entry.value.type != records::ValueType::unknown &&
              entry.value.type != records::ValueType::unfit &&
              isOf(collection, entry.feature, collection[of].kind))
            looks_.push_back({entry.key, &entry.value, piece, of});
      }
    }
    auto link = [&, piece = piece](RecordIndex from, RecordIndex to) {
      if (from != kNoRecord && to != kNoRecord) links_.push_back({to, piece, from});
    };
    const RecordIndex form = only(record, "form"_f);
    link(ware.shape, form);
    link(ware.treatment, form);
    link(form, ware.shape);
    if (const Value* marks = record.find("marks"_f))
      for (const Value& one : marks->each()) {
        const Value* mark = one.find("mark"_f);
        link((mark != nullptr ? *mark : one).target(), ware.shape);
      }
  }
  std::stable_sort(byWare_.begin(), byWare_.end(), [](const Piece& a, const Piece& b) {
    return std::tie(a.of, a.piece) < std::tie(b.of, b.piece);
  });
  for (const Piece& one : byWare_) pieces_.push_back(one.piece);

  const auto linkKey = [](const Link& one) { return std::tie(one.of, one.to); };
  std::stable_sort(links_.begin(), links_.end(),
                   [&](const Link& a, const Link& b) { return linkKey(a) < linkKey(b); });
  links_.erase(std::unique(links_.begin(), links_.end(),
                           [&](const Link& a, const Link& b) { return linkKey(a) == linkKey(b); }),
               links_.end());

  struct Keyed {
    std::string text;
    Look look;
    auto key() const { return std::tie(look.of, look.feature, text); }
  };
  std::vector<Keyed> keyed;
  keyed.reserve(looks_.size());
  for (const Look& look : looks_) keyed.push_back({foldedText(*look.value), look});
  std::stable_sort(keyed.begin(), keyed.end(),
                   [](const Keyed& a, const Keyed& b) { return a.key() < b.key(); });
  keyed.erase(std::unique(keyed.begin(), keyed.end(),
                          [](const Keyed& a, const Keyed& b) { return a.key() == b.key(); }),
              keyed.end());
  looks_.clear();
  for (const Keyed& one : keyed) looks_.push_back(one.look);
}

std::span<const Shown::Look> Shown::looks(RecordIndex of) const {
  return rowsOf(looks_, of);
}

std::span<const Shown::Link> Shown::links(RecordIndex of) const {
  return rowsOf(links_, of);
}

std::span<const RecordIndex> Shown::pieces(RecordIndex of) const {
  const auto rows = rowsOf(byWare_, of);
  return std::span(pieces_).subspan(static_cast<std::size_t>(rows.data() - byWare_.data()), rows.size());
}

}  // namespace saggar::choosing
