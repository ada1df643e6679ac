#include <CLI/CLI.hpp>

#include <algorithm>

#include "base/edit_distance.h"
#include "base/text.h"
#include "commands/command.h"
#include "commands/help.h"
#include "dates/dates.h"

// The library takes the words apart; what is missing, too much or misspelt is told here, in words for authors. Its own
// messages never reach one.
namespace saggar::commands {
namespace {

constexpr const char* kVersion = "saggar 0.1";
constexpr std::string_view kFormats[] = {"text", "json"};
constexpr std::string_view kParts[] = {"guide", "checklists", "talks", "corrections"};
constexpr std::string_view kStages[] = {"records", "links", "evidence", "bounds", "document"};

std::string inTicks(std::string_view word) {
  return '`' + base::shortened(word, 60) + '`';
}

std::string listed(std::span<const std::string_view> words, std::string_view last) {
  std::vector<std::string> all;
  for (std::string_view word : words) all.push_back('`' + std::string(word) + '`');
  return base::listedInWords(all, last);
}

// "did you mean …?", with what stands before the word that is meant; else what can be typed at all.
std::string hintFor(std::string_view typed, std::span<const std::string_view> known,
                    const std::string& before, const std::string& otherwise) {
  const auto near = base::nearest(typed, known);
  return near ? "did you mean `" + before + std::string(*near) + "`?" : otherwise;
}

bool isDate(const std::string& text) {
  return static_cast<bool>(dates::parse(text));
}

bool asksForJson(const std::vector<std::string>& words) {
  for (std::size_t i = 0; i < words.size(); ++i)
    if (words[i] == "--format=json" || (words[i] == "json" && i > 0 && words[i - 1] == "--format"))
      return true;
  return false;
}

class CommandLine {
 public:
  explicit CommandLine(const Environment& environment) : environment_(environment), app_("", "saggar") {
    app_.set_help_flag("-h,--help");
    app_.set_version_flag("--version", kVersion);
    app_.require_subcommand(0, 1);
    app_.allow_extras();
    app_.fallthrough();
    app_.add_option("-C", folder_)->take_last();
    for (const CommandHelp& one : commandHelp())
      app_.add_subcommand(std::string(one.name))->allow_extras()->fallthrough();

    option("check", "--only", only_)->join(',');
    command("check").add_flag("--strict", check_.strict);
    formatOf("check", check_.format);

    command("make").add_option("parts", make_.parts);
    option("make", "-o", make_.out);
    option("make", "--own", make_.own);
    command("make").add_flag("--draft", make_.draft);
    formatOf("make", make_.format);

    command("show").add_option("record", show_.reference);
    formatOf("show", show_.format);
    formatOf("find", find_.format);
    command("code").add_option("text", code_.text);
    option("code", "--maker", code_.maker);
    formatOf("code", code_.format);
    command("date").add_flag("--read", readsDates_);
    formatOf("date", events_.format);
    formatOf("first", events_.format);
    command("why").add_option("rule", why_.rule);
    command("blank").add_option("kind", blank_.kind);
    command("blank").add_option("name", blank_.name);
    command("schema").add_flag("--page", schema_.page);
    command("stage").add_option("stage", stage_.stage);
    command("stage").add_option("record", stage_.reference);
  }

  int run(std::vector<std::string> words) {
    json_ = asksForJson(words);
    const auto dashes = std::find(words.begin(), words.end(), "--");
    plain_.assign(dashes, words.end());
    if (const int bad = parse(words); bad != kFine) return bad;
    if (done_) return kFine;
    const auto chosen = app_.get_subcommands();
    if (const int bad = extras(chosen.empty() ? app_ : *chosen[0]); bad != kFine) return bad;
    if (chosen.empty())
      return cannot("no command is given",
                    "`saggar check` reads and checks a guide; `saggar --help` lists all commands");
    if (const int bad = complete(*chosen[0]); bad != kFine) return bad;
    return dispatch(chosen[0]->get_name());
  }

 private:
  CLI::App& command(const std::string& name) { return *app_.get_subcommand(name); }
  CLI::Option* option(const std::string& of, const std::string& name, std::string& value) {
    return command(of).add_option(name, value)->take_last();
  }
  void formatOf(const std::string& of, std::string& value) {
    option(of, "--format", value);
    formats_.emplace_back(of, &value);
  }
  int cannot(const std::string& error, const std::string& hint) const {
    return commands::cannot(environment_, json_, error, hint);
  }

  int parse(std::vector<std::string> words) {
    std::reverse(words.begin(), words.end());
    try {
      app_.parse(words);
    } catch (const CLI::CallForHelp&) {
      const auto chosen = app_.get_subcommands();
      const CommandHelp* page = chosen.empty() ? nullptr : helpOf(chosen[0]->get_name());
      environment_.out(page != nullptr ? page->text : programHelp());
      done_ = true;
    } catch (const CLI::CallForVersion&) {
      environment_.out(std::string(kVersion) + '\n');
      done_ = true;
    } catch (const CLI::ParseError& error) {
      return cannotTake(error);
    }
    return kFine;
  }

  // What can be left: an option at the end of the line, without its value.
  int cannotTake(const CLI::ParseError& error) const {
    const std::string said = error.what();
    const std::string option = said.substr(0, said.find(':'));
    const auto chosen = app_.get_subcommands();
    const std::string command = chosen.empty() ? "saggar" : "saggar " + chosen[0]->get_name();
    if (!option.starts_with("-"))
      return cannot("this could not be understood", '`' + command + " --help` shows how it is written");
    return cannot("nothing follows " + inTicks(option) + ", which wants a value",
                  option == "-C" ? "write the guide's folder behind it, as `-C my-guide`"
                                 : '`' + command + " --help` shows what goes behind it");
  }

  // Options that there are not, and words too many. What `find` and `date` take comes this way too: the library would
  // take a `[1932,1934]` for a list of its own.
  int extras(const CLI::App& chosen) {
    const bool none = &chosen == &app_;
    const std::string name = none ? "" : chosen.get_name();
    std::vector<std::string> words;
    // A year before year 0 begins with a minus, as an option does; behind `--` nothing is an option.
    auto isOption = [&](const std::string& word) {
      if (word.size() < 2 || word[0] != '-' || (name == "date" && base::isDigit(word[1]))) return false;
      return std::find(plain_.begin(), plain_.end(), word) == plain_.end();
    };
    for (std::string& word : app_.remaining(true)) {
      if (isOption(word))
        return none && !words.empty() ? unknownCommand(words[0]) : unknownOption(chosen, word);
      if (word != "--") words.push_back(std::move(word));
    }
    if (name == "find" || name == "date" || name == "first") {
      (name == "find" ? find_.words : name == "date" ? date_.expressions : events_.events) = std::move(words);
      return kFine;
    }
    if (words.empty()) return kFine;
    if (none) return unknownCommand(words[0]);
    const bool place = words[0].find('/') != std::string::npos ||
                       environment_.files.status(words[0]).type == source::FileType::folder;
    return cannot(
        "`saggar " + name + "` does not know what to do with " + inTicks(words[0]),
        place ? "the guide's folder is named with `-C " + base::shortened(words[0], 60) + "`"
              : "`saggar " + name + " --help` says what it takes; what has blanks in it goes into quotes");
  }

  int unknownOption(const CLI::App& chosen, const std::string& typed) {
    std::vector<std::string> names{"--help"};
    for (const CLI::App* app : {&chosen, static_cast<const CLI::App*>(&app_)})
      for (const CLI::Option* one : app->get_options())
        for (const std::string& name : one->get_lnames()) names.push_back("--" + name);
    const std::vector<std::string_view> known(names.begin(), names.end());
    const bool none = &chosen == &app_;
    const std::string owner = none ? "saggar" : "saggar " + chosen.get_name();
    const std::string word = typed.substr(0, typed.find('='));
    return cannot('`' + owner + "` has no option " + inTicks(word),
                  hintFor(word, known, "", '`' + owner + " --help` lists what it takes"));
  }

  int unknownCommand(const std::string& typed) {
    std::vector<std::string_view> known;
    for (const CommandHelp& one : commandHelp()) known.push_back(one.name);
    if (typed == "help") return cannot("there is no command `help`", "did you mean `saggar --help`?");
    return cannot("there is no command " + inTicks(typed),
                  hintFor(typed, known, "saggar ", "the commands are " + listed(known, "and")));
  }

  // Values that cannot be, and words that are missing.
  int complete(const CLI::App& chosen) {
    const std::string name = chosen.get_name();
    for (const auto& [option, value] :
         std::initializer_list<std::pair<const char*, const std::string*>>{{"-C", &folder_},
                                                                           {"-o", &make_.out},
                                                                           {"--own", &make_.own},
                                                                           {"--maker", &code_.maker},
                                                                           {"--only", &only_}})
      if (value->size() > 1 && value->front() == '-')
        return cannot(
            "nothing stands between `" + std::string(option) + "` and " + inTicks(*value),
            "a value goes behind the option; a folder whose name begins with `-` is written `./-…`");
    for (const auto& [of, format] : formats_)
      if (of == name && std::find(std::begin(kFormats), std::end(kFormats), *format) == std::end(kFormats))
        return cannot(inTicks(*format) + " is no format",
                      hintFor(*format, kFormats, "--format ", "a format is `text` or `json`"));
    for (const std::string& part : make_.parts)
      if (std::find(std::begin(kParts), std::end(kParts), part) == std::end(kParts))
        return cannot(inTicks(part) + " is no part that can be made",
                      hintFor(part, kParts, "saggar make ", "the parts are " + listed(kParts, "and")));
    if (!stage_.stage.empty() &&
        std::find(std::begin(kStages), std::end(kStages), stage_.stage) == std::end(kStages))
      return cannot(
          inTicks(stage_.stage) + " is no stage",
          hintFor(stage_.stage, kStages, "saggar stage ", "the stages are " + listed(kStages, "and")));
    if (name == "date" && !readsDates_) {
      const std::string typed = base::joined(date_.expressions, " ");
      const std::string read =
          "what a date means says `saggar date --read \"" + base::shortened(typed, 60) + "\"`";
      if (date_.expressions.empty())
        return cannot("`saggar date` wants an event, as `kind:id.field`",
                      "write `saggar date shape:jessamount.introduced`; what a date means, "
                      "`saggar date --read \"by 1935\"` says");
      if (isDate(typed)) return cannot("`saggar date` wants an event, as `kind:id.field`", read);
      if (date_.expressions.size() != 1)
        return cannot("`saggar date` wants one event, as `kind:id.field`",
                      "which of two was first says `saggar first EVENT EVENT`; " + read);
      events_.events = date_.expressions;
    }
    if (name == "first" && events_.events.size() != 2)
      return cannot("`saggar first` wants two events",
                    "write `saggar first shape:dorrimere shape:brathermoor-no-9`");
    const CommandHelp& help = *helpOf(name);
    if (!help.wants.empty() && isWithoutWords(chosen))
      return cannot("`saggar " + name + "` wants " + std::string(help.wants),
                    "write it behind, as `" + std::string(help.example) + '`');
    return kFine;
  }

  bool isWithoutWords(const CLI::App& chosen) const {
    if (chosen.get_name() == "find") return find_.words.empty();
    if (chosen.get_name() == "date" || chosen.get_name() == "first") return false;  // said before
    const std::vector<const CLI::Option*> options = chosen.get_options();
    return std::all_of(options.begin(), options.end(),
                       [](const CLI::Option* one) { return !one->get_positional() || one->count() == 0; });
  }

  int dispatch(const std::string& name) {
    check_.folder = make_.folder = show_.folder = code_.folder = find_.folder = stage_.folder =
        events_.folder = folder_;
    for (std::string_view rule : base::split(only_, ','))
      if (const std::string_view bare = base::trimmed(rule); !bare.empty()) check_.only.emplace_back(bare);
    if (name == "check") return check(environment_, check_);
    if (name == "make") return make(environment_, make_);
    if (name == "show") return show(environment_, show_);
    if (name == "date")
      return readsDates_ ? readDates(environment_, date_) : eventDays(environment_, events_);
    if (name == "first") return first(environment_, events_);
    if (name == "code") return code(environment_, code_);
    if (name == "find") return find(environment_, find_);
    if (name == "why") return why(environment_, why_);
    if (name == "blank") return blank(environment_, blank_);
    if (name == "schema") return schema(environment_, schema_);
    return stage(environment_, stage_);
  }

  const Environment& environment_;
  CLI::App app_;
  std::string folder_;
  std::string only_;
  bool readsDates_ = false;
  std::vector<std::string> plain_;  // the words behind `--`
  bool json_ = false;
  bool done_ = false;
  CheckArguments check_;
  MakeArguments make_;
  ShowArguments show_;
  DateArguments date_;
  EventArguments events_;
  CodeArguments code_;
  FindArguments find_;
  WhyArguments why_;
  BlankArguments blank_;
  SchemaArguments schema_;
  StageArguments stage_;
  std::vector<std::pair<std::string, std::string*>> formats_;
};

}  // namespace

int run(const Environment& environment, int count, const char* const* words) {
  return CommandLine(environment).run({words + std::min(count, 1), words + count});
}

}  // namespace saggar::commands
