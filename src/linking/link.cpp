#include "linking/link.h"

#include <algorithm>
#include <atomic>
#include <mutex>
#include <thread>

#include "linking/linker.h"

namespace saggar::linking {

Linker::Linker(records::ReadGuide guide) {
  collection_.guide_ = std::make_shared<records::ReadGuide>(std::move(guide));
}

void Linker::index(diagnostics::Findings& findings) {
  auto& records = collection_.guide_->records;
  std::size_t slots = 64;
  while (slots < records.size() * 2) slots *= 2;
  collection_.table_.assign(slots, records::kNoRecord);
  for (RecordIndex i = 0; i < records.size(); ++i) {
    const Record& record = records[i];
    const std::uint32_t slot = collection_.slotOf(record.kind, record.id);
    const RecordIndex first = collection_.table_[slot];
    collection_.byKind_[static_cast<std::size_t>(record.kind)].push_back(i);
    if (first == records::kNoRecord) {
      collection_.table_[slot] = i;
      continue;
    }
    findings.add({.rule = "id-twice"_rule,
                  .span = record.span(),
                  .message = "there is a " + std::string(name(record.kind)) + " `" + std::string(record.id) +
                             "` already",
                  .hint = "give one of the two another id, or make one record of both",
                  .record = record.reference(),
                  .related = {{records[first].span(), "the first stands here"}}});
  }
}

void Linker::resolveAll(diagnostics::Findings& findings) {
  auto& records = collection_.guide_->records;
  constexpr std::size_t kShare = 2048;
  const std::size_t shares = (records.size() + kShare - 1) / kShare;
  std::vector<Resolved> parts(std::max<std::size_t>(shares, 1));
  std::atomic<std::size_t> next{0};
  auto work = [&] {
    for (std::size_t s = next++; s < shares; s = next++)
      for (std::size_t i = s * kShare; i < std::min(records.size(), (s + 1) * kShare); ++i)
        resolveRecord(static_cast<RecordIndex>(i), parts[s]);
  };
  const std::size_t threads =
      std::clamp<std::size_t>(std::min<std::size_t>(std::thread::hardware_concurrency(), shares), 1, 16);
  std::vector<std::thread> others;
  for (std::size_t i = 1; i < threads; ++i) others.emplace_back(work);
  work();
  for (std::thread& one : others) one.join();
  collection_.referredBy_ = rows(parts, &Resolved::references, records.size());
  collection_.citedBy_ = rows(parts, &Resolved::citations, records.size());
  for (Resolved& part : parts) {
    suggestAll(part);
    findings.append(std::move(part.findings));
  }
}

// Gathers the links by target; within one target they keep the order of the records they come from.
Collection::Lists Linker::rows(std::vector<Resolved>& parts, std::vector<Resolved::Link> Resolved::*which,
                               std::size_t records) {
  Collection::Lists lists;
  lists.offsets.assign(records + 1, 0);
  for (const Resolved& part : parts)
    for (const Resolved::Link& link : part.*which) ++lists.offsets[link.target + 1];
  for (std::size_t i = 0; i < records; ++i) lists.offsets[i + 1] += lists.offsets[i];
  lists.entries.resize(lists.offsets[records]);
  std::vector<std::uint32_t> fill(lists.offsets.begin(), lists.offsets.end() - 1);
  for (Resolved& part : parts) {
    for (const Resolved::Link& link : part.*which) lists.entries[fill[link.target]++] = link.from;
    std::vector<Resolved::Link>().swap(part.*which);
  }
  return lists;
}

Collection link(records::ReadGuide guide, diagnostics::Findings& findings, diagnostics::Settings& rules) {
  Linker linker(std::move(guide));
  linker.index(findings);
  linker.resolveAll(findings);
  linker.readSettings(findings, rules);
  linker.findMentions(findings);
  return linker.done();
}

}  // namespace saggar::linking
