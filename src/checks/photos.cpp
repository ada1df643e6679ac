#include "checks/rules.h"
#include "source/files.h"

namespace saggar::checks {

using records::Entry;
using records::Kind;
using records::Record;
using records::RecordIndex;
using records::Value;

namespace {

bool leadsOutside(const source::Files& files, const std::string& folder, const std::string& path) {
  const auto root = files.realPath(folder);
  const auto real = files.realPath(source::pathJoined(folder, path));
  return root && real && !real->starts_with(*root == "/" ? *root : *root + '/');
}

void fileOf(const Context& context, const Record& record, records::Field field, std::string_view what,
            diagnostics::Findings& findings) {
  const Entry* entry = record.entry(field);
  if (entry == nullptr || entry->value.type != records::ValueType::text) return;
  const std::string path(entry->value.text);
  const std::string& folder = context.collection.read().folder;
  diagnostics::Finding finding{.rule = "photo-missing"_rule,
                               .span = record.span(entry->value.place),
                               .message = {},
                               .record = record.reference(),
                               .field = std::string(field.name())};
  if (!source::pathStaysInside(path) || leadsOutside(context.files, folder, path)) {
    finding.rule = "path-outside"_rule;
    finding.message = "`" + path + "` lies outside the guide's folder";
    finding.hint =
        "copy the file into the guide's folder (photographs into `images/`) and name it from there";
  } else if (context.files.status(source::pathJoined(folder, path)).type != source::FileType::file) {
    finding.message = "there is no file `" + path + "`";
    finding.hint = "name the " + std::string(what) +
                   " from the guide's folder, as `images/blue-rim.png`; capitals count";
  } else {
    return;
  }
  findings.add(std::move(finding));
}

}  // namespace

void photoFiles(const Context& context, diagnostics::Findings& findings) {
  for (RecordIndex index : context.collection.ofKind(Kind::photo))
    fileOf(context, context.collection[index], "file"_f, "photograph", findings);
  for (RecordIndex index : context.collection.ofKind(Kind::talk))
    fileOf(context, context.collection[index], "transcript"_f, "transcript", findings);
}

void photoWords(const Context& context, diagnostics::Findings& findings) {
  for (RecordIndex index : context.collection.ofKind(Kind::photo)) {
    const Record& photo = context.collection[index];
    if (photo.broken) continue;
    if (photo.text("alt"_f).empty())
      findings.add(
          {.rule = "photo-without-alt"_rule,
           .span = photo.span(),
           .message = "the photo `" + std::string(photo.id) + "` has no words for readers who cannot see it",
           .hint = "add `alt:` and say what it shows, as you would on the telephone",
           .record = photo.reference()});
    if (photo.text("rights"_f).empty())
      findings.add({.rule = "photo-without-rights"_rule,
                    .span = photo.span(),
                    .message = "nobody has said who may print the photo `" + std::string(photo.id) + "`",
                    .hint = "add `rights: own` if you took it, else `in copyright` with `permission:`, "
                            "`public domain` or a licence",
                    .record = photo.reference()});
  }
}

}  // namespace saggar::checks
