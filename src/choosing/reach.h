#pragma once
#include "choosing/path.h"

// What the table of fields implies for paths and does not say. Not for other rooms.
namespace saggar::choosing {

// Fields that templates name: clang 14 does not work `"…"_f` out within one.
namespace field {
inline constexpr records::Field kMadeIn = "made-in"_f;
inline constexpr records::Field kForms = "forms"_f;
inline constexpr records::Field kTreatment = "treatment"_f;
inline constexpr records::Field kForm = "form"_f;
inline constexpr records::Field kMarks = "marks"_f;
inline constexpr records::Field kShapes = "shapes"_f;
inline constexpr records::Field kLook = "look"_f;
inline constexpr records::Field kIs = "is"_f;
}  // namespace field

// The word that holds where a choice is left out (`status`, `how`, `measured`, `keep`): its list's first, as a value
// that stands nowhere. Null for every other field.
const records::Value* wordWhenLeftOut(const records::FieldSpec& spec);

// A record of kind `from` can refer to one of kind `to` in a field that counts for a step backwards.
bool canRefer(Kind from, Kind to);

// References in this field of this kind count for a step backwards: not `see`, `after`, `before`, dates, events.
bool countsBackwards(Kind kind, records::Field field);

// What a specimen has through its treatment: `shape`, `motif`, `for`, `decorated-by`.
bool throughTreatment(records::Field field);

// What stands at one end of a span: a date or event (value), that it has not ended (none), or nothing that is known.
Reached::State stateOfEnd(const records::Value& span, SpanEnd end);

// The end of a span that an event means: of `mark:k6` its beginning (of a source, its end), of `mark:k6.used` all of it.
SpanEnd endOfEvent(const records::Value& event, Kind kind);

// The value of a feature, of a heading, and a reference to a record of that kind, as paths reach them.
const records::FieldSpec& featureValueSpec();
const records::FieldSpec& headingSpec();
const records::FieldSpec& referenceSpec(Kind kind);
const records::FieldSpec& lookValueSpec();  // `{is, used}`

// What one key of a free mapping (`values`, `editions`) holds: a mapping with the same fields.
const records::FieldSpec& memberSpec(const records::FieldSpec& structureMap);

}  // namespace saggar::choosing
