#include "study/estimates.h"

#include <algorithm>
#include <set>
#include <string>

#include "base/text.h"
#include "evidence/seen.h"

namespace saggar::study {

using records::Kind;
using records::Record;
using records::Value;

namespace {

// Who has the piece; empty where nobody is named.
std::string keeperOf(const Record& specimen) {
  constexpr std::string_view kNobody[] = {"private", "private collection", "a private collection",
                                          "private owner", "a private owner"};
  for (const records::Field field : {"owner"_f, "holder"_f}) {
    std::string who = base::folded(base::onOneLine(specimen.text(field)));
    if (!who.empty() && std::find(std::begin(kNobody), std::end(kNobody), who) == std::end(kNobody))
      return who;
  }
  return {};
}

bool isProduction(const Record& treatment) {
  const Value* status = treatment.find("status"_f);
  return status == nullptr || status->text == "production";
}

bool isOn(const Record& treatment, RecordIndex shape) {
  const Value* shapes = treatment.find("shape"_f);
  return shapes != nullptr && std::any_of(shapes->each().begin(), shapes->each().end(),
                                          [&](const Value& one) { return one.target() == shape; });
}

// How many pieces of the treatment were seen on that shape, in hand or in a picture.
std::size_t piecesSeen(const Collection& collection, RecordIndex treatment, RecordIndex shape) {
  std::size_t unkept = 0;
  std::set<std::string> keepers;
  for (const linking::BackReference& back : collection.referredBy(treatment)) {
    const Record& specimen = collection[back.from];
    if (specimen.kind != Kind::specimen || back.field != "treatment"_f) continue;
    if (evidence::bestSeen(specimen.find("seen"_f)) > evidence::Seen::pictured) continue;
    const Value* own = specimen.find("shape"_f);
    if (own != nullptr && own->target() != records::kNoRecord && own->target() != shape) continue;
    std::string keeper = keeperOf(specimen);
    if (keeper.empty())
      ++unkept;
    else
      keepers.insert(std::move(keeper));
  }
  return unkept + keepers.size();
}

}  // namespace

Frequencies frequenciesOf(std::span<const std::size_t> pieces) {
  Frequencies out;
  for (const std::size_t count : pieces) {
    out.kinds += count == 0 ? 0 : 1;
    out.pieces += count;
    out.once += count == 1 ? 1 : 0;
    out.twice += count == 2 ? 1 : 0;
  }
  return out;
}

double leastKinds(const Frequencies& seen) {
  const auto once = static_cast<double>(seen.once);
  const double unseen =
      seen.twice == 0 ? once * (once - 1) / 2 : once * once / (2 * static_cast<double>(seen.twice));
  return static_cast<double>(seen.kinds) + unseen;
}

double coverage(const Frequencies& seen) {
  if (seen.pieces == 0) return 0;
  return 1 - static_cast<double>(seen.once) / static_cast<double>(seen.pieces);
}

std::vector<Estimate> estimatesOf(const Collection& collection, const evidence::Weights& weights,
                                  std::span<const RecordIndex> shapes) {
  std::vector<Estimate> out;
  for (const RecordIndex shape : shapes) {
    if (collection[shape].kind != Kind::shape) continue;
    Estimate one{.shape = shape, .seen = {}};
    std::vector<std::size_t> pieces;
    for (const linking::BackReference& back : collection.referredBy(shape)) {
      const Record& treatment = collection[back.from];
      if (treatment.kind != Kind::treatment || back.field != "shape"_f || !isProduction(treatment) ||
          !isOn(treatment, shape))
        continue;
      pieces.push_back(piecesSeen(collection, back.from, shape));
      if (weights.knownBy(back.from) == evidence::KnownBy::documents) ++one.documentsOnly;
    }
    one.seen = frequenciesOf(pieces);
    if (one.seen.pieces < kFewestPieces) continue;
    one.least = leastKinds(one.seen);
    one.covered = coverage(one.seen);
    out.push_back(one);
  }
  return out;
}

}  // namespace saggar::study
