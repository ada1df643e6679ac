#include "compose/sources.h"

#include <algorithm>
#include <set>

#include "base/text.h"
#include "compose/facts.h"
#include "compose/lists.h"
#include "evidence/source_types.h"

namespace saggar::compose {

using document::text;
using records::Value;

namespace {

std::string typeInWords(std::string_view type) {
  const evidence::SourceType* known = evidence::sourceTypeNamed(type);
  return std::string(known == nullptr ? type : known->words);
}

// What a source is worth as evidence, by its type unless the author says otherwise.
struct Grade {
  std::string_view record;       // as evidence::word(Form)
  std::string_view information;  // as evidence::word(Information)
  bool own = false;              // the author's, not the type's
};

Grade gradeOf(const PublishedRecord& source) {
  Grade grade;
  if (const evidence::SourceType* type = evidence::sourceTypeNamed(source.text("type"_f)))
    grade = {evidence::word(type->form), evidence::word(type->information), false};
  if (const std::string_view own = source.text("record"_f); !own.empty()) {
    grade.own |= own != grade.record;
    grade.record = own;
  }
  if (const std::string_view own = source.text("information"_f); !own.empty()) {
    grade.own |= own != grade.information;
    grade.information = own;
  }
  return grade;
}

std::string typeWithArticle(std::string_view type) {
  const std::string words = typeInWords(type);
  return words == "hearsay" ? words : withArticle(words);
}

std::string gradeInWords(const PublishedRecord& source) {
  const Grade grade = gradeOf(source);
  if (grade.record.empty()) return {};
  const std::string words = grade.record == "original"     ? "an original record"
                            : grade.record == "derivative" ? "a derivative record"
                                                           : "an authored account";
  const std::string information = grade.information == "primary"     ? "with first-hand information"
                                  : grade.information == "secondary" ? "with second-hand information"
                                                                     : "with information of unknown origin";
  return words + ' ' + information + (grade.own ? " (the author's grading)" : "");
}

Inlines makersOf(const Page& page, const PublishedRecord& source) {
  std::vector<Inlines> names;
  if (const Value* by = source.find("by"_f); by != nullptr && by->said())
    for (const Value& one : by->each()) names.push_back(page.words().somebody(one.text));
  return listed(std::move(names));
}

std::string dateOf(const Page& page, const PublishedRecord& source) {
  const Value* date = source.find("date"_f);
  if (date == nullptr) return "date not recorded";
  return date->said() ? page.words().shortDate(date) : "date not known";
}

// The chapters in which a source is cited, in their order: by facts of the records described there and by prose.
std::vector<std::size_t> citedIn(const Page& page, RecordIndex source,
                                 const std::vector<std::vector<std::size_t>>& byProse) {
  std::set<std::size_t> chapters(byProse[source].begin(), byProse[source].end());
  for (const linking::BackReference& back : page.records().citedBy(source))
    if (const auto chapter = page.book().places().chapterOf(back.from)) chapters.insert(*chapter);
  return {chapters.begin(), chapters.end()};
}

}  // namespace

Inlines sourceInBrief(const Page& page, RecordIndex index) {
  const PublishedRecord source = page.record(index);
  Inlines out;
  Inlines by = makersOf(page, source);
  if (!by.empty()) {
    put(out, "By ");
    put(out, std::move(by));
    put(out, ", " + dateOf(page, source));
  } else {
    put(out, capitalised(dateOf(page, source)));
  }
  if (const std::string_view type = source.text("type"_f); !type.empty())
    put(out, "; " + typeWithArticle(type));
  put(out, ".");
  if (const std::string grade = gradeInWords(source); !grade.empty())
    put(out, " " + capitalised(grade) + ".");
  return out;
}

Blocks sourcesChapter(Page& page) {
  const Published& records = page.records();
  std::vector<std::vector<std::size_t>> byProse(page.words().materials().chooser.collection().size());
  for (const linking::Mention& mention : records.mentions()) {
    if (!mention.citation) continue;
    std::optional<std::size_t> chapter;
    if (mention.from != records::kNoRecord && page.record(mention.from).kind() == Kind::talk)
      continue;  // what is said is not printed here
    if (mention.from != records::kNoRecord) {
      chapter = page.book().places().chapterOf(mention.from);
    } else if (mention.prose < records.prose().size()) {
      if (const auto target = page.book().places().resolve(records.prose()[mention.prose].path, "#"))
        chapter = target->chapter;
    }
    if (chapter && (byProse[mention.target].empty() || byProse[mention.target].back() != *chapter))
      byProse[mention.target].push_back(*chapter);
  }
  std::vector<choosing::Chosen> sources;
  for (RecordIndex source : records.ofKind(Kind::source)) sources.push_back({source, true});
  sortByName(page, sources);
  Blocks out;
  if (sources.empty()) {
    out.push_back(noneRecorded());
    return out;
  }
  out.push_back(
      document::paragraph({text("Every citation in this guide leads here. An original record is the document "
                                "itself and a derivative one a copy of it; an "
                                "authored account was put together afterwards from others. First-hand "
                                "information comes from somebody who was there.")}));
  out.push_back(document::paragraph(
      {text("What stands without a word about its standing is documented: an original source says it "
            "directly and "
            "at first hand. "),
       document::emphasis({text("Supported")}),
       text(" is what two witnesses say who owe each other nothing, or one original source that says it only "
            "at "
            "second hand, indirectly or long afterwards, or a copy of an original; "),
       document::emphasis({text("suggested")}), text(" what any other source says; "),
       document::emphasis({text("disputed")}),
       text(" what cannot be true together with something else. Days are "),
       document::emphasis({text("proven")}), text(" by what is documented and not disputed, "),
       document::emphasis({text("likely")}), text(" by all that is recorded.")}));
  for (const choosing::Chosen& one : sources) {
    const PublishedRecord source = page.record(one.record);
    Inlines first{document::anchorAt(page.takeAnchor(one.record))};
    const std::string title = page.words().plainName(one.record);
    first.push_back(document::strong({text(title)}));
    if (const std::string brief = page.words().shortName(one.record); brief != title) {
      put(first, " (in short: ");
      first.push_back(document::emphasis({text(brief)}));
      put(first, ")");
    }
    put(first, ". ");
    Inlines by = makersOf(page, source);
    if (!by.empty()) {
      put(first, "By ");
      put(first, std::move(by));
      put(first, ". ");
    }
    if (const std::string_view publisher = source.text("publisher"_f); !publisher.empty())
      put(first, std::string(publisher) + ", ");
    std::string date = dateOf(page, source);
    put(first, (source.text("publisher"_f).empty() ? capitalised(date) : date) + ".");
    if (const std::string_view type = source.text("type"_f); !type.empty())
      put(first, " " + capitalised(typeWithArticle(type)) + "; ");
    put(first, gradeInWords(source) + (gradeInWords(source).empty() ? "" : "."));
    out.push_back(document::paragraph(std::move(first)));
    std::vector<Blocks> items;
    if (auto names = namesFact(page, source)) items.push_back(std::move(*names));
    for (Blocks& fact : facts(page, source,
                              {"type"_f, "by"_f, "date"_f, "publisher"_f, "record"_f, "information"_f,
                               "link"_f, "draws-on"_f}))
      items.push_back(std::move(fact));
    if (const Value* link = source.find("link"_f); link != nullptr && link->said())
      items.push_back(labelled(
          "On the web", {document::link({text(std::string(link->text))},
                                        {.file = {}, .anchor = {}, .address = std::string(link->text)})}));
    if (const Value* draws = source.find("draws-on"_f); draws != nullptr && draws->said()) {
      Inlines words = page.words().value(draws, records::specOf(Kind::source, "draws-on"_f), source);
      put(words, ", so that they are one witness and not two");
      items.push_back(labelled("Draws on", std::move(words)));
    }
    if (const auto followers = referring(page, one.record, Kind::source, "draws-on"_f); !followers.empty())
      items.push_back(labelled("Drawn on by", namesOf(page, followers)));
    if (const auto parts = referring(page, one.record, Kind::source, "in"_f); !parts.empty())
      items.push_back(labelled("Holds", namesOf(page, parts)));
    if (auto described = sourcesFact(page, source)) items.push_back(std::move(*described));
    const auto chapters = citedIn(page, one.record, byProse);
    Inlines cited;
    std::vector<Inlines> names;
    constexpr std::size_t kMost = 12;
    const std::size_t shown = chapters.size() > kMost + 1 ? kMost : chapters.size();
    for (std::size_t i = 0; i < shown; ++i) {
      const Chapter& chapter = page.book().places().chapters()[chapters[i]];
      if (chapter.type == ChapterType::sources) continue;
      names.push_back(
          {document::link({text(chapter.title)}, {.file = chapter.file, .anchor = {}, .address = {}})});
    }
    if (shown < chapters.size())
      names.push_back({text(countedInWords(chapters.size() - shown, "chapter more", "chapters more"))});
    const bool any = !names.empty();
    items.push_back(labelled("Cited in", any ? listed(std::move(names)) : Inlines{text("no chapter")}));
    out.push_back(document::list(std::move(items)));
    for (Block& block : noteOf(page, source)) out.push_back(std::move(block));
  }
  return out;
}

}  // namespace saggar::compose
