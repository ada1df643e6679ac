#include "publishing/manifest.h"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <nlohmann/json.hpp>

#include "base/text.h"
#include "base/utf8.h"
#include "publishing/hash.h"
#include "source/files.h"

namespace saggar::publishing {
namespace {

using nlohmann::json;

constexpr std::string_view kMarker = "saggar";

void appendQuoted(std::string& out, std::string_view text) {
  out += '"';
  for (const char c : text) {
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (static_cast<unsigned char>(c) < 0x20) {
      fmt::format_to(std::back_inserter(out), "\\u{:04x}", static_cast<unsigned>(c));
    } else {
      out += c;
    }
  }
  out += '"';
}

void appendList(std::string& out, const std::vector<std::string>& items) {
  out += '[';
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) out += ", ";
    appendQuoted(out, base::firstInvalidUtf8(items[i]) == std::string_view::npos
                          ? items[i]
                          : base::sanitizedUtf8(items[i]));
  }
  out += ']';
}

bool isHash(const std::string& text) {
  return text.size() == 64 && std::all_of(text.begin(), text.end(),
                                          [](char c) { return base::isDigit(c) || (c >= 'a' && c <= 'f'); });
}

const std::string* textAt(const json& object, const char* key) {
  const auto it = object.find(key);
  return it == object.end() ? nullptr : it->get_ptr<const std::string*>();
}

bool readTexts(const json& object, const char* key, std::vector<std::string>& into) {
  const auto it = object.find(key);
  if (it == object.end() || !it->is_array()) return false;
  for (const json& item : *it) {
    const std::string* text = item.get_ptr<const std::string*>();
    if (text == nullptr) return false;
    into.push_back(*text);
  }
  return true;
}

// The phrase that is wrong with one entry of "files", or empty.
std::string readFile(const json& entry, Manifest& manifest) {
  if (!entry.is_object()) return "lists a file that is no object";
  const std::string* path = textAt(entry, "path");
  if (path == nullptr) return "lists a file without a path";
  const std::string shown = shownPath(*path);
  if (const std::string fault = pathFault(*path); !fault.empty())
    return "names the file \"" + shown + "\", which cannot be ours: " + fault;
  const std::string* part = textAt(entry, "part");
  const std::string* hash = textAt(entry, "sha256");
  const auto bytes = entry.find("bytes");
  ManifestFile file;
  if (part == nullptr) return "names no part for \"" + shown + "\"";
  if (hash == nullptr || !isHash(*hash)) return "gives no sha256 for \"" + shown + "\"";
  if (bytes == entry.end() || !bytes->is_number_unsigned()) return "gives no size for \"" + shown + "\"";
  if (!readTexts(entry, "records", file.records)) return "gives no list of records for \"" + shown + "\"";
  file.part = *part;
  file.sha256 = *hash;
  file.bytes = bytes->get<std::uint64_t>();
  if (const auto edited = entry.find("edited"); edited != entry.end()) file.edited = *edited == true;
  if (!manifest.files.emplace(*path, std::move(file)).second) return "names \"" + shown + "\" twice";
  return {};
}

}  // namespace

std::string manifestText(const Manifest& manifest) {
  std::string out =
      fmt::format("{{\n\"manifest\": \"{}\",\n\"version\": {},\n\"tree\": ", kMarker, kManifestVersion);
  appendQuoted(out, manifest.tree);
  out += ",\n\"parts\": ";
  appendList(out, manifest.parts);
  out += ",\n\"files\": [";
  bool first = true;
  for (const auto& [path, file] : manifest.files) {
    out += first ? "\n{\"path\": " : ",\n{\"path\": ";
    first = false;
    appendQuoted(out, path);
    out += ", \"part\": ";
    appendQuoted(out, file.part);
    fmt::format_to(std::back_inserter(out), ", \"sha256\": \"{}\", \"bytes\": {}, ", file.sha256, file.bytes);
    if (file.edited) out += "\"edited\": true, ";
    out += "\"records\": ";
    appendList(out, file.records);
    out += '}';
  }
  return out += "\n]\n}\n";
}

ManifestReading manifestFrom(std::string_view text) {
  ManifestReading result;
  const json root = json::parse(text, nullptr, false);
  if (root.is_discarded()) {
    result.error = "is broken (no well-formed JSON)";
    return result;
  }
  const std::string* marker = root.is_object() ? textAt(root, "manifest") : nullptr;
  if (marker == nullptr || *marker != kMarker) {
    result.error = "was not written by saggar";
    return result;
  }
  result.ours = true;
  const auto version = root.find("version");
  if (version == root.end() || !version->is_number_integer()) {
    result.error = "does not say its version";
  } else if (*version > kManifestVersion) {
    result.error = "was written by a newer saggar";
  } else if (*version < kManifestVersion) {
    result.error = "was written by an older saggar, in a form that is no longer read";
  }
  if (!result.error.empty()) return result;

  Manifest manifest;
  const auto files = root.find("files");
  if (const std::string* tree = textAt(root, "tree")) manifest.tree = *tree;
  if (manifest.tree != "out" && manifest.tree != "own") {
    result.error = "does not say which tree it is for";
  } else if (!readTexts(root, "parts", manifest.parts)) {
    result.error = "does not list its parts";
  } else if (files == root.end() || !files->is_array()) {
    result.error = "does not list its files";
  }
  if (!result.error.empty()) return result;
  for (const json& entry : *files) {
    result.error = readFile(entry, manifest);
    if (!result.error.empty()) return result;
  }
  std::sort(manifest.parts.begin(), manifest.parts.end());
  result.manifest = std::move(manifest);
  return result;
}

std::string pathFault(std::string_view path) {
  if (path.empty()) return "it is empty";
  if (path.front() == '/') return "it does not start inside the folder";
  if (base::firstInvalidUtf8(path) != std::string_view::npos) return "it is not UTF-8";
  for (std::size_t at = 0; at < path.size();) {
    const char32_t c = base::nextCodePoint(path, at);
    if (c < 0x20 || (c >= 0x7F && c < 0xA0)) return "it has a control character";
    if (c == '\\') return "it has a backslash";
  }
  for (const std::string_view step : base::split(path, '/')) {
    if (step.empty()) return "it has an empty step";
    if (step == "..") return "it climbs out of the folder";
    if (step.front() == '.') return "a step begins with a full stop";
  }
  if (base::folded(path) == kManifestName) return "that name is the manifest's";
  return {};
}

Verification verify(const std::string& folder) {
  Verification result;
  const std::string shown = shownPath(folder);
  const auto read = source::DiskFiles().read(source::pathJoined(folder, kManifestName));
  if (!read.ok()) {
    result.problem = Problem{"cannot read the manifest.json of " + shown + ": " + read.error,
                             "make the folder again with saggar make"};
    return result;
  }
  const ManifestReading reading = manifestFrom(read.bytes);
  if (!reading.manifest) {
    result.problem = Problem{shown + " cannot be verified: its manifest.json " + reading.error,
                             "make it again in another folder"};
    return result;
  }
  for (const auto& [path, file] : reading.manifest->files) {
    ++result.files;
    const FileDigest digest = digestOfFile(source::pathJoined(folder, path));
    if (digest.error != 0)
      result.faults.emplace_back(path, digest.error == EINVAL  ? "it is no ordinary file"
                                       : digest.error == ELOOP ? "a link stands in its place"
                                                               : reasonInWords(digest.error));
    else if (digest.sha256 != file.sha256)
      result.faults.emplace_back(path, "its bytes are not the ones that were written");
  }
  return result;
}

}  // namespace saggar::publishing
