#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "choosing/condition.h"
#include "reading/text_map.h"

// What a list is to hold, whoever asks for it: a fence in prose, a checklist, the chapters of the contents.
//
//   where: {shape: jessamount}
//   sure: yes                          leave out what is only perhaps meant
//   grouped: shape
//   in-order-of: [introduced, code]    one path or several
//   columns: [code, Motif: motif]      paths, each with a heading of its own if the author likes; also one mapping
//   title: …
namespace saggar::choosing {

struct Column {
  std::string heading;  // empty: the writer's own
  Path path;
};

struct Query {
  Kind kind = Kind::guide;
  Condition where;
  bool sure = false;
  std::vector<Path> inOrderOf;
  Path grouped;  // empty: not grouped
  std::vector<Column> columns;
  std::string title;
};

// The YAML inside a fence. Findings with the places that `places` gives; what is wrong is left out. No other keys are
// taken, and a condition must stand under `where`. `passedOver`: the keys with which this block can do nothing.
Query readQuery(std::string_view yaml, const reading::TextMap& places, Kind kindOfBlock,
                const Collection& collection, diagnostics::Findings& findings,
                std::span<const std::string_view> passedOver = {});

// A checklist's own; nullopt if its `show` cannot be read (reading has said so).
std::optional<Query> readQuery(RecordIndex checklist, const Collection& collection,
                               diagnostics::Findings& findings);

// A mapping kept as typed, in a record or guide.yaml (`file` says where): the same keys; others are passed over.
Query readQuery(const records::Value& mapping, Kind kind, const Collection& collection, source::FileId file,
                diagnostics::Findings& findings, bool allowPrivate = false);

// A path as typed in a value; empty, with a finding, if it cannot be read. `what` names the key it stands under.
Path readPath(const records::Value& value, Kind kind, const Collection& collection, source::FileId file,
              diagnostics::Findings& findings, std::string_view what, bool allowPrivate = false);

// The kind that a word as `a-chapter-for-every: shape` names; nullopt, with a finding, if none.
std::optional<Kind> readKind(const records::Value& value, source::FileId file,
                             diagnostics::Findings& findings, std::string_view what);

}  // namespace saggar::choosing
