#include "commands/help.h"

namespace saggar::commands {
namespace {

constexpr std::string_view kProgram =
    R"(Saggar keeps what is known of a pottery's ware as short records, checks them, and
makes the guide, the checklists, the talk outlines and the corrections from them.

  saggar check              read the guide and check it; nothing is written
  saggar make               make everything from it, or the parts you name
  saggar show RECORD        everything known about one record
  saggar find WORDS         where words are mentioned, in records and in prose
  saggar code CODE          every reading of a number or code
  saggar date EVENT         when something happened: proven, likely, and why
  saggar first EVENT EVENT  which of two came first, why, and what would settle it
  saggar date --read DATE   what a date means, day by day
  saggar why RULE           what a finding means, and how to put it right
  saggar blank KIND         a record to fill in
  saggar blank guide DIR    an empty guide to start from
  saggar schema             the record language as a JSON Schema, for editors;
                            with --page its reference, to read
  saggar stage STAGE        what a stage of the program made, for contributors

  -C DIR                    the guide's folder; else the one you stand in, or the
                            nearest above it that holds a guide.yaml
  --version                 the program's version
  -h, --help                this page; behind a command, more about it

`saggar blank guide my-guide` begins a guide; `saggar check` is the next thing to type.
)";

constexpr std::string_view kCheck = R"(saggar check [--only RULE,…] [--strict] [--format text|json] [-C DIR]

Reads the guide, links its records and checks them. Every finding names the file, the
line and the column, shows the line, and says what to type instead. Nothing is written.

  --only RULE,…      only findings of these rules; `saggar why` lists the rules
  --strict           warnings count as errors for the exit status
  --format json      for programs; text unless given

Ends with 0 if there is no error, with 1 if there is one, with 2 if it could not check.

  saggar check
  saggar check --only uncited,citation-unlocated
)";

constexpr std::string_view kMake =
    R"(saggar make [guide] [checklists] [talks] [corrections] [-o DIR] [--own DIR] [--draft]
            [--format text|json] [-C DIR]

Makes what is published: all of it, or the parts you name. The guide is checked first,
and errors stop it before anything is written. What is there already is exchanged for
what is new in one step; parts that you do not name stay as they are.

  -o DIR             the folder to write, from where you stand; `out` unless given
  --own DIR          the folder for what only you see, such as which shelf a piece is on;
                     `own` beside the folder to write unless given
  --draft            go on in spite of errors, and mark every page a draft
  --format json      for programs; text unless given

  saggar make
  saggar make guide checklists -o for-print
)";

constexpr std::string_view kShow = R"(saggar show RECORD [--format text|json] [-C DIR]

Everything known about one record: its facts, where they are from and what of their days
is proven, its other names, who refers to it, where it is mentioned and where it is
published. It is for you alone, so that private lines are shown too.

  RECORD             its id, or its kind and id where several kinds have that id
  --format json      for programs; text unless given

  saggar show jessamount
  saggar show treatment:jm-045
)";

constexpr std::string_view kFind = R"(saggar find WORDS [--format text|json] [-C DIR]

Records and prose in which all the words stand. Capitals, accents and the signs between
letters do not count: `jm203` finds JM-203-C/1. Whole words come first, then words that
begin so, then words with one letter wrong; names and codes come before other lines.

  --format json      for programs; text unless given

  saggar find quince bough
  saggar find jm203
)";

constexpr std::string_view kCode = R"(saggar code CODE [--maker ID] [--format text|json] [-C DIR]

Every reading of a number or code by the makers' rules, what rules a reading out, the
records it stands on, and what the eye could take it for.

  CODE               as it stands on the piece; in quotes if there are blanks in it
  --maker ID         only by the rules of this maker
  --format json      for programs; text unless given

Ends with 1 if no reading is left.

  saggar code JM-045-C/0
  saggar code "U 34 4" --maker wesperling
)";

constexpr std::string_view kDate = R"(saggar date EVENT [--format text|json] [-C DIR]
saggar date --read [DATE…]

With an event: its earliest and latest day, proven and likely, and the chain of reasons
for each, with file and line. An event is a record's dated field, `kind:id.field`;
`kind:id` alone stands for the day it was introduced, made, founded or first used.

With --read, what a date means: its first and last day as it stands, and the widest it
may be taken.
One line a date, for programs too. Without a date it reads one a line from what is typed
or sent to it. It needs no guide.

Ends with 1 if what is on record of the event cannot all be true, or a date is unreadable.

  saggar date shape:linnavere.introduced
  saggar date --read 1932 "by 1935" "spring 1937"
  saggar date --read 1926/1935
)";

constexpr std::string_view kFirst = R"(saggar first EVENT EVENT [--format text|json] [-C DIR]

Which of two events came first, whether that is proven or only likely, the reasons, the
proven days of both, and what would settle it where it is undecided. An event is written
as for `saggar date`.

  saggar first shape:dorrimere shape:brathermoor-no-9
)";

constexpr std::string_view kWhy = R"(saggar why [RULE]

What a finding means, why it matters to a reader, an example, how to put it right and
how to waive it. RULE is the word in brackets behind the finding; without one, all rules
are listed. It needs no guide.

  saggar why uncited
)";

constexpr std::string_view kBlank = R"(saggar blank KIND [ID]
saggar blank guide DIR

A record of that kind to fill in, every line with what it means; copy it into any .yaml
file of your guide. `blank guide` makes a new folder with a small guide to start from.

  KIND               maker, person, shape, form, motif, treatment, set, mark, specimen,
                     source, feature, claim, question, term, photo, talk or checklist
  ID                 the record's short name: small letters, figures and hyphens

  saggar blank treatment jm-045
  saggar blank treatment jm-045 >> records.yaml
  saggar blank guide my-guide
)";

constexpr std::string_view kSchema = R"(saggar schema [--page]

The record language as a JSON Schema (2020-12). An editor that is given it completes
fields as you type, and marks what is wrong. It needs no guide.

  --page             instead, the reference for authors: every kind and field, and how
                     values are written, as one page of Markdown

  saggar schema > saggar.schema.json
  saggar schema --page > reference.md
)";

constexpr std::string_view kStage =
    R"(saggar stage records|links|evidence|bounds|document [RECORD or chapter] [-C DIR]

What a stage of the program made of the guide, as text: for contributors and for tests.

  records            the records as they were read, value by value
  links              the same with what every reference leads to
  evidence           what each source is worth, and where each fact stands
  bounds             the proven and the likely days of every event
  document           the chapters as they go to the writers; one by its file's name

  saggar stage links shape:jessamount
  saggar stage document glossary
)";

constexpr CommandHelp kCommands[] = {
    {"check", "", "saggar check", kCheck},
    {"make", "", "saggar make", kMake},
    {"show", "a record", "saggar show jessamount", kShow},
    {"find", "words to look for", "saggar find quince bough", kFind},
    {"code", "a code", "saggar code JM-045-C/0", kCode},
    {"date", "an event, or `--read` and a date", "saggar date shape:jessamount.introduced", kDate},
    {"first", "two events", "saggar first shape:dorrimere shape:brathermoor-no-9", kFirst},
    {"why", "", "saggar why uncited", kWhy},
    {"blank", "a kind of record, or `guide`", "saggar blank shape", kBlank},
    {"schema", "", "saggar schema", kSchema},
    {"stage", "a stage", "saggar stage records", kStage},
};

}  // namespace

std::span<const CommandHelp> commandHelp() {
  return kCommands;
}

const CommandHelp* helpOf(std::string_view command) {
  for (const CommandHelp& one : kCommands)
    if (one.name == command) return &one;
  return nullptr;
}

std::string_view programHelp() {
  return kProgram;
}

}  // namespace saggar::commands
