#include <sys/stat.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>

#include "base/edit_distance.h"
#include "base/text.h"
#include "commands/command.h"
#include "reading/typed.h"
#include "records/tables.h"

namespace saggar::commands {
namespace {

using records::FieldSpec;
using records::FieldType;
using records::Kind;

std::string hintFor(const FieldSpec& spec) {
  std::string hint(spec.meaning);
  if (!spec.words.empty()) {
    std::vector<std::string> words(spec.words.begin(), spec.words.end());
    if (words.size() <= 8) hint += ": " + base::joined(words, ", ");
  }
  return hint;
}

// One field as a line to fill in: what is needed stands open, the rest behind a `#`.
void putField(std::string& out, const FieldSpec& spec) {
  std::string example(spec.example);
  if (example.empty() && !spec.words.empty()) example = std::string(spec.words[0]);
  if (example.empty() && spec.type == FieldType::structure && !spec.inner.empty()) example = "…";
  if (example.empty()) example = "…";
  std::string line = std::string(spec.has(records::kRequired) ? "  " : "  # ") + std::string(spec.field.name()) + ": " + example;
  line.resize(std::max<std::size_t>(line.size() + 2, 40), ' ');
  out += line + "# " + hintFor(spec) + '\n';
}

std::string recordToFillIn(Kind kind, const std::string& id) {
  const std::string kindName(records::name(kind));
  std::string out = "# " + kindName + ": " + std::string(records::spec(kind).meaning) + '\n';
  out += "- " + kindName + ": " + (id.empty() ? "its-id" : id) + '\n';
  const records::KindSpec& spec = records::spec(kind);
  for (const FieldSpec* field : records::fieldsOf(kind))
    if (field->field == spec.title) putField(out, *field);
  for (const FieldSpec* field : records::fieldsOf(kind))
    if (field->field != spec.title) putField(out, *field);
  out += "  # cite:                             # who says so, for all fields above\n"
         "  #   - source-id: where in it\n";
  return out;
}

bool writeFile(const std::string& path, const std::string& text) {
  std::FILE* file = std::fopen(path.c_str(), "wx");
  if (file == nullptr) return false;
  const bool written = std::fwrite(text.data(), 1, text.size(), file) == text.size();
  return std::fclose(file) == 0 && written;
}

int newGuide(const Environment& environment, const std::string& folder) {
  if (folder.empty()) return cannot(environment, false, "a new guide needs a folder", "write `saggar blank guide my-guide`");
  const std::string path = folder.front() == '/' ? folder : source::pathJoined(environment.currentFolder, folder);
  const auto status = environment.files.status(path);
  if (status.type == source::FileType::folder) {
    const auto entries = environment.files.list(path);
    if (!entries || !entries->empty()) return cannot(environment, false, "`" + folder + "` is there already and not empty", "name a new folder");
  } else if (status.type != source::FileType::missing) {
    return cannot(environment, false, "`" + folder + "` is there already and is no folder", "name a new folder");
  } else if (mkdir(path.c_str(), 0777) != 0) {
    return cannot(environment, false, "`" + folder + "` cannot be made", "look whether the folder around it is there and may be written");
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
       "Write what a reader should know first. A link such as <shape:first-shape> prints the record's name; a citation\n"
       "looks like this [p. 2](source:my-notebook).\n"},
  };
  for (const auto& [name, text] : files)
    if (!writeFile(source::pathJoined(path, name), text)) return cannot(environment, false, "`" + folder + "/" + name + "` cannot be written", "look at the folder's permissions and the disk's space");
  environment.out("began a guide in `" + folder + "`: now try `saggar -C " + folder + " check`, then `saggar -C " + folder + " make`\n");
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
                  near ? "did you mean `saggar blank " + std::string(*near) + "`?" : "a kind is " + base::listedInWords(shown, "or"));
  }
  if (!arguments.name.empty() && !reading::isId(arguments.name)) {
    const std::string near = reading::asId(arguments.name);
    return cannot(environment, false, "`" + base::shortened(arguments.name, 60) + "` cannot be an id: ids are small letters, figures and hyphens",
                  near.empty() ? "write a short name, as `blue-rim`" : "did you mean `" + near + "`?");
  }
  environment.out(recordToFillIn(*kind, arguments.name));
  return kFine;
}

}  // namespace saggar::commands
