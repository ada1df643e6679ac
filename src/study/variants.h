#pragma once
#include <string>

#include "linking/collection.h"

// Which treatments are one and the same decoration, as far as is recorded.
namespace saggar::study {

// Shape, motif, customer and every recorded feature, equal for two records of the same variant; empty for a record of
// which that cannot be said: nothing of its look is recorded, or its shape or motif is not known.
std::string variantOf(const linking::Collection& collection, records::RecordIndex treatment);

// `later` is what `earlier` was renumbered to (`continues`), in one step or several.
bool continues(const linking::Collection& collection, records::RecordIndex later,
               records::RecordIndex earlier);

}  // namespace saggar::study
