#pragma once
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "dates/expression.h"
#include "diagnostics/report.h"
#include "records/read_guide.h"

// All records of a guide, every reference resolved, frozen: no later stage changes it.
namespace saggar::linking {

using records::Kind;
using records::Record;
using records::RecordIndex;

// A reference from one record's field to another record.
struct BackReference {
  RecordIndex from = records::kNoRecord;
  records::Field field;
};

// A link in prose (a prose file, or a field that is Markdown) to a record.
struct Mention {
  RecordIndex target = records::kNoRecord;
  RecordIndex from = records::kNoRecord;  // the record whose field it stands in; none: a prose file
  std::size_t prose = SIZE_MAX;           // then the index of that file
  records::Field field{};                 // of the record: the field it stands in
  source::Span span;
  bool citation = false;  // a link to a source: cites it
};

// What guide.yaml says beside its records.
struct GuideSettings {
  std::string title;
  std::vector<std::string> authors;
  std::int64_t edition = 0;  // 0: not said
  std::string language = "en-GB";
  dates::Options dates;
  enum class Units { both, inches, metric } units = Units::both;
  std::int64_t pace = 130;  // spoken words a minute
  std::string layout = "checklist";
};

class Collection {
 public:
  std::span<const Record> records() const { return guide_->records; }
  const Record& operator[](RecordIndex index) const { return guide_->records[index]; }
  std::size_t size() const { return guide_->records.size(); }
  const source::SourceSet& sources() const { return guide_->sources; }
  const records::ReadGuide& read() const { return *guide_; }

  // guide.yaml's own mapping, or null.
  const Record* guide() const { return guide_->guide.file == source::kNoFile ? nullptr : &guide_->guide; }
  const GuideSettings& settings() const { return settings_; }

  std::optional<RecordIndex> find(Kind kind, std::string_view id) const;
  std::optional<RecordIndex> find(std::string_view reference) const;  // "kind:id"

  // In the order of file and place.
  std::span<const RecordIndex> ofKind(Kind kind) const { return byKind_[static_cast<std::size_t>(kind)]; }

  // Who refers to it in a field (not evidence, not prose), in the order of file and place; each field once.
  std::span<const BackReference> referredBy(RecordIndex index) const;

  // Who cites it in evidence (`field` the field whose evidence it is; `cite` for the record's own).
  std::span<const BackReference> citedBy(RecordIndex index) const;

  // Links in prose to records, sorted by place.
  std::span<const Mention> mentions() const { return mentions_; }

 private:
  friend class Linker;
  struct
      Lists {  // compressed rows: the references to record i are entries[offsets[i]] to entries[offsets[i + 1]]
    std::vector<std::uint32_t> offsets;
    std::vector<BackReference> entries;
    std::span<const BackReference> of(RecordIndex index) const;
  };
  std::uint32_t slotOf(Kind kind, std::string_view id) const;

  std::shared_ptr<records::ReadGuide> guide_;
  GuideSettings settings_;
  std::vector<std::uint32_t> table_;  // open addressing over kind and id
  std::vector<RecordIndex> byKind_[records::kKindCount];
  Lists referredBy_;
  Lists citedBy_;
  std::vector<Mention> mentions_;
};

}  // namespace saggar::linking
