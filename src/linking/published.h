#pragma once
#include "linking/collection.h"
#include "records/tables.h"

// The view of a collection that has no private field. Compose sees records only through it, but for the one file that
// makes what goes to own/.
namespace saggar::linking {

class PublishedRecord {
 public:
  PublishedRecord(const Record& record, RecordIndex index) : record_(&record), index_(index) {}

  Kind kind() const { return record_->kind; }
  std::string_view id() const { return record_->id; }
  RecordIndex index() const { return index_; }
  std::string reference() const { return record_->reference(); }
  source::Span span() const { return record_->span(); }
  source::Span span(records::Extent extent) const { return record_->span(extent); }
  const records::Evidence* evidence() const { return record_->evidence; }

  // Null for a field that is absent or private.
  const records::Value* find(records::Field field) const {
    return isPublic(field) ? record_->find(field) : nullptr;
  }
  std::string_view text(records::Field field) const {
    return isPublic(field) ? record_->text(field) : std::string_view();
  }

  // Every field that may be published, in the order typed.
  std::vector<const records::Entry*> fields() const {
    std::vector<const records::Entry*> all;
    for (const records::Entry& entry : record_->fields)
      if (entry.known && isPublic(entry.field)) all.push_back(&entry);
    return all;
  }

 private:
  bool isPublic(records::Field field) const {
    const records::FieldSpec* spec = records::specOf(record_->kind, field);
    return spec != nullptr && !spec->has(records::kPrivate);
  }
  const Record* record_;
  RecordIndex index_;
};

class Published {
 public:
  explicit Published(const Collection& collection) : collection_(&collection) {}

  PublishedRecord operator[](RecordIndex index) const { return {(*collection_)[index], index}; }
  std::span<const RecordIndex> ofKind(Kind kind) const { return collection_->ofKind(kind); }
  std::optional<RecordIndex> find(Kind kind, std::string_view id) const {
    return collection_->find(kind, id);
  }
  std::optional<RecordIndex> find(std::string_view reference) const { return collection_->find(reference); }
  std::span<const BackReference> referredBy(RecordIndex index) const {
    return collection_->referredBy(index);
  }
  std::span<const BackReference> citedBy(RecordIndex index) const { return collection_->citedBy(index); }
  std::span<const Mention> mentions() const { return collection_->mentions(); }
  const GuideSettings& settings() const { return collection_->settings(); }
  const Record* guide() const { return collection_->guide(); }  // guide.yaml has no private field
  const source::SourceSet& sources() const { return collection_->sources(); }
  const std::vector<records::ProseFile>& prose() const { return collection_->read().prose; }

 private:
  const Collection* collection_;
};

}  // namespace saggar::linking
