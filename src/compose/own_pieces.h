#pragma once
#include "compose/materials.h"
#include "linking/collection.h"

namespace saggar::compose {

// What only the author sees: the pieces of a talk by the shelf they are kept on, to fetch and to put back. The one
// composer that reads private fields; what it makes goes to own/, never to out/.
Composed composeOwnPieces(const linking::Collection& collection, const Materials& materials,
                          RecordIndex talk);

}  // namespace saggar::compose
