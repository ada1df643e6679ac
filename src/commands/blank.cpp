#include <sys/stat.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>

#include "base/edit_distance.h"
#include "base/text.h"
#include "base/utf8.h"
#include "commands/command.h"
#include "reading/typed.h"
#include "records/tables.h"

namespace saggar::commands {
namespace {

using records::FieldSpec;
using records::FieldType;
using records::Kind;

constexpr std::size_t kMeaningColumn = 40;
constexpr std::size_t kWidest = 110;

// What a field means, with the words it may take and an example; long lists of words go on below, line by line.
std::string meaningOf(const FieldSpec& spec, bool open) {
  std::string meaning(spec.meaning);
  const std::size_t privately = meaning.find("; private");
  if (privately != std::string::npos) meaning.resize(privately);
  const bool said = std::all_of(spec.words.begin(), spec.words.end(), [&](std::string_view word) {
    return meaning.find(word) != std::string::npos;
  });
  if (!spec.words.empty() && !said) {
    meaning += ": ";
    for (std::size_t i = 0; i < spec.words.size(); ++i)
      meaning += (i == 0 ? "" : ", ") + std::string(spec.words[i]);
  } else if (open && !spec.example.empty()) {
    meaning += ", as " + std::string(spec.example);
  }
  return meaning;
}

void putLine(std::string& out, const std::string& line, const std::string& meaning) {
  std::size_t width = std::max<std::size_t>(base::countCodePoints(line) + 2, kMeaningColumn);
  std::string words = line + std::string(width - base::countCodePoints(line), ' ') + '#';
  ++width;
  for (std::string_view word : base::split(meaning, ' ')) {
    if (width + 1 + word.size() > kWidest && width > kMeaningColumn + 2) {
      words += '\n' + std::string(kMeaningColumn, ' ') + '#';
      width = kMeaningColumn + 1;
    }
    words += ' ' + std::string(word);
    width += 1 + word.size();
  }
  out += words + '\n';
}

// One field as a line to fill in. What a record cannot do without stands open, without a value, so that one that was
// forgotten is found; the rest stands behind a `#`, with an example.
void putField(std::string& out, const FieldSpec& spec, bool open, const std::string& indent) {
  const std::string name(spec.field.name());
  if (!open) {
    const std::string example(spec.example.empty() && !spec.words.empty() ? spec.words[0] : spec.example);
    putLine(out, indent + "# " + name + ": " + example, meaningOf(spec, false));
    return;
  }
  const bool inner = spec.type == FieldType::structure;
  if (!inner) return putLine(out, indent + name + ":", meaningOf(spec, true));
  putLine(out, indent + name + ":", std::string(spec.meaning));
  bool first = spec.has(records::kMany);
  for (const FieldSpec& one : spec.inner) {
    if (first) {
      putLine(out, indent + "  - " + std::string(one.field.name()) + ":", meaningOf(one, true));
    } else {
      putField(out, one, one.has(records::kRequired), indent + (spec.has(records::kMany) ? "    " : "  "));
    }
    first = false;
  }
}

// Its example has a name, so most have one.
bool isUsuallyNamed(const records::KindSpec& spec) {
  return spec.example.find("\n  " + std::string(spec.title.name()) + ":") != std::string_view::npos;
}

std::string recordToFillIn(Kind kind, const std::string& id) {
  const records::KindSpec& spec = records::spec(kind);
  const std::string kindName(records::name(kind));
  std::string out = "# " + kindName + ": " + std::string(spec.meaning) + "\n#\n# For example:\n";
  for (std::string_view line : base::split(spec.example, '\n')) out += "#   " + std::string(line) + '\n';
  out +=
      "#\n# Fill in the open lines; take the # from others where you know something, and put it in place of "
      "the example.\n\n";
  out += "- " + kindName + ": " + (id.empty() ? "its-id" : id) + '\n';
  for (const FieldSpec* field : records::fieldsOf(kind)) {
    if (field->field != spec.title) continue;
    if (isUsuallyNamed(spec)) {
      putLine(out, "  " + std::string(field->field.name()) + ":", std::string(field->meaning));
    } else {
      putLine(out, "  # " + std::string(field->field.name()) + ": …",
              std::string(field->meaning) + ", if it has one");
    }
  }
  for (const FieldSpec* field : records::fieldsOf(kind))
    if (field->field != spec.title && !field->has(records::kPrivate))
      putField(out, *field, field->has(records::kRequired), "  ");
  putLine(out, "  # cite:", "who says so, for every line above that has no `cite` of its own");
  out += "  #   - source-id: where in it\n";
  out += "  # Never printed, and so is every line whose name begins with my-:\n";
  for (const FieldSpec* field : records::fieldsOf(kind))
    if (field->has(records::kPrivate)) putField(out, *field, false, "  ");
  return out;
}

bool writeFile(const std::string& path, const std::string& text) {
  std::FILE* file = std::fopen(path.c_str(), "wx");
  if (file == nullptr) return false;
  const bool written = std::fwrite(text.data(), 1, text.size(), file) == text.size();
  return std::fclose(file) == 0 && written;
}

int newGuide(const Environment& environment, const std::string& folder) {
  if (folder.empty())
    return cannot(environment, false, "a new guide needs a folder", "write `saggar blank guide my-guide`");
  const std::string path =
      folder.front() == '/' ? folder : source::pathJoined(environment.currentFolder, folder);
  const auto status = environment.files.status(path);
  if (status.type == source::FileType::folder) {
    const auto entries = environment.files.list(path);
    if (!entries || !entries->empty())
      return cannot(environment, false, "`" + folder + "` is there already and not empty",
                    "name a new folder");
  } else if (status.type != source::FileType::missing) {
    return cannot(environment, false, "`" + folder + "` is there already and is no folder",
                  "name a new folder");
  } else if (mkdir(path.c_str(), 0777) != 0) {
    return cannot(environment, false, "`" + folder + "` cannot be made",
                  "look whether the folder around it is there and may be written");
  }
  for (const char* inner : {"prose", "images"}) mkdir(source::pathJoined(path, inner).c_str(), 0777);
  const std::pair<const char*, std::string> files[] = {
      {"guide.yaml",
       "guide: The title of the guide\n"
       "by: Your name\n"
       "edition: 1\n"
       "settings:\n"
       "  circa: 5y\n"
       "  language: en-GB\n"
       "contents:\n"
       "  - division: Before you begin\n"
       "    holds: [prose/how-to-use.md]\n"
       "  - division: The shapes\n"
       "    holds:\n"
       "      - a-chapter-for-every: shape\n"
       "        in-order-of: introduced\n"
       "  - division: At the back\n"
       "    holds: [codes, questions, glossary, corrections]\n"},
      {"records.yaml",
       "# Records go here, or into as many files and folders as you like.\n"
       "# `saggar blank shape` prints a shape to fill in, and so for every kind.\n\n"
       "- source: my-notebook\n"
       "  title: My own notes\n"
       "  type: observation\n\n"
       "- maker: first-pottery\n"
       "  name: The First Pottery\n"
       "  trade: pottery\n"
       "  cite:\n"
       "    - my-notebook: p. 1\n\n"
       "- shape: first-shape\n"
       "  name: The first shape\n"
       "  maker: first-pottery\n"
       "  introduced: about 1930\n"
       "  cite:\n"
       "    - my-notebook: p. 2\n"},
      {"prose/how-to-use.md",
       "# How to use this guide\n\n"
       "Write what a reader should know first. A link such as <shape:first-shape> prints the record's name; "
       "a citation\n"
       "looks like this [p. 2](source:my-notebook).\n"},
  };
  for (const auto& [name, text] : files)
    if (!writeFile(source::pathJoined(path, name), text))
      return cannot(environment, false, "`" + folder + "/" + name + "` cannot be written",
                    "look at the folder's permissions and the disk's space");
  environment.out("began a guide in `" + folder + "`: now try `saggar -C " + folder +
                  " check`, then `saggar -C " + folder + " make`\n");
  return kFine;
}

}  // namespace

int blank(const Environment& environment, const BlankArguments& arguments) {
  if (arguments.kind == "guide") return newGuide(environment, arguments.name);
  const auto kind = records::kindNamed(arguments.kind);
  if (!kind) {
    std::vector<std::string_view> names;
    for (const auto& one : records::kKindNames) names.push_back(one.one);
    const auto near = base::nearest(arguments.kind, names);
    std::vector<std::string> shown;
    for (std::string_view one : names) shown.emplace_back(one);
    return cannot(environment, false, "there is no kind `" + base::shortened(arguments.kind, 60) + "`",
                  near ? "did you mean `saggar blank " + std::string(*near) + "`?"
                       : "a kind is " + base::listedInWords(shown, "or"));
  }
  if (!arguments.name.empty() && !reading::isId(arguments.name)) {
    const std::string near = reading::asId(arguments.name);
    return cannot(environment, false,
                  "`" + base::shortened(arguments.name, 60) +
                      "` cannot be an id: ids are small letters, figures and hyphens",
                  near.empty() ? "write a short name, as `blue-rim`" : "did you mean `" + near + "`?");
  }
  environment.out(recordToFillIn(*kind, arguments.name));
  return kFine;
}

}  // namespace saggar::commands
