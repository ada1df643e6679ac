// Five hundred mistakes of one letter in the names that the demo uses, each typed where an author types that name: the
// program must offer the right one first for at least 95 of 100, and nothing where nothing is near.
#include <doctest/doctest.h>

#include <array>
#include <map>
#include <random>
#include <set>

#include "base/text.h"
#include "commands/command.h"
#include "commands/pipeline.h"
#include "records/tables.h"

using namespace saggar;

namespace {

enum class Where { kind, field, id, choice, rule, command, block };
constexpr std::array kPlaces{"kind", "field", "id", "choice word", "rule", "command", "block"};

// A name, and what an author would type in front of it and behind it.
struct Name {
  Where where;
  std::string right;
  std::string before;
  std::string after;
};

struct Mistake {
  Name name;
  std::string typed;
};

void addFolder(const source::Files& disk, const std::string& folder, const std::string& as,
               source::MemoryFiles& world) {
  const auto entries = disk.list(folder);
  REQUIRE(entries);
  for (const source::FolderEntry& entry : *entries) {
    const std::string path = source::pathJoined(folder, entry.name);
    const std::string name = source::pathJoined(as, entry.name);
    if (entry.status.type == source::FileType::folder) {
      addFolder(disk, path, name, world);
    } else {
      world.put(name, disk.read(path).bytes);
    }
  }
}

class Demo {
 public:
  Demo() {
    addFolder(source::DiskFiles(), DEMO, "guide", world_);
    const auto guide = commands::runPipeline(environment(), "guide");
    gather(guide->collection);
  }

  const std::vector<Name>& names(Where where) const { return names_.at(where); }
  bool known(Where where, const std::string& word) const { return known_.at(where).contains(word); }

  // What the program offers for each mistake: its hint.
  std::vector<std::string> hints(const std::vector<Mistake>& mistakes) {
    std::string records;
    std::string prose = "# Mistakes\n";
    std::map<std::pair<std::string, std::size_t>, std::size_t> at;  // file and line: which mistake
    std::vector<std::string> out(mistakes.size());
    auto line = [](const std::string& text) {
      return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
    };
    for (std::size_t i = 0; i < mistakes.size(); ++i) {
      const auto& [name, typed] = mistakes[i];
      const std::string words = name.before + typed + name.after;
      switch (name.where) {
        case Where::rule: out[i] = said({"saggar", "why", typed}); break;
        case Where::command: out[i] = said({"saggar", typed}); break;
        case Where::block:
          prose += words;
          at[{"prose/mistakes.md", line(prose) - 1}] = i;
          break;
        default: {
          const std::string text = base::joined(numbered(words, i), "");
          records += text;
          at[{"mistakes.yaml", line(records)}] = i;
        }
      }
    }
    world_.put("guide/mistakes.yaml", records);
    world_.put("guide/prose/mistakes.md", prose);
    const auto guide = commands::runPipeline(environment(), "guide");
    for (const diagnostics::Finding& finding : guide->report.findings) {
      if (!finding.span.known()) continue;
      const source::Place place = guide->collection.sources().place(finding.span);
      const auto found = at.find({std::string(place.path), place.line});
      if (found == at.end() || !isOfName(finding.rule.id())) continue;
      out[found->second] += finding.hint;
    }
    return out;
  }

 private:
  static bool isOfName(std::string_view rule) {
    return rule == "kind-unknown" || rule == "field-unknown" || rule == "reference-missing" ||
           rule == "value-unfit" || rule == "block-unknown";
  }

  // Every record of the mistakes' file has an id of its own.
  static std::vector<std::string> numbered(const std::string& words, std::size_t i) {
    std::vector<std::string> out;
    for (std::string_view piece : base::split(words, '@')) {
      if (!out.empty()) out.push_back("mistake-" + std::to_string(i));
      out.emplace_back(piece);
    }
    return out;
  }

  commands::Environment environment() {
    return {.files = world_,
            .currentFolder = "guide",
            .out = [](std::string_view) {},
            .err = [this](std::string_view text) { said_ += text; },
            .readLine = [](std::string&) { return false; }};
  }

  std::string said(const std::vector<const char*>& words, const std::string& = {}) {
    said_.clear();
    commands::run(environment(), static_cast<int>(words.size()), words.data());
    return said_;
  }
  std::string said(std::initializer_list<std::string> words) {
    std::vector<const char*> all;
    for (const std::string& word : words) all.push_back(word.c_str());
    return said(all);
  }

  void add(Where where, std::string right, std::string before, std::string after) {
    known_[where].insert(right);
    names_[where].push_back({where, std::move(right), std::move(before), std::move(after)});
  }

  void gather(const linking::Collection& demo) {
    std::set<std::pair<records::Kind, records::Field>> used;
    for (const records::Record& record : demo.records()) {
      const std::string kind(name(record.kind));
      add(Where::id, std::string(record.id), "- term: @\n  means: A mistake.\n  see: " + kind + ":", "\n");
      for (const records::Entry& entry : record.fields) {
        if (!entry.known || !used.emplace(record.kind, entry.field).second) continue;
        add(Where::field, std::string(entry.key), "- " + kind + ": @\n  ", ": 1\n");
        const records::FieldSpec* spec = records::specOf(record.kind, entry.field);
        if (spec == nullptr) continue;
        for (std::string_view word : spec->words)
          add(Where::choice, std::string(word), "- " + kind + ": @\n  " + std::string(entry.key) + ": ",
              "\n");
      }
    }
    for (const records::FieldSpec& field : records::commonFields())
      known_[Where::field].insert(std::string(field.field.name()));
    for (const records::KindSpec& spec : records::kindSpecs()) {
      for (const records::FieldSpec* field : records::fieldsOf(spec.kind))
        known_[Where::field].insert(std::string(field->field.name()));
      if (spec.kind != records::Kind::guide) add(Where::kind, std::string(name(spec.kind)), "- ", ": @\n");
    }
    for (std::string_view id : diagnostics::ruleIds()) add(Where::rule, std::string(id), "", "");
    for (const char* command :
         {"check", "make", "show", "find", "code", "date", "why", "blank", "schema", "stage"})
      add(Where::command, command, "", "");
    for (std::string_view block : records::blockNames())
      add(Where::block, std::string(block), "\n```", "\n```\n");
  }

  source::MemoryFiles world_;
  std::string said_;
  std::map<Where, std::vector<Name>> names_;
  std::map<Where, std::set<std::string>> known_;
};

std::string withOneWrong(const std::string& right, std::mt19937& random) {
  constexpr std::string_view kLetters = "abcdefghijklmnopqrstuvwxyz";
  std::string typed = right;
  const std::size_t at = random() % right.size();
  switch (random() % 4) {
    case 0: typed.erase(at, 1); break;
    case 1: typed.insert(at, 1, right[at]); break;
    case 2:
      typed[at] = base::isDigit(right[at]) ? static_cast<char>('0' + random() % 10)
                                           : kLetters[random() % kLetters.size()];
      break;
    default:
      if (at + 1 < typed.size()) std::swap(typed[at], typed[at + 1]);
  }
  return typed;
}

// The first name that a hint offers in backquotes; of a command or an event, its last word.
std::string firstOffered(const std::string& hint) {
  const std::size_t open = std::min(hint.find("did you mean `"), hint.find("type `"));
  if (open == std::string::npos) return {};
  const std::size_t begin = hint.find('`', open) + 1;
  std::string offered = hint.substr(begin, hint.find('`', begin) - begin);
  for (const char* before : {"saggar why ", "saggar "})
    if (offered.starts_with(before)) return offered.substr(std::string_view(before).size());
  if (const std::size_t colon = offered.find(':'); colon != std::string::npos) offered.erase(0, colon + 1);
  return offered;
}

}  // namespace

TEST_CASE("five hundred mistakes of one letter: the right name is offered first for at least 95 of 100") {
  Demo demo;
  const std::map<Where, std::size_t> shares{{Where::kind, 40},   {Where::field, 120}, {Where::id, 200},
                                            {Where::choice, 60}, {Where::rule, 40},   {Where::command, 20},
                                            {Where::block, 20}};
  std::mt19937 random(500);
  std::vector<Mistake> mistakes;
  for (const auto& [where, share] : shares) {
    std::size_t made = 0;
    while (made < share) {
      const std::vector<Name>& names = demo.names(where);
      const Name& name = names[random() % names.size()];
      std::string typed = withOneWrong(name.right, random);
      // Another name of the same sort is no mistake that anybody could see; a dash in front makes it something else.
      if (typed.empty() || demo.known(where, typed) || typed.front() == '-' || typed.front() == ' ' ||
          typed.back() == ' ')
        continue;
      mistakes.push_back({name, std::move(typed)});
      ++made;
    }
  }
  REQUIRE(mistakes.size() == 500);
  const std::vector<std::string> hints = demo.hints(mistakes);
  std::map<Where, std::size_t> right;
  std::string wrong;
  std::size_t all = 0;
  for (std::size_t i = 0; i < mistakes.size(); ++i) {
    const auto& [name, typed] = mistakes[i];
    if (firstOffered(hints[i]) == name.right) {
      ++right[name.where];
      ++all;
    } else {
      wrong += std::string(kPlaces[static_cast<std::size_t>(name.where)]) + ": " + typed + " for " +
               name.right + ": " + hints[i] + '\n';
    }
  }
  CHECK_MESSAGE(all * 100 >= mistakes.size() * 95, all << " of " << mistakes.size()
                                                       << " are right; wrong are\n"
                                                       << wrong);
  for (const auto& [where, share] : shares)
    CHECK_MESSAGE(right[where] * 100 >= share * 85, kPlaces[static_cast<std::size_t>(where)]
                                                        << ": " << right[where] << " of " << share
                                                        << "; wrong are\n"
                                                        << wrong);
}

TEST_CASE("nothing is offered for a word that is near to nothing") {
  Demo demo;
  std::vector<Mistake> mistakes;
  for (const char* word : {"umbrella", "xylophone", "qwzx", "hippopotamus", "yonder-brook", "kkkkkkkk",
                           "pilgrimage", "voucher-box", "zzz", "unquenchably"})
    for (const Where where :
         {Where::kind, Where::field, Where::id, Where::choice, Where::rule, Where::command, Where::block})
      mistakes.push_back({demo.names(where).front(), word});
  const std::vector<std::string> hints = demo.hints(mistakes);
  for (std::size_t i = 0; i < mistakes.size(); ++i)
    CHECK_MESSAGE(firstOffered(hints[i]).empty(), kPlaces[static_cast<std::size_t>(mistakes[i].name.where)]
                                                      << " " << mistakes[i].typed << ": " << hints[i]);
}
