#include "evidence/source_types.h"

namespace saggar::evidence {
namespace {

using enum Form;
using enum Information;
using enum Shows;

constexpr SourceType kTypes[] = {
    {"decoration-book", "decoration book", original, primary, existed, true},
    {"factory-record", "record of the factory", original, primary, existed, true},
    {"ledger", "ledger", original, primary, existed, true},
    {"price-list", "price list", original, primary, existedAndOffered, true},
    {"catalogue", "catalogue", original, primary, existedAndOffered, true},
    {"leaflet", "leaflet", original, primary, existedAndOffered, true},
    {"trade-notice", "notice in the trade papers", original, primary, existed, false},
    {"advertisement", "advertisement", original, primary, existed, false},
    {"registration", "registration", original, primary, designExisted, false},
    {"patent", "patent", original, primary, designExisted, false},
    {"supplier-sheet", "supplier's sheet", original, primary, designExisted, false},
    {"photograph", "photograph", original, primary, existed, false},
    {"sample", "sample", original, primary, existed, false},
    {"excavation", "excavation", original, primary, existed, false},
    {"interview", "interview", original, primary, nothing, true},
    {"letter", "letter", original, primary, nothing, true},
    {"observation", "observation", original, primary, nothing, true},
    {"newspaper", "newspaper", original, secondary, existed, true},
    {"directory", "directory", original, secondary, existed, true},
    {"copy", "copy", derivative, primary, existed, true},
    {"book", "book", authored, secondary, nothing, true},
    {"article", "article", authored, secondary, nothing, true},
    {"museum-object", "museum's account of an object", authored, secondary, nothing, true},
    {"newsletter", "newsletter", authored, undetermined, nothing, true},
    {"sale", "sale catalogue", authored, undetermined, nothing, true},
    {"post", "post", authored, undetermined, nothing, true},
    {"website", "website", authored, undetermined, nothing, true},
    {"recording", "recording", authored, undetermined, nothing, true},
    {"hearsay", "hearsay", authored, undetermined, nothing, true},
};

}  // namespace

std::string_view word(Form form) {
  constexpr std::string_view kWords[] = {"original", "derivative", "authored"};
  return kWords[static_cast<std::size_t>(form)];
}

std::string_view word(Information information) {
  constexpr std::string_view kWords[] = {"primary", "secondary", "undetermined"};
  return kWords[static_cast<std::size_t>(information)];
}

std::span<const SourceType> sourceTypes() {
  return kTypes;
}

const SourceType* sourceTypeNamed(std::string_view name) {
  for (const SourceType& one : kTypes)
    if (one.name == name) return &one;
  return nullptr;
}

}  // namespace saggar::evidence
