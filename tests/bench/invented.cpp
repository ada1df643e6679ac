#include "invented.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <iterator>
#include <set>
#include <string_view>

namespace bench {
namespace {

constexpr unsigned kMakers = 8;
constexpr int kFirstYear = 1880;  // the makers are founded
constexpr int kLastYear = 1968;   // and closed
constexpr int kFirstList = 1893;  // the price lists run
constexpr int kLastList = 1962;   // to here
constexpr unsigned kLists = kLastList - kFirstList + 1;

constexpr std::array<std::string_view, 12> kMonths = {"January",   "February", "March",    "April",
                                                      "May",       "June",     "July",     "August",
                                                      "September", "October",  "November", "December"};

// Small, fixed and good enough: the same world on every machine.
std::uint32_t mixed(std::uint32_t number) {
  number ^= number >> 16;
  number *= 0x7FEB352Du;
  number ^= number >> 15;
  number *= 0x846CA68Bu;
  return number ^ (number >> 16);
}

template <class List>
auto pick(const List& list, std::uint32_t number) {
  return list[number % std::size(list)];
}

struct Maker {
  std::string id;
  std::string name;
};
struct Source {
  std::string id;
  bool wantsPage = true;
};
struct Shape {
  std::string id;
  std::string name;
  std::string prefix;
  unsigned maker = 0;
  int introduced = 0;  // withdrawn 28 years later
};
struct Motif {
  std::string id;
  std::string name;
  int introduced = 0;  // withdrawn 36 years later
};
struct Form {
  std::string_view id;
  std::string_view name;
  std::string_view ware;
  std::string_view nominal;
  std::string_view actual;
};
struct Mark {
  std::string id;
  int from = 0;
  int until = 0;
};
struct Treatment {
  std::string id;
  std::string code;
  unsigned shape = 0;
  int introduced = 0;
  int withdrawn = 0;
  unsigned firstForm = 0;
};

constexpr Form kForms[] = {
    {"plate-4", "4-inch plate", "flat", "4 in", "6 1/8 in"},
    {"plate-5", "5-inch plate", "flat", "5 in", "7 1/8 in"},
    {"plate-6", "6-inch plate", "flat", "6 in", "8 1/4 in"},
    {"plate-7", "7-inch plate", "flat", "7 in", "9 1/8 in"},
    {"plate-8", "8-inch plate", "flat", "8 in", "10 in"},
    {"fruit-4", "4-inch fruit", "hollow", "4 in", "5 1/4 in"},
    {"nappy-7", "7-inch nappy", "hollow", "7 in", "8 3/4 in"},
    {"nappy-8", "8-inch nappy", "hollow", "8 in", "9 5/8 in"},
    {"dish-8", "8-inch dish", "flat", "8 in", "10 3/8 x 8 in"},
    {"dish-10", "10-inch dish", "flat", "10 in", "13 1/4 x 10 in"},
    {"dish-12", "12-inch dish", "flat", "12 in", "15 1/2 x 12 in"},
    {"lug-soup", "lug soup", "hollow", "none", "6 1/4 x 2 in"},
    {"teacup", "teacup", "hollow", "none", "3 3/4 x 2 1/4 in"},
    {"tea-saucer", "tea saucer", "flat", "none", "6 in"},
    {"sugar", "covered sugar", "hollow", "none", "6 1/2 x 4 in"},
    {"cream", "cream jug", "hollow", "none", "5 1/4 x 3 in"},
    {"teapot", "teapot", "hollow", "none", "9 x 6 1/2 in"},
    {"sauceboat", "sauceboat", "hollow", "none", "8 1/4 x 3 in"},
    {"covered-dish-8", "8-inch covered dish", "hollow", "8 in", "11 x 8 in"},
    {"batter-jug", "batter jug", "hollow", "none", "7 x 6 in"},
};
constexpr std::size_t kFormCount = std::size(kForms);

struct Lining {
  std::string_view figure;
  std::string_view look;
};
constexpr Lining kLinings[] = {
    {"0", "edge-line: none"},
    {"1", "edge-line: gold"},
    {"2", "edge-line: gold, verge-line: gold"},
    {"3", "edge-line: platinum"},
    {"4", "edge-line: coloured, colour: green"},
    {"4", "edge-line: coloured, colour: brown"},
};

class World {
 public:
  explicit World(const Size& size) : size_(size) {
    size_.sources = std::max(size.sources, kMakers * (kLists + 1));
    for (unsigned i = 0; i < kMakers; ++i) {
      const std::string name = inventedName(i);
      makers_.push_back({fmt::format("maker-{}", i + 1), name});
    }
    const unsigned shapes = std::max(kMakers, size.treatments / 200);
    for (unsigned i = 0; i < shapes; ++i) {
      Shape shape;
      shape.name = inventedName(1'000 + i);
      shape.id = fmt::format("shape-{}", i + 1);
      shape.prefix = {static_cast<char>('A' + i / 26 / 26 % 26), static_cast<char>('A' + i / 26 % 26),
                      static_cast<char>('A' + i % 26)};
      shape.maker = i % kMakers;
      shape.introduced = kFirstList + static_cast<int>(i * 5 % 42);
      shapes_.push_back(shape);
    }
    const unsigned motifs = std::max(800u, size.treatments / 20);
    for (unsigned i = 0; i < motifs; ++i) {
      const int year = kFirstYear + 2 + static_cast<int>(i % 80);
      motifs_.push_back({fmt::format("motif-{}", i + 1), inventedName(10'000 + i), year});
      motifsOf_[static_cast<std::size_t>(year - kFirstYear)].push_back(i);
    }
    for (unsigned i = 0; i < kMakers; ++i) {
      const std::array<std::pair<int, int>, 4> years{
          {{1880, 1915}, {1905, 1935}, {1925, 1955}, {1945, 1968}}};
      for (unsigned k = 0; k < 4; ++k)
        marks_.push_back({fmt::format("mark-{}-{}", i + 1, k + 1), years[k].first, years[k].second});
    }
  }

  std::vector<TextFile> write() {
    guide();
    single("makers.yaml", [&] { makers(); });
    single("people.yaml", [&] { people(); });
    single("forms.yaml", [&] { forms(); });
    single("features.yaml", [&] { features(); });
    single("marks.yaml", [&] { marks(); });
    single("shapes.yaml", [&] { shapes(); });
    single("motifs.yaml", [&] { motifs(); });
    single("checklists.yaml", [&] { checklists(); });
    if (size_.firsts > 0) single("questions.yaml", [&] { questions(); });
    const unsigned left = size_.files > 9 + 10 ? size_.files - 9 : 10;
    const unsigned sourceFiles = std::max(1u, left / 30);
    const unsigned treatmentFiles = std::max(1u, (left - sourceFiles) * 4 / 9);
    const unsigned specimenFiles = std::max(1u, left - sourceFiles - treatmentFiles);
    many("sources", sourceFiles, size_.sources, [&](unsigned i) { source(i); });
    many("treatments", treatmentFiles, size_.treatments, [&](unsigned i) { treatment(i); });
    many("specimens", specimenFiles, size_.specimens, [&](unsigned i) { specimen(i); });
    return std::move(files_);
  }

 private:
  template <class... Args>
  void put(fmt::format_string<Args...> text, Args&&... args) {
    fmt::format_to(std::back_inserter(files_.back().text), text, std::forward<Args>(args)...);
  }
  template <class Write>
  void single(const std::string& path, Write&& write) {
    if (!size_.oneFile || files_.size() == 1) files_.push_back({size_.oneFile ? "records.yaml" : path, ""});
    write();
  }
  template <class Write>
  void many(const std::string& folder, unsigned files, unsigned count, Write&& write) {
    for (unsigned file = 0, i = 0; file < files; ++file)
      single(fmt::format("{}/{:03}.yaml", folder, file + 1), [&] {
        const auto stop = static_cast<unsigned>(std::uint64_t{count} * (file + 1) / files);
        for (; i < stop; ++i) write(i);
      });
  }

  void guide() {
    files_.push_back({"guide.yaml", ""});
    put("guide: Tableware of {} valleys\nby: {}\nedition: 1\nsettings: {{circa: 3y, language: en-GB}}\n",
        kMakers, inventedName(500));
    put("contents:\n  - division: The shapes\n    holds:\n      - a-chapter-for-every: shape\n        "
        "in-order-of: introduced\n");
    put("  - division: At the back\n    holds: [codes, questions, glossary, corrections]\n");
  }

  void makers() {
    for (unsigned i = 0; i < kMakers; ++i) {
      const Maker& maker = makers_[i];
      put("- maker: {}\n  name: {} Pottery Company\n  trade: pottery\n  place: {}\n  founded: {}\n  closed: "
          "{}\n",
          maker.id, maker.name, inventedName(600 + i), kFirstYear, kLastYear);
      put("  works:\n    - {{works: upper, name: Upper works, letter: U, used: {0}/{1}}}\n    - {{works: "
          "lower, name: Lower works, letter: L, used: "
          "{0}/{1}}}\n",
          kFirstYear, kLastYear);
      put("  cite:\n    - books-{0}: inside the cover\n  codes:\n    - rule: decoration code\n      used: "
          "{1}/{2}\n      written: PREFIX-SERIAL-GROUP/LINING\n",
          i + 1, kFirstYear, kLastYear);
      put("      parts:\n        PREFIX: shape.prefix\n        SERIAL: 3 digits\n        GROUP:\n          "
          "A: a line or stamp only\n"
          "          B: one or two small decals\n          C: three or more decals, or one large centre\n    "
          "      D: a border decal\n");
      put("        LINING:\n          0: {{look: {{edge-line: none}}}}\n          1: {{look: {{edge-line: "
          "gold}}}}\n"
          "          2: {{look: {{edge-line: gold, verge-line: gold}}}}\n          3: {{look: {{edge-line: "
          "platinum}}}}\n"
          "          4: {{look: {{edge-line: coloured}}}}\n");
      put("      alone: PREFIX-SERIAL\n      order: SERIAL within PREFIX\n      means: The number painted or "
          "stamped on the foot.\n      cite:\n        - books-{}: inside the cover\n",
          i + 1);
      put("    - rule: date code\n      on: specimen.date-code\n      used: 1900/{}\n      written: WORKS YY "
          "QUARTER\n      parts: {{WORKS: maker.works.letter, "
          "YY: year 19YY, QUARTER: quarter}}\n      alike: [4 9]\n      means: The works, the year and the "
          "quarter.\n      cite:\n        - books-{}: last leaf\n\n",
          kLastYear, i + 1);
    }
  }

  void people() {
    for (unsigned i = 0; i < 40; ++i)
      put("- person: person-{}\n  name: {} {}\n  part: modeller\n  active: {}/{}\n\n", i + 1,
          inventedName(700 + i), inventedName(800 + i), 1885 + i, 1915 + i);
  }

  void forms() {
    for (std::size_t i = 0; i < kFormCount; ++i) {
      const Form& form = kForms[i];
      put("- form: {}\n  name: {}\n  ware: {}\n  nominal: {}\n  actual: {}\n  measured: overall\n  made-in: "
          "all\n  cite:\n    - list-1-{}: p. {}\n\n",
          form.id, form.name, form.ware, form.nominal, form.actual, kFirstList + static_cast<int>(i), i + 2);
    }
  }

  void features() {
    put("- feature: outline\n  of: shape\n  ask: What is the outline of a plate, seen from above?\n  "
        "values:\n    round: an even circle\n"
        "    scalloped: a wavy edge\n    eight-sided: eight straight sides\n    square: four sides\n  "
        "effort: 1\n\n");
    put("- feature: handle\n  of: shape\n  ask: What are the cup handles like?\n  values:\n    looped: a "
        "rounded loop\n"
        "    angular: two straight parts that meet in a corner\n    ring: a round ring\n  effort: 2\n\n");
    put("- feature: finial\n  of: shape\n  ask: What is the knob of a cover like?\n  values: {{closed knob: "
        "a round knob, open loop: a loop, slot: a slot}}\n  effort: 3\n\n");
    put("- feature: rim-number\n  of: shape\n  ask: How many ribs has the rim?\n  values:\n");
    for (unsigned i = 0; i < 40; ++i) put("    {0} ribs: {0} ribs from edge to verge\n", i + 6);
    put("  effort: 4\n\n");
    put("- feature: glaze\n  of: treatment\n  ask: Which glaze?\n  values: {{clear: clear and white, ivory: "
        "warm, vellum: like satin}}\n  effort: 1\n\n");
    put("- feature: edge-line\n  of: treatment\n  ask: Is there a line at the edge?\n  values:\n    none: no "
        "line\n    gold: a thin gold line\n"
        "    platinum: a thin grey line\n    coloured: a line in one colour\n  effort: 1\n\n");
    put("- feature: verge-line\n  of: treatment\n  ask: Is there a line at the verge?\n  values: {{gold: a "
        "gold line, none: no line}}\n  effort: 1\n\n");
    put("- feature: colour\n  of: treatment\n  ask: Of which colour is the line?\n  values: {{green: a leaf "
        "green, brown: a dark brown}}\n  effort: 1\n\n");
    put("- feature: placed\n  of: motif\n  ask: Where does the picture sit?\n  values:\n    centre: one "
        "picture in the well\n    border: a band on the rim\n"
        "    sprays: small pictures set apart\n  effort: 1\n\n");
    put("- feature: subject\n  of: motif\n  ask: What does the picture show?\n  values: {{fruit: fruit with "
        "its leaves, flowers: flowers, birds: small birds, "
        "quay: boats}}\n  effort: 1\n\n");
  }

  void marks() {
    for (std::size_t i = 0; i < marks_.size(); ++i) {
      const Mark& mark = marks_[i];
      const unsigned maker = static_cast<unsigned>(i / 4);
      put("- mark: {}\n  name: Wreath no. {} of {}\n  maker: {}\n  method: printed\n  laid: underglaze\n  "
          "colour: [brown, black]\n  reads: {}\n  carries: date code\n"
          "  used: {}/{}\n  cite:\n    - books-{}: marks, leaf {}\n\n",
          mark.id, i % 4 + 1, makers_[maker].name, makers_[maker].id,
          inventedName(900 + static_cast<unsigned>(i)), mark.from, mark.until, maker + 1, i % 4 + 1);
    }
  }

  void shapes() {
    constexpr std::array<std::string_view, 4> kOutlines = {"round", "scalloped", "eight-sided", "square"};
    constexpr std::array<std::string_view, 3> kHandles = {"looped", "angular", "ring"};
    constexpr std::array<std::string_view, 3> kFinials = {"closed knob", "open loop", "slot"};
    for (unsigned i = 0; i < shapes_.size(); ++i) {
      const Shape& shape = shapes_[i];
      put("- shape: {}\n  name: {}\n  maker: {}\n  prefix: {}\n  introduced:\n    is: {}\n    cite:\n      - "
          "list-{}-{}: p. 1, new shapes\n  withdrawn: {}\n",
          shape.id, shape.name, makers_[shape.maker].id, shape.prefix, shape.introduced, shape.maker + 1,
          shape.introduced, shape.introduced + 28);
      put("  look: {{outline: {}, handle: {}, finial: {}, rim-number: {} ribs}}\n  cite:\n    - books-{}: "
          "leaves of {}\n\n",
          pick(kOutlines, i), pick(kHandles, i / 4), pick(kFinials, i / 12), 6 + i % 40, shape.maker + 1,
          shape.prefix);
    }
  }

  void motifs() {
    constexpr std::array<std::string_view, 3> kPlaced = {"centre", "border", "sprays"};
    constexpr std::array<std::string_view, 4> kSubjects = {"fruit", "flowers", "birds", "quay"};
    for (unsigned i = 0; i < motifs_.size(); ++i) {
      const Motif& motif = motifs_[i];
      put("- motif: {}\n  name: {}\n  method: decal\n  named-by: factory\n  introduced: {}\n  withdrawn: "
          "{}\n  look: {{placed: {}, subject: {}}}\n  cite:\n    - books-{}: "
          "decals, p. {}\n\n",
          motif.id, motif.name, motif.introduced, motif.introduced + 36, pick(kPlaced, i),
          pick(kSubjects, i / 3), i % kMakers + 1, i + 1);
    }
  }

  void checklists() {
    put("- checklist: every-treatment\n  title: Every decoration\n  show: treatment\n  grouped: shape\n  "
        "in-order-of: code\n  columns: [code, motif, introduced, withdrawn]\n\n");
    put("- checklist: every-piece\n  title: Every piece seen\n  show: specimen\n  grouped: treatment\n  "
        "columns: [form, code-seen, date-code, size]\n\n");
  }

  void questions() {
    auto any = [&](std::uint32_t seed) {
      const std::uint32_t shape = mixed(seed) % static_cast<std::uint32_t>(shapes_.size());
      return fmt::format("treatment:{}-{:03}", lower(shapes_[shape].prefix), 1 + mixed(seed + 1) % 150);
    };
    for (unsigned i = 0; i < size_.firsts; ++i)
      put("- question: which-first-{}\n  asks: Which was introduced first?\n  first: [{}, {}]\n\n", i + 1,
          any(2 * i), any(2 * i + 600'001));
  }

  // A maker's own books (all years), then a price list for each year, catalogues and leaflets until there are
  // enough.
  void source(unsigned i) {
    const unsigned maker = i % kMakers;
    const unsigned nth = i / kMakers;
    if (nth == 0) {
      put("- source: books-{}\n  type: decoration-book\n  title: Decoration books of {}\n  date: {}/{}\n  "
          "holder: museum\n\n",
          maker + 1, makers_[maker].name, kFirstYear, kLastYear);
      return;
    }
    const int year = kFirstList + static_cast<int>((nth - 1) % kLists);
    const unsigned round = (nth - 1) / kLists;
    constexpr std::array<std::string_view, 3> kIds = {"list", "catalogue", "leaflet"};
    constexpr std::array<std::string_view, 3> kTypes = {"price-list", "catalogue", "leaflet"};
    constexpr std::array<std::string_view, 3> kTitles = {"Trade price list", "Fall catalogue", "Leaflet"};
    const std::string id =
        fmt::format("{}{}-{}-{}", pick(kIds, round),
                    round < 3 ? std::string() : fmt::format("-{}", round / 3), maker + 1, year);
    put("- source: {}\n  type: {}\n  title: {} of {}, {}\n  publisher: {} Pottery Company\n  date: {}\n  "
        "covers: pp. 1 to {}\n  holder: private collection\n  kept: {}\n\n",
        id, pick(kTypes, round), pick(kTitles, round), makers_[maker].name, year, makers_[maker].name, year,
        12 + mixed(i) % 60, markerWord(2'000'000 + i));
    dated_[maker][static_cast<std::size_t>(year - kFirstYear)].push_back(id);
  }

  // A motif of the right years that the shape does not carry yet.
  unsigned motifFor(unsigned shape, int introduced, unsigned seed) {
    for (unsigned tried = 0; tried < 28 * 40; ++tried) {
      const int year = introduced - static_cast<int>((seed + tried) % 28);
      if (year < kFirstYear + 2) continue;
      const auto& of = motifsOf_[static_cast<std::size_t>(year - kFirstYear)];
      if (of.empty()) continue;
      const unsigned motif = of[(seed / 28 + tried / 28) % of.size()];
      if (carried_.insert(std::uint64_t{shape} << 32 | motif).second) return motif;
    }
    return static_cast<unsigned>(motifs_.size());
  }

  void treatment(unsigned i) {
    const unsigned shapeCount = static_cast<unsigned>(shapes_.size());
    const unsigned each = (size_.treatments + shapeCount - 1) / shapeCount;
    const unsigned at = i / each;
    const unsigned serial = i % each;
    const Shape& shape = shapes_[at];
    const std::uint32_t seed = mixed(i + 17);
    const unsigned months = serial * 240 / each;  // booked one after another over twenty years
    const int introduced = shape.introduced + 1 + static_cast<int>(months / 12);
    const unsigned month = months % 12;
    const int withdrawn = introduced + 2 + static_cast<int>(seed % 5);
    const unsigned motif = motifFor(at, introduced, seed);
    const Lining& lining = pick(kLinings, seed >> 4);
    Treatment one;
    one.id = fmt::format("{}-{:03}", lower(shape.prefix), serial + 1);
    one.code = fmt::format("{}-{:03}-{}/{}", shape.prefix, serial + 1,
                           static_cast<char>('A' + (seed >> 8) % 4), lining.figure);
    one.shape = at;
    one.introduced = introduced;
    one.withdrawn = withdrawn;
    one.firstForm = seed >> 12;
    put("- treatment: {}\n  shape: {}\n  motif: {}\n  code: {}\n  look: {{{}, glaze: {}}}\n", one.id,
        shape.id, motif < motifs_.size() ? motifs_[motif].id : "none", one.code, lining.look,
        pick(std::array<std::string_view, 3>{"clear", "ivory", "vellum"}, seed >> 20));
    put("  introduced:\n    is: {}\n    cite:\n      - {{source: books-{}, at: \"vol. {}, {} {}\", dated: "
        "{}-{:02}}}\n",
        introduced, shape.maker + 1, 1 + (introduced - kFirstYear) / 10, kMonths[month], introduced,
        introduced, month + 1);
    put("  withdrawn:\n    is: {}\n    cite:\n      - books-{}: {}, struck out\n  forms: [", withdrawn,
        shape.maker + 1, one.code);
    const unsigned forms = 4 + seed % 6;
    for (unsigned k = 0; k < forms; ++k)
      put("{}{}", k == 0 ? "" : ", ", kForms[(one.firstForm + k) % kFormCount].id);
    put("]\n  met: {}\n",
        pick(std::array<std::string_view, 4>{"often", "sometimes", "rarely", "once"}, seed >> 24));
    if (seed % 3 == 0)
      put("  note: The {} of {} is drawn a little larger on the {}.\n",
          motif < motifs_.size() ? motifs_[motif].name : "line", shape.name,
          kForms[one.firstForm % kFormCount].name);
    put("  cite:\n    - books-{}: {}\n", shape.maker + 1, one.code);
    const auto& dated = dated_[shape.maker][static_cast<std::size_t>(withdrawn - 1 - kFirstYear)];
    if (!dated.empty())
      put("    - {}: p. {}, in the middle\n", dated[seed % dated.size()], 1 + (seed >> 6) % 40);
    put("\n");
    treatments_.push_back(std::move(one));
  }

  void specimen(unsigned i) {
    if (treatments_.empty()) return;
    const Treatment& treatment =
        treatments_[static_cast<std::size_t>(std::uint64_t{i} * treatments_.size() / size_.specimens)];
    const Shape& shape = shapes_[treatment.shape];
    const std::uint32_t seed = mixed(i + 4'000'003);
    const Form& form = kForms[(treatment.firstForm + seed % 4) % kFormCount];
    const Mark* mark = nullptr;
    for (unsigned k = 0; k < 4; ++k)
      if (const Mark& one = marks_[shape.maker * 4 + k]; one.from <= treatment.introduced) mark = &one;
    put("- specimen: {}-{}-{}\n  treatment: {}\n  form: {}\n  marks: [{}]\n  code-seen: {}\n", treatment.id,
        form.id, i + 1, treatment.id, form.id, mark->id, treatment.code);
    if (treatment.introduced >= 1900 && seed % 3 != 0) {
      const int year =
          treatment.introduced + 1 +
          static_cast<int>((seed >> 3) % static_cast<unsigned>(treatment.withdrawn - treatment.introduced));
      put("  date-code: {}{:02}{}\n", (seed >> 7) % 2 == 0 ? 'U' : 'L', year % 100, 1 + (seed >> 9) % 4);
    }
    put("  size: {}\n", form.actual);
    if (seed % 4 == 1) put("  condition: a hairline of {} mm at the foot\n", 4 + seed % 40);
    put("  seen: {{on: {}-{:02}-{:02}, by: person-{}, how: {}}}\n  holder: the author\n", 1995 + seed % 25,
        1 + (seed >> 5) % 12, 1 + (seed >> 9) % 28, 1 + (seed >> 14) % 40,
        (seed >> 17) % 3 == 0 ? "photograph" : "in-hand");
    put("  kept: {}\n", markerWord(3 * i));
    if (seed % 2 == 0) put("  owner: {}\n", markerWord(3 * i + 1));
    if (seed % 5 == 0) put("  paid: {}\n", markerWord(3 * i + 2));
    put("\n");
  }

  static std::string lower(std::string_view text) {
    std::string out(text);
    for (char& c : out) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return out;
  }

  Size size_;
  std::vector<TextFile> files_;
  std::vector<Maker> makers_;
  std::vector<Shape> shapes_;
  std::vector<Motif> motifs_;
  std::vector<Mark> marks_;
  std::vector<Treatment> treatments_;
  std::array<std::vector<unsigned>, 100> motifsOf_;                       // by year
  std::array<std::array<std::vector<std::string>, 100>, kMakers> dated_;  // sources by maker and year
  std::set<std::uint64_t> carried_;                                       // shape and motif
};

}  // namespace

std::string inventedName(std::uint32_t number) {
  constexpr std::array<std::string_view, 16> kFirst = {"Bra", "Cor",   "Del", "Ell", "Fen", "Gar",
                                                       "Hol", "Ister", "Jor", "Kel", "Lin", "Mor",
                                                       "Nar", "Or",    "Pen", "Quen"};
  constexpr std::array<std::string_view, 16> kMiddle = {"da", "ve", "li", "no", "ru", "sta", "the", "mi",
                                                        "go", "wa", "be", "xo", "ki", "pu",  "fla", "zo"};
  constexpr std::array<std::string_view, 16> kLast = {"mere",  "dale", "wick", "stone", "borne", "shaw",
                                                      "holm",  "by",   "lin",  "croft", "stead", "vane",
                                                      "marsh", "ley",  "tarn", "combe"};
  std::string name(pick(kFirst, number));
  for (std::uint32_t rest = number / 256; rest != 0; rest /= 16) name += pick(kMiddle, rest);
  return name += pick(kLast, number / 16);
}

std::string markerWord(std::uint32_t number) {
  std::string word = "zq";
  for (int i = 0; i < 6; ++i, number /= 26) word += static_cast<char>('a' + number % 26);
  return word += "qz";
}

std::vector<TextFile> inventGuide(const Size& size) {
  return World(size).write();
}

}  // namespace bench
