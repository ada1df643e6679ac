#include <CLI/CLI.hpp>

#include <algorithm>

#include "base/edit_distance.h"
#include "commands/command.h"

namespace saggar::commands {
namespace {

constexpr const char* kVersion = "saggar 0.1";

// A word that is no command gets the nearest one.
std::string commandHint(const CLI::App& app, const std::string& typed) {
  std::vector<std::string> names;
  for (const CLI::App* one : app.get_subcommands([](const CLI::App*) { return true; })) names.push_back(one->get_name());
  const std::vector<std::string_view> views(names.begin(), names.end());
  const auto near = base::nearest(typed, views);
  return near ? "did you mean `saggar " + std::string(*near) + "`?" : "`saggar --help` lists the commands";
}

}  // namespace

int run(const Environment& environment, int count, const char* const* words) {
  CLI::App app("Saggar keeps what is known of a pottery's ware as records, checks them, and makes the guide, checklists\n"
               "and talk outlines from them.");
  app.set_version_flag("--version", kVersion);
  app.require_subcommand(1);
  app.set_help_flag("-h,--help", "Print this help and exit");
  std::string folder;
  app.add_option("-C", folder, "The guide's folder; the current one, or the nearest above with a guide.yaml, unless given");
  const CLI::IsMember formats({"text", "json"});

  CheckArguments checkArguments;
  CLI::App* checkCommand = app.add_subcommand("check", "Read, link and check the guide; write nothing");
  checkCommand->add_option("--format", checkArguments.format, "text or json")->check(formats);
  checkCommand->add_option("--only", checkArguments.only, "Only findings of these rules")->delimiter(',');
  checkCommand->add_flag("--strict", checkArguments.strict, "Warnings count as errors for the exit status");

  MakeArguments makeArguments;
  CLI::App* makeCommand = app.add_subcommand("make", "Make the guide, checklists, talks and corrections, or what is named");
  makeCommand->add_option("parts", makeArguments.parts, "guide, checklists, talks, corrections; all unless named")
      ->check(CLI::IsMember({"guide", "checklists", "talks", "corrections"}));
  makeCommand->add_option("-o", makeArguments.out, "The folder to write, relative to where you stand");
  makeCommand->add_option("--own", makeArguments.own, "The folder for what only the author sees");
  makeCommand->add_flag("--draft", makeArguments.draft, "Go on in spite of errors, and mark every page a draft");
  makeCommand->add_option("--format", makeArguments.format, "text or json")->check(formats);

  ShowArguments showArguments;
  CLI::App* showCommand = app.add_subcommand("show", "Everything known about one record");
  showCommand->add_option("record", showArguments.reference, "kind:id, or an id")->required();
  showCommand->add_option("--format", showArguments.format, "text or json")->check(formats);

  bool read = false;
  DateArguments dateArguments;
  CLI::App* dateCommand = app.add_subcommand("date", "With --read: what date expressions mean");
  dateCommand->add_flag("--read", read, "Read each expression, or one a line from standard input")->required();
  dateCommand->add_option("expressions", dateArguments.expressions, "Date expressions");

  CodeArguments codeArguments;
  CLI::App* codeCommand = app.add_subcommand("code", "Every reading of a code");
  codeCommand->add_option("text", codeArguments.text, "The code as it stands on the piece")->required();
  codeCommand->add_option("--maker", codeArguments.maker, "Only by the rules of this maker");
  codeCommand->add_option("--format", codeArguments.format, "text or json")->check(formats);

  FindArguments findArguments;
  CLI::App* findCommand = app.add_subcommand("find", "Records and prose that mention the words");
  findCommand->add_option("words", findArguments.words, "Words")->required();
  findCommand->add_option("--format", findArguments.format, "text or json")->check(formats);

  WhyArguments whyArguments;
  CLI::App* whyCommand = app.add_subcommand("why", "What a finding means, and how to put it right");
  whyCommand->add_option("rule", whyArguments.rule, "The rule in brackets behind a finding; none: a list of all");

  BlankArguments blankArguments;
  CLI::App* blankCommand = app.add_subcommand("blank", "Print a record to fill in, or begin an empty guide");
  blankCommand->add_option("kind", blankArguments.kind, "A kind of record, or `guide`")->required();
  blankCommand->add_option("name", blankArguments.name, "The new id, or the new guide's folder");

  CLI::App* schemaCommand = app.add_subcommand("schema", "Print the JSON Schema (2020-12) of the record language");

  StageArguments stageArguments;
  CLI::App* stageCommand = app.add_subcommand("stage", "Print a stage's result as text (for contributors and tests)");
  stageCommand->add_option("stage", stageArguments.stage, "records, links, document")
      ->required()
      ->check(CLI::IsMember({"records", "links", "document"}));
  stageCommand->add_option("record", stageArguments.reference, "Only this record, or this chapter");

  const bool json = std::any_of(words, words + count, [](std::string_view word) { return word == "json" || word == "--format=json"; });
  try {
    app.parse(count, words);
  } catch (const CLI::CallForHelp&) {
    environment.out(app.help());
    return kFine;
  } catch (const CLI::CallForVersion&) {
    environment.out(std::string(kVersion) + '\n');
    return kFine;
  } catch (const CLI::ParseError& error) {
    for (const CLI::App* one : app.get_subcommands())
      if (error.get_name() == "CallForHelp") {
        environment.out(one->help());
        return kFine;
      }
    for (int i = 1; i < count; ++i) {
      const std::string word = words[i];
      if (word == "-C") {
        ++i;
        continue;
      }
      if (word.starts_with("-")) continue;
      if (app.get_subcommands([&](const CLI::App* one) { return one->get_name() == word; }).empty())
        return cannot(environment, json, "there is no command `" + word + "`", commandHint(app, word));
      break;
    }
    std::string message = error.what();
    if (!message.empty() && message[0] >= 'A' && message[0] <= 'Z') message[0] = static_cast<char>(message[0] - 'A' + 'a');
    return cannot(environment, json, message, "`saggar COMMAND --help` says what a command takes");
  }
  checkArguments.folder = makeArguments.folder = showArguments.folder = codeArguments.folder = findArguments.folder =
      stageArguments.folder = folder;
  if (checkCommand->parsed()) return check(environment, checkArguments);
  if (makeCommand->parsed()) return make(environment, makeArguments);
  if (showCommand->parsed()) return show(environment, showArguments);
  if (dateCommand->parsed()) return readDates(environment, dateArguments);
  if (codeCommand->parsed()) return code(environment, codeArguments);
  if (findCommand->parsed()) return find(environment, findArguments);
  if (whyCommand->parsed()) return why(environment, whyArguments);
  if (blankCommand->parsed()) return blank(environment, blankArguments);
  if (schemaCommand->parsed()) return schema(environment);
  return stage(environment, stageArguments);
}

}  // namespace saggar::commands
