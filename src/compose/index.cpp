#include "compose/index.h"

#include <algorithm>
#include <map>
#include <unordered_map>

#include "base/text.h"
#include "compose/collation.h"

// The order is that of collation.h. A heading is listed once, whoever gave it: the record of a person and the words that
// an author marked meet under "Quoyne, Ismerelda". The place where a thing is described comes first and in bold, then the
// chapters whose prose speaks of it; another name leads by "see" to the name that is used.
namespace saggar::compose {

using document::text;
using records::Value;

namespace {

struct Locator {
  Target target;
  std::size_t chapter = 0;
  bool main = false;
};

struct Heading {
  std::string words;
  std::string gloss;  // tells two headings of the same words apart
  std::vector<Locator> locators;
  std::vector<std::pair<RecordIndex, std::string>> see;
};

constexpr std::size_t kMostChapters = 6;

// "Quoyne, Ismerelda": the last word first. A name that is one word, or has a comma already, stays.
std::string inverted(const std::string& name) {
  const std::size_t blank = name.rfind(' ');
  if (blank == std::string::npos || name.find(',') != std::string::npos) return name;
  return name.substr(blank + 1) + ", " + name.substr(0, blank);
}

class Index {
 public:
  explicit Index(Page& page) : page_(page), collation_(page.records().settings().language) {}

  Blocks compose() {
    gatherMentions();
    for (Kind kind : {Kind::maker, Kind::person, Kind::shape, Kind::motif, Kind::form, Kind::mark, Kind::set,
                      Kind::term, Kind::question})
      for (RecordIndex record : page_.records().ofKind(kind)) take(record);
    // A decoration is found by its number and its motif; one that has a name, by that too.
    for (RecordIndex treatment : page_.records().ofKind(Kind::treatment)) {
      if (page_.record(treatment).text("name"_f).empty()) {
        takeOtherNames(treatment);
      } else {
        take(treatment);
      }
    }
    for (const MarkedEntry& one : page_.book().marked) {
      const Chapter& chapter = chapters()[one.chapter];
      heading(one.heading)
          .locators.push_back(
              {{.file = chapter.file, .anchor = one.anchor, .address = {}}, one.chapter, false});
    }
    Blocks out{document::heading(1, {text(page_.chapter().title)})};
    indexNumbers(page_, out);
    letters(out);
    if (out.size() == 1) out.push_back(document::paragraph({text("None recorded.")}));
    return out;
  }

 private:
  const std::vector<Chapter>& chapters() const { return page_.book().places().chapters(); }

  // Which chapters' prose speaks of a record.
  void gatherMentions() {
    const auto& files = page_.records().prose();
    std::vector<std::size_t> chapterOf(files.size(), SIZE_MAX);
    for (std::size_t i = 0; i < files.size(); ++i)
      if (const auto target = page_.book().places().resolve(files[i].path, "#"))
        chapterOf[i] = target->chapter;
    for (const linking::Mention& mention : page_.records().mentions()) {
      if (mention.from != records::kNoRecord || mention.prose >= files.size() ||
          chapterOf[mention.prose] == SIZE_MAX)
        continue;
      std::vector<std::size_t>& known = mentioned_[mention.target];
      if (std::find(known.begin(), known.end(), chapterOf[mention.prose]) == known.end())
        known.push_back(chapterOf[mention.prose]);
    }
  }

  Heading& heading(const std::string& words, const std::string& gloss = {}) {
    Heading& found = headings_[words + '\n' + gloss];
    found.words = words;
    found.gloss = gloss;
    return found;
  }

  void take(RecordIndex record) {
    const PublishedRecord one = page_.record(record);
    if (one.kind() == Kind::question && one.text("name"_f).empty()) return;
    std::string name = page_.words().plainName(record);
    if (one.kind() == Kind::person) name = inverted(name);
    if (one.kind() != Kind::form && one.kind() != Kind::term) name = capitalised(std::move(name));
    const auto place = page_.book().places().of(record);
    const auto home = page_.book().places().chapterOf(record);
    if (!place || !home) return;
    std::vector<std::string> names{name};
    if (one.kind() == Kind::term &&
        name.find(", ") != std::string::npos) {  // "decal, decalcomania" stands under both
      names.clear();
      for (std::string_view part : base::split(name, ',')) names.emplace_back(base::trimmed(part));
    }
    for (const std::string& own : names) {
      Heading* entry = &heading(own);
      const bool taken = std::any_of(entry->locators.begin(), entry->locators.end(),
                                     [](const Locator& locator) { return locator.main; });
      if (taken) entry = &heading(own, glossOf(one));
      entry->locators.insert(entry->locators.begin(), {*place, *home, true});
      for (std::size_t chapter : mentionedIn(record))
        if (chapter != *home)
          entry->locators.push_back(
              {{.file = chapters()[chapter].file, .anchor = {}, .address = {}}, chapter, false});
    }
    takeOtherNames(record);
    if (const Value* works = one.find("works"_f); works != nullptr && works->said())
      for (const Value& each : works->each())
        if (const Value* worksName = each.find("name"_f); worksName != nullptr && worksName->said())
          heading(std::string(worksName->text))
              .locators.insert(heading(std::string(worksName->text)).locators.begin(), {*place, *home, true});
  }

  void takeOtherNames(RecordIndex record) {
    const PublishedRecord one = page_.record(record);
    const Value* also = one.find("also"_f);
    if (also == nullptr || !also->said()) return;
    for (const Value& each : also->each()) {
      const Value* name = each.find("name"_f);
      if (name == nullptr || !name->said()) continue;
      std::string own = page_.words().plainName(record);
      if (one.kind() == Kind::person) own = inverted(own);
      heading(std::string(name->text)).see.emplace_back(record, std::move(own));
    }
  }

  std::string glossOf(const PublishedRecord& record) const { return kindInWords(record.kind()); }

  const std::vector<std::size_t>& mentionedIn(RecordIndex record) const {
    static const std::vector<std::size_t> kNone;
    const auto found = mentioned_.find(record);
    return found == mentioned_.end() ? kNone : found->second;
  }

  // Each chapter once: the place of the description before a marked one, and that before the chapter's top. Descriptions
  // first, then in the order of the guide.
  static std::vector<Locator> chaptersOf(const Heading& one) {
    auto worth = [](const Locator& locator) {
      return locator.main ? 2 : locator.target.anchor.empty() ? 0 : 1;
    };
    std::vector<Locator> out;
    for (const Locator& locator : one.locators) {
      const auto known = std::find_if(out.begin(), out.end(),
                                      [&](const Locator& other) { return other.chapter == locator.chapter; });
      if (known == out.end()) {
        out.push_back(locator);
      } else if (worth(locator) > worth(*known)) {
        *known = locator;
      }
    }
    std::stable_sort(out.begin(), out.end(), [](const Locator& a, const Locator& b) {
      return std::pair(!a.main, a.chapter) < std::pair(!b.main, b.chapter);
    });
    return out;
  }

  Inlines line(const Heading& one) const {
    Inlines out;
    put(out, one.words);
    if (!one.gloss.empty()) put(out, " (" + one.gloss + ")");
    std::vector<Inlines> places;
    std::size_t left = 0;
    for (const Locator& locator : chaptersOf(one)) {
      if (!locator.main && places.size() > kMostChapters) {
        ++left;
        continue;
      }
      Inlines link{document::link({text(chapters()[locator.chapter].title)}, locator.target)};
      places.push_back(locator.main ? Inlines{document::strong(std::move(link))} : std::move(link));
    }
    if (left != 0) places.push_back({text("and " + countedInWords(left, "place more", "places more"))});
    if (!places.empty()) {
      put(out, ": ");
      put(out, separated(std::move(places), "; "));
    }
    std::vector<std::string> said;
    for (const auto& [record, name] : one.see) {
      if (std::find(said.begin(), said.end(), name) != said.end()) continue;
      put(out, said.empty() && one.locators.empty() ? ", " : "; ");
      out.push_back(document::emphasis({text(one.locators.empty() ? "see" : "see also")}));
      put(out, " ");
      put(out, page_.words().linked(record, {text(name)}));
      said.push_back(name);
    }
    return out;
  }

  void letters(Blocks& out) const {
    std::vector<std::pair<std::string, const Heading*>> sorted;
    sorted.reserve(headings_.size());
    for (const auto& [key, one] : headings_) sorted.emplace_back(collation_.key(one.words), &one);
    std::sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) {
      return std::pair(a.first, a.second->gloss) < std::pair(b.first, b.second->gloss);
    });
    std::string letter;
    std::vector<Blocks> items;
    auto flush = [&] {
      if (items.empty()) return;
      out.push_back(document::heading(2, {text(letter)}));
      out.push_back(document::list(std::move(items)));
      items.clear();
    };
    for (const auto& [key, one] : sorted) {
      std::string own = collation_.letter(one->words);
      if (own != letter) {
        flush();
        letter = std::move(own);
      }
      items.push_back(item(line(*one)));
    }
    flush();
  }

  Page& page_;
  Collation collation_;
  std::map<std::string, Heading> headings_;
  std::unordered_map<RecordIndex, std::vector<std::size_t>> mentioned_;
};

}  // namespace

Blocks indexChapter(Page& page) {
  return Index(page).compose();
}

}  // namespace saggar::compose
