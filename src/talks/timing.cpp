#include "talks/timing.h"

#include "base/text.h"
#include "linking/prose.h"

namespace saggar::talks {

using document::Block;
using document::BlockKind;
using document::Inline;
using document::InlineKind;
using records::Value;

namespace {

void putSpoken(std::string& out, const document::Inlines& inlines) {
  for (const Inline& one : inlines) {
    switch (one.kind) {
      case InlineKind::text:
      case InlineKind::code: out += one.text; break;
      case InlineKind::softBreak:
      case InlineKind::hardBreak: out += ' '; break;
      case InlineKind::citation:
      case InlineKind::image:
      case InlineKind::footnote: break;
      case InlineKind::reference:
        if (one.children.empty()) {
          out += one.text.substr(one.text.find(':') + 1);
        } else {
          putSpoken(out, one.children);
        }
        break;
      default: putSpoken(out, one.children);
    }
  }
}

void putSpoken(std::string& out, const document::Blocks& blocks) {
  for (const Block& block : blocks) {
    if (block.kind == BlockKind::code || block.kind == BlockKind::query) continue;
    putSpoken(out, block.inlines);
    out += ' ';
    putSpoken(out, block.blocks);
  }
}

}  // namespace

std::size_t spokenWords(const linking::Collection& collection, const records::Record& talk, const Value& say) {
  std::string spoken;
  putSpoken(spoken, linking::parseProse(collection, talk, say).blocks);
  std::size_t count = 0;
  bool inWord = false;
  for (char c : spoken) {
    const bool letter = !base::isBlank(c) && c != '-' && c != '.' && c != ',' && c != ';' && c != ':' && c != '(' && c != ')' && c != '"';
    if (letter && !inWord) ++count;
    inWord = !base::isBlank(c) && (inWord || letter);
  }
  return count;
}

TalkTimes timesOf(const linking::Collection& collection, linking::RecordIndex talk) {
  const records::Record& record = collection[talk];
  TalkTimes times;
  times.pace = collection.settings().pace;
  if (const Value* pace = record.find("pace"_f); pace != nullptr && pace->number() > 0) times.pace = pace->number();
  const Value* segments = record.find("segments"_f);
  if (segments == nullptr || !segments->said()) return times;
  for (const Value& segment : segments->each()) {
    if (segment.type != records::ValueType::mapping) continue;
    SegmentTime one;
    one.segment = &segment;
    one.start = times.total;
    if (const Value* say = segment.find("say"_f); say != nullptr && say->said()) one.words = spokenWords(collection, record, *say);
    if (const Value* show = segment.find("show"_f); show != nullptr && show->said()) one.pieces = show->each().size();
    if (const Value* time = segment.find("time"_f); time != nullptr && time->type == records::ValueType::number) {
      one.length = time->number();
      one.given = true;
    } else {
      one.length = (static_cast<std::int64_t>(one.words) * 60 + times.pace / 2) / times.pace +
                   kSecondsAPiece * static_cast<std::int64_t>(one.pieces);
      times.allGiven = false;
    }
    times.total += one.length;
    times.segments.push_back(one);
  }
  return times;
}

std::string asClock(std::int64_t seconds) {
  auto two = [](std::int64_t value) { return (value < 10 ? "0" : "") + std::to_string(value); };
  const std::int64_t hours = seconds / 3600;
  const std::int64_t minutes = seconds / 60 % 60;
  if (hours == 0) return std::to_string(minutes) + ':' + two(seconds % 60);
  return std::to_string(hours) + ':' + two(minutes) + ':' + two(seconds % 60);
}

}  // namespace saggar::talks
