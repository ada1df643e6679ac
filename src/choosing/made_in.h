#pragma once
#include "choosing/answer.h"
#include "choosing/path.h"

// Which pieces came in which shapes: `made-in` of the form and `forms` of the shape state it, and either side is
// enough. Not for other rooms.
namespace saggar::choosing {

// `made-in` or `forms` names some and does not say that these are all.
bool isOpenList(const records::Value* value);

// What the one side says: a list (or `all`, or all but some) that holds the other is yes; `none`, or a list that leaves
// nothing out, is no; anything else is maybe, also another single value.
Answer formSays(const Collection& collection, RecordIndex form, RecordIndex shape);
Answer shapeSays(const Collection& collection, RecordIndex shape, RecordIndex form);

// Yes if either side says so, else no if either says no, else maybe.
Answer madeIn(const Collection& collection, RecordIndex form, RecordIndex shape);

}  // namespace saggar::choosing
