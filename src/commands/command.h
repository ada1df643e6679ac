#pragma once
#include <string>
#include <vector>

#include "commands/environment.h"

// One file a command. Each takes what the command line said, already taken apart, and gives the exit status.
namespace saggar::commands {

struct CheckArguments {
  std::string folder;  // of -C; empty: look for it
  std::string format = "text";
  std::vector<std::string> only;
  bool strict = false;
};
int check(const Environment& environment, const CheckArguments& arguments);

struct MakeArguments {
  std::string folder;
  std::vector<std::string> parts;  // empty: all
  std::string out = "out";
  std::string own;  // empty: `own` beside `out`
  bool draft = false;
  std::string format = "text";
};
int make(const Environment& environment, const MakeArguments& arguments);

struct DateArguments {
  std::vector<std::string> expressions;  // none: one a line from standard input
};
int readDates(const Environment& environment, const DateArguments& arguments);

struct EventArguments {
  std::string folder;
  std::vector<std::string> events;  // one, or two for `first`
  std::string format = "text";
};
int eventDays(const Environment& environment, const EventArguments& arguments);
int first(const Environment& environment, const EventArguments& arguments);

struct CodeArguments {
  std::string folder;
  std::string text;
  std::string maker;
  std::string format = "text";
};
int code(const Environment& environment, const CodeArguments& arguments);

struct ShowArguments {
  std::string folder;
  std::string reference;
  std::string format = "text";
};
int show(const Environment& environment, const ShowArguments& arguments);

struct FindArguments {
  std::string folder;
  std::vector<std::string> words;
  std::string format = "text";
};
int find(const Environment& environment, const FindArguments& arguments);

struct WhyArguments {
  std::string rule;  // empty: the list of rules
};
int why(const Environment& environment, const WhyArguments& arguments);

struct BlankArguments {
  std::string kind;  // or "guide"
  std::string name;  // the id, or the new guide's folder
};
int blank(const Environment& environment, const BlankArguments& arguments);

struct SchemaArguments {
  bool page = false;  // the reference for authors instead
};
int schema(const Environment& environment, const SchemaArguments& arguments);

// Every kind and field with what it means, as one page of Markdown; made from the field tables and reference/*.md.
std::string referencePage();

struct StageArguments {
  std::string folder;
  std::string stage;
  std::string reference;
};
int stage(const Environment& environment, const StageArguments& arguments);

// The whole program: takes the command line apart, finds the command, runs it.
int run(const Environment& environment, int count, const char* const* words);

}  // namespace saggar::commands
