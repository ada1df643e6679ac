#include <algorithm>
#include <map>
#include <optional>

#include "base/text.h"
#include "checks/rules.h"
#include "document/address.h"
#include "linking/prose.h"
#include "reading/picture.h"
#include "reading/text_map.h"
#include "records/rights.h"
#include "source/files.h"

// The files of photos and transcripts, and the pictures in prose: that each is there, inside the guide's folder, and is
// what it is taken for.
namespace saggar::checks {

using document::BlockKind;
using document::InlineKind;
using records::Entry;
using records::Kind;
using records::Record;
using records::RecordIndex;

namespace {

struct Fault {
  diagnostics::Rule rule;
  std::string message;
  std::string hint;
};

bool leadsOutside(const source::Files& files, const std::string& folder, const std::string& path) {
  const auto root = files.realPath(folder);
  const auto real = files.realPath(source::pathJoined(folder, path));
  return root && real && !real->starts_with(*root == "/" ? *root : *root + '/');
}

// What stops the file from being used; `missing` is the rule for one that is not there, or is no picture.
std::optional<Fault> faultOfFile(const Context& context, const std::string& path, std::string_view what,
                                 diagnostics::Rule missing) {
  const std::string& folder = context.collection.read().folder;
  const std::string shown = '`' + base::shortened(path, 80) + '`';
  if (!source::pathStaysInside(path) || leadsOutside(context.files, folder, path))
    return Fault{"path-outside"_rule, shown + " lies outside the guide's folder",
                 "copy the file into the guide's folder (photographs into `images/`) and name it from there"};
  if (context.files.status(source::pathJoined(folder, path)).type != source::FileType::file)
    return Fault{missing, "there is no file " + shown,
                 "name the " + std::string(what) +
                     " from the guide's folder, as `images/blue-rim.png`; capitals count"};
  return std::nullopt;
}

std::optional<Fault> faultOfPicture(const Context& context, const std::string& path,
                                    diagnostics::Rule missing) {
  if (auto fault = faultOfFile(context, path, "photograph", missing)) return fault;
  const std::string shown = '`' + base::shortened(path, 80) + '`';
  const source::ReadResult start = context.files.readStart(
      source::pathJoined(context.collection.read().folder, path), reading::kPictureStart);
  if (!start.ok())
    return Fault{"file-unreadable"_rule, "the picture " + shown + " cannot be read: " + start.error,
                 "open it yourself and see whether it can be read on this computer"};
  const reading::PictureKind kind = reading::pictureKind(start.bytes);
  if (const std::string_view name = reading::notShownName(kind); !name.empty())
    return Fault{missing,
                 shown + " is a " + std::string(name) + " file, which books and browsers do not show",
                 "save it as JPEG or PNG, and name that file"};
  if (kind != reading::PictureKind::none) return std::nullopt;
  return Fault{missing, shown + (start.bytes.empty() ? " is empty" : " is no picture"),
               "fetch it once more from the camera or scanner, or save it as JPEG or PNG"};
}

void report(std::optional<Fault> fault, const Record& record, const Entry& entry,
            diagnostics::Findings& findings) {
  if (!fault) return;
  findings.add({.rule = fault->rule,
                .span = record.span(entry.value.place),
                .message = std::move(fault->message),
                .hint = std::move(fault->hint),
                .record = record.reference(),
                .field = std::string(entry.field.name())});
}

}  // namespace

void photoFiles(const Context& context, diagnostics::Findings& findings) {
  const auto named = [](const Record& record, records::Field field) {
    const Entry* entry = record.entry(field);
    return entry != nullptr && entry->value.type == records::ValueType::text ? entry : nullptr;
  };
  for (RecordIndex index : context.collection.ofKind(Kind::photo)) {
    const Record& photo = context.collection[index];
    if (const Entry* entry = named(photo, "file"_f))
      report(faultOfPicture(context, std::string(entry->value.text), "photo-missing"_rule), photo, *entry,
             findings);
  }
  for (RecordIndex index : context.collection.ofKind(Kind::talk)) {
    const Record& talk = context.collection[index];
    if (const Entry* entry = named(talk, "transcript"_f))
      report(faultOfFile(context, std::string(entry->value.text), "transcript", "photo-missing"_rule), talk,
             *entry, findings);
  }
}

// Pictures that stand in images/; what leads elsewhere is found where chapters are planned.
void prosePictures(const Context& context, diagnostics::Findings& findings) {
  std::map<std::string, std::optional<Fault>> known;
  for (const records::ProseFile& prose : context.collection.read().prose) {
    const std::string_view text = context.collection.sources().text(prose.file);
    if (text.find("![") == std::string_view::npos) continue;
    const auto look = [&](const std::string& address, source::Span span) {
      if (document::addressKind(address) != document::AddressKind::relative) return;
      const std::string path = linking::picturePath(prose.path, address);
      if (path.empty()) return;
      const auto [found, fresh] = known.try_emplace(path);
      if (fresh) found->second = faultOfPicture(context, path, "link-missing"_rule);
      if (const std::optional<Fault>& fault = found->second)
        findings.add({.rule = fault->rule, .span = span, .message = fault->message, .hint = fault->hint});
    };
    const reading::FileTextMap map(prose.file);
    const document::Blocks blocks = linking::parseProse(text, map).blocks;
    const auto figures = [&](auto& self, const document::Blocks& some) -> void {
      for (const document::Block& block : some) {
        if (block.kind == BlockKind::figure) look(block.target->address, block.span);
        self(self, block.blocks);
      }
    };
    figures(figures, blocks);
    document::forEachInline(blocks, [&](const document::Inline& one) {
      if (one.kind == InlineKind::image) look(one.target->address, one.span);
    });
  }
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
    const std::string_view rights = photo.text("rights"_f);
    if (!rights.empty() && !records::readRights(rights)) {
      const std::string near = records::rightsNear(rights);
      findings.add({.rule = "value-unfit"_rule,
                    .span = photo.span(photo.find("rights"_f)->place),
                    .message = "`" + base::shortened(rights, 40) + "` does not say who may print the picture",
                    .hint = near.empty()
                                ? "`rights` takes `own`, `in copyright`, `public domain`, a licence with its "
                                  "version such as `CC BY 4.0`, or the address of one; who allowed it is "
                                  "`permission`, who is to be named `credit`"
                                : "did you mean `" + near + "`?",
                    .record = photo.reference(),
                    .field = "rights"});
    }
    if (rights.empty())
      findings.add({.rule = "photo-without-rights"_rule,
                    .span = photo.span(),
                    .message = "nobody has said who may print the photo `" + std::string(photo.id) + "`",
                    .hint = "add `rights: own` if you took it, else `in copyright` with `permission:`, "
                            "`public domain` or a licence",
                    .record = photo.reference()});
  }
}

}  // namespace saggar::checks
