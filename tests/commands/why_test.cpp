// Every rule has an explanation, and what it shows is run: its example must give that rule and no other finding, put
// right none, and waived none that counts.
//
// The files of an example are its fences. The first word behind the backquotes says what the fence holds, the next may
// name the file:
//   ```yaml [NAME]       records (records.yaml)
//   ```yaml guide        guide.yaml; where an example has none, one with a title and all its prose as chapters
//   ```markdown [NAME]   prose (prose/page.md)
//   ```xml NAME          any other text, a layout
//   ```bytes NAME        a file with \xNN for what no text can hold, without its last line end
//   ```link NAME         a link in the folder, to what the fence holds
//   ```size NAME 70MB    a file of that size, of which nothing is ever read
// With `fixed` at the end a fence takes the place of that file when the example is put right; `fixed gone` takes the
// file away. The fence that begins with `waivers:` goes into guide.yaml. Any other fence (`text`) is for readers alone.
//
// A rule that only `make` finds has a checklist in its example, which is set with the fonts of this machine.
#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <set>

#include "base/text.h"
#include "commands/pipeline.h"
#include "commands/set_checklist.h"
#include "diagnostics/rules.h"

using namespace saggar;

namespace {

// A guide in memory with what a folder can hold beside files, and the fonts of the machine.
class Folder final : public source::Files {
 public:
  void put(const std::string& name, std::string bytes) { memory_.put("guide/" + name, std::move(bytes)); }
  void link(const std::string& name, const std::string& to) {
    const std::string path = "guide/" + name;
    memory_.put(path, "");
    links_[path] = source::pathNormalized(path.substr(0, path.rfind('/') + 1) + to);
  }
  void ofSize(const std::string& name, std::uint64_t bytes) {
    memory_.put("guide/" + name, "");
    sizes_["guide/" + name] = bytes;
  }

  source::FileStatus status(const std::string& path) const override {
    if (path.starts_with('/')) return disk_.status(path);
    if (const auto found = links_.find(path); found != links_.end()) {
      source::FileStatus status = memory_.status(found->second);
      status.link = true;
      return status;
    }
    source::FileStatus status = memory_.status(path);
    if (const auto found = sizes_.find(path); found != sizes_.end()) status.size = found->second;
    return status;
  }
  source::ReadResult read(const std::string& path) const override {
    if (path.starts_with('/')) return disk_.read(path);
    if (sizes_.contains(path)) return {{}, "it has a size and no bytes"};
    const auto found = links_.find(path);
    return memory_.read(found == links_.end() ? path : found->second);
  }
  std::optional<std::vector<source::FolderEntry>> list(const std::string& path) const override {
    if (path.starts_with('/')) return disk_.list(path);
    auto entries = memory_.list(path);
    if (entries)
      for (source::FolderEntry& entry : *entries) entry.status = status(source::pathJoined(path, entry.name));
    return entries;
  }
  std::optional<std::string> realPath(const std::string& path) const override {
    if (path.starts_with('/')) return disk_.realPath(path);
    const auto found = links_.find(path);
    return memory_.realPath(found == links_.end() ? path : found->second);
  }

 private:
  source::MemoryFiles memory_;
  source::DiskFiles disk_;
  std::map<std::string, std::string> links_;
  std::map<std::string, std::uint64_t> sizes_;
};

struct Fence {
  std::string type;
  std::string body;
  std::string size;
};

struct Explained {
  std::map<std::string, Fence> example;
  std::map<std::string, Fence> fixed;
  std::set<std::string> gone;
  std::string waiver;
  std::string words;  // what stands outside fences
};

std::string unescaped(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\\' && i + 3 < text.size() && text[i + 1] == 'x') {
      out += static_cast<char>(std::stoi(std::string(text.substr(i + 2, 2)), nullptr, 16));
      i += 3;
    } else {
      out += text[i];
    }
  }
  return out;
}

void take(Explained& out, std::vector<std::string> info, std::string body) {
  auto endsIn = [&](const char* word) {
    if (info.empty() || info.back() != word) return false;
    info.pop_back();
    return true;
  };
  const bool gone = endsIn("gone");
  const bool fixed = endsIn("fixed");
  if (info.empty() || info[0] == "text") return;
  if (info[0] == "yaml" && body.starts_with("waivers:")) {
    out.waiver = std::move(body);
    return;
  }
  Fence fence{.type = info[0], .body = std::move(body), .size = {}};
  std::string name = info.size() > 1 ? info[1] : fence.type == "yaml" ? "records.yaml" : "prose/page.md";
  if (name == "guide") name = "guide.yaml";
  if (info.size() > 2) fence.size = info[2];
  if (!fence.body.empty() && (fence.type == "bytes" || fence.type == "link")) fence.body.pop_back();
  if (gone) {
    out.gone.insert(name);
  } else {
    (fixed ? out.fixed : out.example)[name] = std::move(fence);
  }
}

Explained readExplanation(std::string_view text) {
  Explained out;
  std::string body;
  std::vector<std::string> info;
  bool inside = false;
  std::string fence;
  for (std::string_view line : base::split(text, '\n')) {
    if (!inside && line.starts_with("```")) {
      inside = true;
      fence = std::string(line.substr(0, line.find_first_not_of('`')));
      info.clear();
      for (std::string_view word : base::split(line.substr(fence.size()), ' '))
        if (!word.empty()) info.emplace_back(word);
      body.clear();
    } else if (inside && line == fence) {
      inside = false;
      take(out, info, body);
    } else if (inside) {
      body.append(line) += '\n';
    } else {
      out.words.append(line) += '\n';
    }
  }
  return out;
}

struct Checked {
  std::unique_ptr<commands::Guide> guide;
  std::vector<diagnostics::Finding> findings;
  std::size_t counting = 0;  // findings that are not waived
};

// Checks a guide of these files; `make` also sets its checklists.
Checked check(const std::map<std::string, Fence>& files, const std::string& waiver, bool make) {
  Folder world;
  std::string guide = files.contains("guide.yaml") ? files.at("guide.yaml").body : "guide: An example\n";
  std::string chapters;
  for (const auto& [name, fence] : files)
    if (name.ends_with(".md")) chapters += (chapters.empty() ? "" : ", ") + name;
  if (!files.contains("guide.yaml") && !chapters.empty()) guide += "contents: [" + chapters + "]\n";
  for (const auto& [name, fence] : files) {
    if (name == "guide.yaml") continue;
    if (fence.type == "link") {
      world.link(name, fence.body);
    } else if (fence.type == "size") {
      REQUIRE(fence.size.ends_with("MB"));
      world.ofSize(name, std::stoull(fence.size) * 1024 * 1024);
    } else {
      world.put(name, fence.type == "bytes" ? unescaped(fence.body) : fence.body);
    }
  }
  world.put("guide.yaml", guide + waiver);
  const commands::Environment environment{.files = world,
                                          .currentFolder = "",
                                          .out = [](std::string_view) {},
                                          .err = [](std::string_view) {},
                                          .readLine = [](std::string&) { return false; }};
  Checked out;
  out.guide = commands::runPipeline(environment, "guide");
  out.findings = out.guide->report.findings;
  if (make) {
    commands::PrintFaults faults(*out.guide);
    for (linking::RecordIndex one : out.guide->collection.ofKind(records::Kind::checklist))
      CHECK(commands::setChecklist(environment, *out.guide, one, faults, [](std::string_view) {}).error ==
            "");
    diagnostics::Settings settings = out.guide->settings;
    for (std::size_t i = 0; i < diagnostics::kRules.size(); ++i)
      if (diagnostics::kRules[i].whenMade)
        settings.only.push_back(diagnostics::Rule{static_cast<std::uint8_t>(i)});
    const diagnostics::Report report =
        diagnostics::makeReport(faults.findings(), settings, out.guide->collection.sources());
    out.findings.insert(out.findings.end(), report.findings.begin(), report.findings.end());
  }
  for (const diagnostics::Finding& finding : out.findings) out.counting += finding.waived ? 0 : 1;
  return out;
}

std::string listed(const Checked& checked) {
  std::string out;
  for (const diagnostics::Finding& finding : checked.findings)
    out += diagnostics::asText(finding, checked.guide->collection.sources());
  return out;
}

// What every message and hint of the program keeps to.
void checkWording(const diagnostics::Finding& finding) {
  CAPTURE(finding.message);
  CAPTURE(finding.hint);
  REQUIRE_FALSE(finding.message.empty());
  CHECK_FALSE(finding.hint.empty());
  for (const std::string* words : {&finding.message, &finding.hint}) {
    if (words->empty()) continue;
    const bool name = words->starts_with("HTML") || words->starts_with("`");
    const bool capital = base::isUpper(words->front());
    CHECK((name || !capital));
    CHECK_FALSE(words->ends_with('.'));
    CHECK(base::trimmed(*words) == *words);
    CHECK(words->find("  ") == std::string::npos);
    CHECK(words->find('\n') == std::string::npos);
    CHECK(std::count(words->begin(), words->end(), '`') % 2 == 0);
  }
}

// The sentences of a text, without the signs of Markdown.
std::vector<std::string> sentences(const std::string& words) {
  std::vector<std::string> out(1);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const char c = words[i];
    const bool end =
        c == '\n' || ((c == '.' || c == ':' || c == '?') && (i + 1 == words.size() || words[i + 1] <= ' '));
    if (end) {
      out.emplace_back();
    } else if (c != '`' && c != '*' && (c != ' ' || !out.back().empty())) {
      out.back() += c;
    }
  }
  std::erase_if(out, [](const std::string& one) { return one.empty() || one.starts_with('#'); });
  return out;
}

std::vector<diagnostics::Rule> allRules() {
  std::vector<diagnostics::Rule> rules;
  for (std::size_t i = 0; i < diagnostics::kRules.size(); ++i)
    rules.push_back(diagnostics::Rule{static_cast<std::uint8_t>(i)});
  return rules;
}

}  // namespace

TEST_CASE(
    "an explanation's example gives its rule and no other, mended nothing, waived nothing that counts") {
  for (const diagnostics::Rule rule : allRules()) {
    const diagnostics::RuleInfo& info = rule.info();
    CAPTURE(info.id);
    const Explained explained = readExplanation(diagnostics::explanation(rule));
    CHECK_FALSE(explained.example.empty());
    if (explained.example.empty()) continue;
    const Checked found = check(explained.example, {}, info.whenMade);
    CHECK_MESSAGE(found.findings.size() == 1, "the example gives:\n" << listed(found));
    for (const diagnostics::Finding& finding : found.findings) {
      CHECK_MESSAGE(finding.rule.id() == info.id, "the example gives also:\n" << listed(found));
      checkWording(finding);
    }

    CHECK((!explained.fixed.empty() || !explained.gone.empty()));
    auto mended = explained.example;
    for (const auto& [name, fence] : explained.fixed) mended[name] = fence;
    for (const std::string& name : explained.gone) mended.erase(name);
    const Checked after = check(mended, {}, info.whenMade);
    CHECK_MESSAGE(after.findings.empty(), "put right, it still gives:\n" << listed(after));

    CHECK(explained.waiver.empty() == !info.waivable);
    if (explained.waiver.empty()) continue;
    const Checked waived = check(explained.example, explained.waiver, info.whenMade);
    CHECK_MESSAGE(waived.findings.size() == 1, "waived, it gives:\n" << listed(waived));
    CHECK_MESSAGE(waived.counting == 0, "waived, it still gives:\n" << listed(waived));
  }
}

TEST_CASE("an explanation says what is found, why it matters, and what to do") {
  for (const diagnostics::Rule rule : allRules()) {
    const diagnostics::RuleInfo& info = rule.info();
    CAPTURE(info.id);
    const std::string_view text = diagnostics::explanation(rule);
    CHECK(text.starts_with("# " + std::string(info.id) + "\n\n"));
    std::size_t last = 0;
    for (const char* heading :
         {"\n## Why it matters\n", "\n## Example\n", "\n## How to put it right\n",
          info.waivable ? "\n## How to waive it\n" : "\n## Why it cannot be waived\n"}) {
      CAPTURE(heading);
      const std::size_t at = text.find(heading);
      CHECK(at != std::string_view::npos);
      CHECK(at > last);
      last = at;
    }
    CHECK(text.ends_with('\n'));
  }
}

TEST_CASE("no two explanations say the same sentence") {
  std::map<std::string, std::string> saidIn;
  for (const diagnostics::Rule rule : allRules()) {
    for (const std::string& sentence : sentences(readExplanation(diagnostics::explanation(rule)).words)) {
      const auto [place, fresh] = saidIn.emplace(sentence, rule.id());
      CHECK_MESSAGE(fresh, "`" << sentence << "` stands in " << place->second << " and " << rule.id());
    }
  }
  CHECK(saidIn.size() > diagnostics::kRules.size() * 4);
}
