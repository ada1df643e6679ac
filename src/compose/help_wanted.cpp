#include "compose/help_wanted.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "base/text.h"
#include "codes/part.h"
#include "compose/entries.h"
#include "compose/facts.h"
#include "compose/phrases.h"
#include "dates/print.h"
#include "study/gaps.h"
#include "study/number_gaps.h"

namespace saggar::compose {

using document::text;
using records::Field;
using records::Value;

namespace {

std::string fieldInWords(Kind kind, Field field) {
  if (field == "introduced"_f) return "the first year";
  if (field == "withdrawn"_f) return "the last year";
  if (field == "born"_f) return "the birth";
  if (field == "died"_f) return "the death";
  if (field == "founded"_f) return "the founding";
  if (field == "closed"_f) return "the closing";
  if (field == "code"_f) return "the number";
  if (field == "forms"_f) return "the pieces";
  if (field == "used"_f) return "the years of use";
  if (field == "shapes"_f) return "the shapes";
  if (field == "actual"_f) return "the real size";
  if (field == "nominal"_f) return "the size in lists";
  std::string label = labelOf(kind, field);
  if (field == "modeller"_f) label = "modeller";
  if (!label.empty() && base::isUpper(label[0])) label[0] = static_cast<char>(label[0] - 'A' + 'a');
  return "the " + label;
}

// "1909 to 1911", "by the end of 1926"; empty where nothing is known. Years will do.
std::string yearsInWords(const dates::Bounds& when) {
  dates::Bounds years = when;
  if (years.earliest.isFinite()) years.earliest = dates::Day::fromCivil(years.earliest.civil().year, 1, 1);
  if (years.latest.isFinite()) years.latest = dates::Day::fromCivil(years.latest.civil().year, 12, 31);
  if (!years.earliest.isFinite() && !years.latest.isFinite()) return {};
  return dates::describeBounds(years);
}

std::string runsInWords(const study::NumberForm& form, const std::vector<study::NumberRun>& runs,
                        std::size_t most) {
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    if (i == most && runs.size() > most + 1) {
      parts.push_back("and " + std::to_string(runs.size() - i) + " further gaps up to " +
                      form.of(runs.back().last));
      break;
    }
    std::string one = form.of(runs[i].first);
    if (runs[i].last != runs[i].first) one += " to " + form.of(runs[i].last);
    if (const std::string when = yearsInWords(runs[i].when); !when.empty()) one += " (" + when + ")";
    parts.push_back(std::move(one));
  }
  return base::joined(parts, ", ");
}

class Gatherer {
 public:
  Gatherer(const Words& words, const std::vector<RecordIndex>& records, std::size_t most)
      : words_(words),
        published_(words.materials().records),
        all_(words.materials().chooser.collection()),
        records_(records),
        chosen_(records.begin(), records.end()),
        most_(most) {}

  HelpWanted run() {
    gaps();
    numbers();
    const std::vector<RecordIndex> treatments = ware(Kind::treatment);
    unseen(treatments);
    pieces();
    unread();
    out_.estimates = study::estimatesOf(all_, words_.materials().weights, ware(Kind::shape));
    for (const RecordIndex question : published_.ofKind(Kind::question))
      if (published_[question].text("status"_f) != "settled") out_.questions.push_back(question);
    std::erase_if(out_.parts, [](const WantedPart& part) { return part.lines.empty(); });
    return std::move(out_);
  }

 private:
  // Those of the kind that are meant; decorations also where their shape alone is.
  std::vector<RecordIndex> ware(Kind kind) const {
    std::vector<RecordIndex> out;
    for (const RecordIndex one : records_)
      if (published_[one].kind() == kind) out.push_back(one);
    if (kind != Kind::treatment || !out.empty()) return out;
    for (const RecordIndex one : published_.ofKind(Kind::treatment))
      if (chosen_.contains(shapeOf(one))) out.push_back(one);
    return out;
  }

  RecordIndex shapeOf(RecordIndex treatment) const {
    const Value* shape = published_[treatment].find("shape"_f);
    return shape == nullptr || shape->each().empty() ? records::kNoRecord : shape->each()[0].target();
  }

  // Whichever is told in fewer words: those that are missing, or those that are not.
  Inlines whichOf(const std::vector<RecordIndex>& missing, const std::vector<RecordIndex>& others) const {
    const std::string all = std::to_string(missing.size() + others.size());
    if (missing.size() > most_ && others.size() > most_)
      return {text(std::to_string(missing.size()) + " of the " + all)};
    if (missing.size() <= kFew || missing.size() <= others.size()) return namesOf(missing);
    Inlines out{text("all " + all)};
    if (others.empty()) return out;
    put(out, " but ");
    put(out, namesOf(others));
    return out;
  }

  Inlines namesOf(std::vector<RecordIndex> records) const {
    sortByDate(published_, records);
    return compose::namesOf(words_, records, most_);
  }

  void gaps() {
    WantedPart unknown{"Looked for, and not known", {}};
    WantedPart unrecorded{"Not recorded so far", {}};
    for (const study::Gap& gap : study::gapsOf(all_, records_)) {
      const std::string what =
          capitalised((gap.feature == records::kNoRecord ? fieldInWords(gap.kind, gap.field)
                                                         : "the " + words_.plainFeature(gap.feature)) +
                      " of a " + kindInWords(gap.kind));
      if (!gap.unknown.empty()) unknown.lines.push_back({what, namesOf(gap.unknown)});
      if (!gap.unrecorded.empty()) unrecorded.lines.push_back({what, whichOf(gap.unrecorded, gap.recorded)});
    }
    out_.parts.push_back(std::move(unknown));
    out_.parts.push_back(std::move(unrecorded));
  }

  void numbers() {
    WantedPart missing{"Numbers that are not on record", {}};
    WantedPart lost{"Numbers on pages that are lost", {}};
    const choosing::Chooser& chooser = words_.materials().chooser;
    for (const study::NumberGaps& gaps : study::numberGaps(chooser, words_.materials().codes)) {
      if (!isMeant(gaps)) continue;
      std::string what = capitalised(gaps.rule->name);
      if (!gaps.series.empty()) {
        std::string_view before = gaps.form.before;
        while (!before.empty() && !base::isDigit(before.back()) && !isLetter(before.back()))
          before.remove_suffix(1);
        what += ' ' + std::string(before);
      }
      if (!gaps.missing.empty())
        missing.lines.push_back({what, {text(runsInWords(gaps.form, gaps.missing, most_))}});
      std::map<std::string, std::vector<study::NumberRun>> byReason;
      for (const study::NumberRun& run : gaps.tornOut) byReason[run.because].push_back(run);
      for (const auto& [because, runs] : byReason)
        lost.lines.push_back({what + (because.empty() ? "" : ", " + asClause(because)),
                              {text(runsInWords(gaps.form, runs, most_))}});
    }
    out_.parts.push_back(std::move(missing));
    out_.parts.push_back(std::move(lost));
  }

  static bool isLetter(char c) { return base::isLower(c) || base::isUpper(c) || (c & 0x80) != 0; }

  bool isMeant(const study::NumberGaps& gaps) const {
    if (chosen_.contains(gaps.rule->maker) && gaps.holders.empty()) return true;
    return std::any_of(gaps.holders.begin(), gaps.holders.end(), [&](RecordIndex one) {
      return chosen_.contains(one) || chosen_.contains(shapeOf(one));
    });
  }

  void unseen(const std::vector<RecordIndex>& treatments) {
    const study::Unseen unseen = study::unseenOf(all_, words_.materials().weights, treatments);
    out_.parts.push_back(byShape("Known from documents alone, without a piece", unseen.documents));
    out_.parts.push_back(byShape("Known from reports alone", unseen.reports));
    out_.parts.push_back(byShape("Neither seen nor found in a document", unseen.nothing));
  }

  WantedPart byShape(std::string title, const std::vector<RecordIndex>& treatments) const {
    WantedPart part{std::move(title), {}};
    std::map<RecordIndex, std::vector<RecordIndex>> shapes;
    for (const RecordIndex one : treatments) shapes[shapeOf(one)].push_back(one);
    for (auto& [shape, own] : shapes)
      part.lines.push_back(
          {shape == records::kNoRecord ? "Shape not recorded" : words_.plainName(shape), namesOf(own)});
    return part;
  }

  void pieces() {
    WantedPart part{"Pieces on the lists that nobody has seen", {}};
    for (const study::FormsNeverSeen& one : study::formsNeverSeen(all_, records_)) {
      part.lines.push_back({words_.plainName(one.of), whichOf(one.forms, one.seen)});
    }
    out_.parts.push_back(std::move(part));
  }

  void unread() {
    WantedPart part{"Numbers and date codes that nobody can read yet", {}};
    std::map<std::string, std::vector<RecordIndex>> unreadOn;
    for (const RecordIndex specimen : published_.ofKind(Kind::specimen))
      for (const choosing::CodeOnRecord& code : words_.materials().codes.of(specimen))
        if (code.applies && code.readings.empty() && code.value != nullptr && code.unlike == nullptr)
          unreadOn[std::string(code.value->text)].push_back(specimen);
    constexpr std::size_t kMostCodes = 50;
    for (const auto& [code, specimens] : unreadOn) {
      if (part.lines.size() == kMostCodes) break;
      part.lines.push_back({code, compose::namesOf(words_, specimens, most_)});
      out_.pieces.insert(out_.pieces.end(), specimens.begin(), specimens.end());
    }
    out_.parts.push_back(std::move(part));
  }

  static constexpr std::size_t kFew = 6;
  const Words& words_;
  const Published& published_;
  const choosing::Collection& all_;
  const std::vector<RecordIndex>& records_;
  const std::set<RecordIndex> chosen_;
  const std::size_t most_;
  HelpWanted out_;
};

}  // namespace

HelpWanted helpWanted(const Words& words, const std::vector<RecordIndex>& records, std::size_t most) {
  return Gatherer(words, records, most).run();
}

std::string estimateInWords(const study::Estimate& estimate) {
  const study::Frequencies& seen = estimate.seen;
  const auto least = static_cast<std::size_t>(std::floor(estimate.least));
  const auto covered = static_cast<int>(std::floor(estimate.covered * 100));
  const auto number = [](std::size_t count) {
    return count == 0 ? std::string("none") : codes::numberWord(static_cast<std::int64_t>(count));
  };
  std::string out = countedInWords(seen.kinds, "decoration", "decorations") + " seen on " +
                    countedInWords(seen.pieces, "piece", "pieces") + ", " + number(seen.once) +
                    " of them on one piece alone and " + number(seen.twice) + " on two; ";
  out += least > seen.kinds ? "from that, at least " + std::to_string(least) +
                                  " were made, and of a hundred pieces yet to be met with about " +
                                  std::to_string(covered) + " bear one of those seen"
                            : std::string("nothing in that says that there were more");
  return out + "; known from documents alone, beside them: " + number(estimate.documentsOnly);
}

std::string estimatesSuppose() {
  return "This is a reckoning and no record (Chao's lower bound for how many there were, Good's coverage for "
         "how "
         "much has been seen). It supposes that the pieces came to be seen by chance and independently of "
         "one "
         "another, and that none was taken for another decoration; pieces of one decoration with one owner "
         "count "
         "once. The figure is a least one: what was made for one customer, or hardly survived, may be "
         "missing "
         "from it. Samples and the like are left out, and so is every shape of which fewer than " +
         std::to_string(study::kFewestPieces) + " such pieces have been seen.";
}

}  // namespace saggar::compose
