#pragma once
#include <initializer_list>

#include "compose/page.h"

// A record's fields as a list of facts, each with the evidence that is its own. Every field that may be published comes
// out here unless its record's entry says it in another way.
namespace saggar::compose {

// "First offered", "Supplier's number": how a field is called in print.
std::string labelOf(Kind kind, records::Field field);

// Items of a list: "**First offered:** 1932 (Decoration Books 2-6, vol. 3)". In the order of the table of fields; fields
// in `but` are left out, and so are the names, photos and dates relative to events that stand elsewhere.
std::vector<Blocks> facts(const Page& page, const PublishedRecord& record,
                          std::initializer_list<records::Field> but = {});

// One field, as such an item; an absent one is "not recorded".
Blocks fact(const Page& page, const PublishedRecord& record, records::Field field,
            std::string_view label = {});

// The value with the evidence that is its own, and with what is doubted or said otherwise, behind it in one bracket; then
// its note.
Inlines valueWithEvidence(const Page& page, const PublishedRecord& record, const records::Value& value,
                          const records::FieldSpec* spec);
// What that puts behind the value; and the same behind other words for it.
Inlines withEvidence(const Page& page, const PublishedRecord& record, const records::Value& value,
                     const records::FieldSpec* spec, Inlines words);

// "**Sources:** …" of the record as a whole; empty if it has none, unless it is of a kind that needs evidence and none of
// its facts has any of its own: "no source recorded".
std::optional<Blocks> sourcesFact(const Page& page, const PublishedRecord& record);

// "**Also called:** …"
std::optional<Blocks> namesFact(const Page& page, const PublishedRecord& record);

// What is told last of a record that stands in one line or in running words, each as a sentence, in the order asked for:
// `also` is "Also called the batter jug.", a heading of the author's under `more` "Chip: on the rim.", `note` the note,
// `see` "See Bryn and Cairn." ("See also …" if it has an `about`), `cite` "Source: The Town Book, p. 9." (or "Sources: …").
void putRest(const Words& words, const PublishedRecord& record, std::initializer_list<records::Field> which,
             Inlines& out);

// The note, as paragraphs of its own; then where it is said what was changed about the record.
Blocks noteOf(const Page& page, const PublishedRecord& record);

}  // namespace saggar::compose
