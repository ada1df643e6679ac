#include "records/rights.h"

#include <array>
#include <vector>

#include "base/edit_distance.h"
#include "base/text.h"

namespace saggar::records {
namespace {

struct Statement {
  std::string_view sign, words;
};

// https://rightsstatements.org/page/1.0/: twelve statements, whose addresses are http://rightsstatements.org/vocab/SIGN/1.0/.
// The signs are those of its data model (rightsstatements/data-model); the words are from memory.
constexpr Statement kStatements[] = {
    {"InC", "in copyright"},
    {"InC-OW-EU", "In Copyright - EU Orphan Work"},
    {"InC-EDU", "In Copyright - Educational Use Permitted"},
    {"InC-NC", "In Copyright - Non-Commercial Use Permitted"},
    {"InC-RUU", "In Copyright - Rights-holder(s) Unlocatable or Unidentifiable"},
    {"NoC-CR", "No Copyright - Contractual Restrictions"},
    {"NoC-NC", "No Copyright - Non-Commercial Use Only"},
    {"NoC-OKLR", "No Copyright - Other Known Legal Restrictions"},
    {"NoC-US", "No Copyright - United States"},
    {"CNE", "Copyright Not Evaluated"},
    {"UND", "Copyright Undetermined"},
    {"NKC", "No Known Copyright"},
};

// Creative Commons: https://creativecommons.org/licenses/by-nc-sa/4.0/. Of the first version the last was named otherwise.
constexpr std::string_view kLicences[] = {"BY", "BY-SA", "BY-NC", "BY-ND", "BY-NC-SA", "BY-NC-ND"};
constexpr std::string_view kVersions[] = {"4.0", "3.0", "2.5", "2.0", "1.0"};

struct Known {
  std::string folded;
  Rights rights;
};

const std::vector<Known>& known() {
  static const auto table = [] {
    std::vector<Known> all;
    auto add = [&](std::string_view typed, std::string words, std::string address) {
      all.push_back({base::folded(typed), {std::move(words), std::move(address)}});
    };
    add("own", "the author's own picture", "");
    for (const Statement& one : kStatements) {
      const std::string address = "http://rightsstatements.org/vocab/" + std::string(one.sign) + "/1.0/";
      add(one.words, std::string(one.words), address);
      add(one.sign, std::string(one.words), address);
    }
    const std::string commons = "https://creativecommons.org/";
    add("public domain", "public domain", commons + "publicdomain/mark/1.0/");
    add("CC0", "CC0 1.0", commons + "publicdomain/zero/1.0/");
    add("CC0 1.0", "CC0 1.0", commons + "publicdomain/zero/1.0/");
    for (std::string_view licence : kLicences)
      for (std::string_view version : kVersions) {
        if (licence == "BY-NC-ND" && version == "1.0") continue;
        const std::string words = "CC " + std::string(licence) + ' ' + std::string(version);
        add(words, words, commons + "licenses/" + base::folded(licence) + '/' + std::string(version) + '/');
      }
    return all;
  }();
  return table;
}

}  // namespace

std::optional<Rights> readRights(std::string_view typed) {
  const std::string folded = base::folded(typed);
  for (const Known& one : known())
    if (one.folded == folded) return one.rights;
  for (std::string_view scheme : {"https://", "http://"})
    if (folded.starts_with(scheme) && folded.size() > scheme.size() && folded.find(' ') == std::string::npos)
      return Rights{std::string(typed), std::string(typed)};
  return std::nullopt;
}

std::string rightsPattern() {
  auto ofWords = [](std::string_view words) {
    std::string out;
    for (const char c : words) {
      if (c >= 'a' && c <= 'z') {
        out += {'[', c, static_cast<char>(c - 'a' + 'A'), ']'};
      } else {
        if (c == '.' || c == '(' || c == ')') out += '\\';
        out += c;
      }
    }
    return out;
  };
  std::string out = "^(https?://\\S+";
  for (const Known& one : known()) out += '|' + ofWords(one.folded);
  return out + ")$";
}

std::string rightsNear(std::string_view typed) {
  if (typed.size() > 80) return {};
  const std::string folded = base::folded(typed);
  if (folded.find("my own") != std::string::npos || folded == "mine") return "own";
  std::string plain;  // `cc-by-4.0`, `CC BY-SA v4.0`, `cc by 4`
  for (std::size_t i = 0; i < folded.size(); ++i) {
    const char c = folded[i];
    if (c == '-' || c == '_' || c == ' ' || c == '.' || c == '(' || c == ')') continue;
    if (c == 'v' && i + 1 < folded.size() && folded[i + 1] >= '0' && folded[i + 1] <= '9') continue;
    plain += c;
  }
  std::vector<std::string_view> names;
  for (const Known& one : known()) {
    std::string own;
    for (const char c : one.folded)
      if (c != '-' && c != ' ' && c != '.' && c != '(' && c != ')') own += c;
    // The newest version where none is said.
    if (own == plain || own == plain + "0" || own == plain + "40")
      return one.folded == "own" ? "own" : one.rights.words;
    names.push_back(one.folded);
  }
  const auto near = base::nearest(folded, names);
  if (!near) return {};
  for (const Known& one : known())
    if (one.folded == *near) return one.folded == "own" ? "own" : one.rights.words;
  return {};
}

}  // namespace saggar::records
