#include "compose/checklist.h"

#include "guide_of.h"

// Lists to print and tick: who is on them, in which groups, what stands in each cell and around the table.
namespace saggar::compose::testing {
namespace {

struct Made {
  std::string head;   // the title and what stands under it, as Markdown
  std::string table;  // heads, then a line a row; a group's head between brackets
  std::string notices;
  std::vector<std::string> from;
  ChecklistHead whole;
};

std::string cells(const std::vector<document::Cell>& row) {
  std::string out;
  for (std::size_t i = 0; i < row.size(); ++i) {
    const document::Cell& one = row[i];
    std::string words;
    document::forEachInline(one.inlines, [&](const Inline& part) {
      if (part.kind == document::InlineKind::tickBox) words += "[]";
      if (part.kind == document::InlineKind::emphasis) words += "*";
      words += part.text;
    });
    out += (i == 0 ? "" : " | ") + words;
  }
  return out;
}

Made made(const Guide& guide, const std::string& id = "list") {
  Made out;
  std::vector<RecordIndex> from;
  composeChecklist(*guide.materials, guide.at("checklist:" + id),
                   {.begin =
                        [&](const ChecklistHead& head) {
                          out.whole = head;
                          out.head = render::renderMarkdown(head.document);
                          for (const Block& block : head.document.blocks)
                            if (block.kind == document::BlockKind::notice)
                              out.notices += block.info + ": " + document::plainText(block.blocks) + '\n';
                          out.table = cells(head.columns.head) + '\n';
                        },
                    .row =
                        [&](const document::Row& row) {
                          out.table +=
                              row.groupHead ? "[" + cells(row.cells) + "]\n" : cells(row.cells) + '\n';
                        }},
                   from);
  for (RecordIndex one : from) out.from.push_back(guide.collection[one].reference());
  return out;
}

Made listOf(const std::string& checklist, const std::string& records = {}) {
  return made(Guide(
      Texts{{"records.yaml", kPottery + records + "- checklist: list\n  title: A list\n" + checklist}}));
}

std::string table(const std::string& checklist, const std::string& records = {}) {
  return listOf(checklist, records).table;
}

TEST_CASE("a box to tick in every row, and the trade's words over the columns") {
  CHECK(table("  show: treatment\n  columns: [code, shape, motif, introduced, withdrawn, met]\n") ==
        " | Number | Shape | Motif | Introduced | Last offered | Met with\n"
        "[] | BR-01-1 | Bryn | Fern | 1922 | 1930 | often\n"
        "[] | BR-02-0 (no source recorded) | Bryn | none | 1923 (doubted: the ink is another) | – | –\n"
        "[] | not known (suggested) | Cairn | Fern | – | – | –\n");
  CHECK(
      table("  show: treatment\n  where: {code: BR-01-1}\n  columns: [{Picture: motif.name}, motif.supplier, "
            "motif.supplier-number, look.edge-line, specimen]\n") ==
      " | Picture | Supplier | Supplier’s no. | Edge line | Pieces seen\n[] | Fern | Ostrand Decals | 12 | "
      "gold | BR-01-1 "
      "Fern, 7-inch plate; BR-01-1 Fern, pot\n[] | Fern *perhaps | Ostrand Decals | 12 | – | none\n");
}

TEST_CASE(
    "missing values: none, not known, not recorded, and the record's name where its number is missing") {
  const std::string more = R"(
- treatment: t1
  code: none
  name: Plain ware
- treatment: t2
  name: The odd one
  shape: unknown
- treatment: t3
  code: [T-1, T-2]
  shape: [bryn, cairn]
  motif: unknown
- treatment: t4
  code: unknown
  name: Gold plates
  forms: []
)";
  CHECK(table("  show: treatment\n  where: {maker: absent, introduced: absent}\n  columns: [code, shape, "
              "motif]\n",
              more)
            .ends_with("[] | none (Plain ware) | – | –\n[] | not recorded (The odd one) | ? | –\n"
                       "[] | T-1, T-2 | Bryn, Cairn | ?\n[] | not known (Gold plates) | – | –\n"));
  CHECK(table("  show: form\n  columns: [name, nominal, holds]\n", "- form: cup\n  nominal: unknown\n") ==
        " | Piece | Nominal size | Holds\n[] | 7-inch plate | 7\u00A0in | –\n[] | pot | none | "
        "24\u00A0fl\u00A0oz "
        "(710\u00A0ml)\n[] | Cup | ? | –\n");
  CHECK(table("  show: specimen\n  columns: [treatment, code-seen]\n") ==
        " | Decoration | Number on it\n[] | BR-01-1 Fern | BR-01-1\n[] | BR-01-1 Fern | –\n[] | Other, "
        "7-inch plate | –\n");
}

TEST_CASE("a measure is broken before its bracket only") {
  CHECK(table("  show: form\n  where: {name: jug}\n  columns: [name, holds, actual]\n",
              "- form: jug\n  name: jug\n  holds: [48 fl oz, 16 fl oz]\n  actual: 9 x 6 3/4 in\n") ==
        " | Piece | Holds | Actual size\n[] | jug | 48\u00A0fl\u00A0oz (1420\u00A0ml), 16\u00A0fl\u00A0oz "
        "(475\u00A0ml) | "
        "9\u00A0x\u00A06\u00A03/4\u00A0in (229\u00A0x\u00A0171\u00A0mm)\n");
}

TEST_CASE("grouped rows under the heads of their groups, in the order of the names") {
  CHECK(table("  show: treatment\n  grouped: shape\n  columns: [code]\n",
              "- treatment: a\n  code: A-1\n- treatment: b\n  code: B-1\n  shape: unknown\n") ==
        " | Number\n[Bryn]\n[] | BR-01-1 (documented)\n[] | BR-02-0\n[Cairn]\n[] | not known\n[Shape not "
        "known]\n[] | B-1\n"
        "[Shape not recorded]\n[] | A-1\n");
  CHECK(table("  show: form\n  grouped: ware\n  columns: [name]\n",
              "- {form: set, name: batter set, ware: set}\n- {form: lid, name: lid}\n") ==
        " | Piece\n[Flatware]\n[] | 7-inch plate\n[Hollowware]\n[] | pot\n[Sets]\n[] | batter set\n[Ware not "
        "recorded]\n[] | "
        "lid\n");
  CHECK(holds(table("  show: treatment\n  grouped: motif\n  columns: [code]\n"), "[Fern]\n"));
  CHECK(holds(table("  show: treatment\n  grouped: motif\n  columns: [code]\n"),
              "[No motif]\n[] | BR-02-0 (no source recorded)\n"));
}

TEST_CASE("in the order asked for, what has no value last") {
  const std::string more =
      "- treatment: t9\n  code: T-9\n  introduced: 1910\n- treatment: t10\n  code: T-10\n  introduced: "
      "1911\n";
  CHECK(table("  show: treatment\n  in-order-of: introduced\n  columns: [code]\n", more) ==
        " | Number\n[] | T-9\n[] | T-10\n[] | BR-01-1 (documented)\n[] | BR-02-0\n[] | not known\n");
}

TEST_CASE("the columns of a list whose author names none") {
  auto heads = [](const std::string& kind) {
    const std::string text = table("  show: " + kind + "\n");
    return text.substr(0, text.find('\n'));
  };
  CHECK(heads("treatment") == " | Number | Shape | Motif | Introduced | Last offered");
  CHECK(heads("form") == " | Piece | Nominal size | Actual size | Holds");
  CHECK(heads("mark") == " | Mark | Method | Reads | Used");
  CHECK(heads("shape") == " | Shape | Maker | Introduced | Last offered");
  CHECK(heads("motif") == " | Motif | Supplier | First used | Last used");
  CHECK(heads("specimen") == " | Decoration | Piece | Number on it | Date code");
  CHECK(heads("source") == " | Source");
  CHECK(heads("person") == " | Name");
  CHECK(heads("term") == " | Word | Means");
}

TEST_CASE("the legend says what each sign means, and no more") {
  const Made list = listOf("  show: treatment\n  columns: [code]\n");
  CHECK(holds(list.notices, "legend: "));
  CHECK(holds(list.head, "tick when you have held one\u2003– not recorded\u2003? looked for, and not known"));
  CHECK_FALSE(holds(list.head, "perhaps"));
  CHECK(holds(listOf("  show: specimen\n").head, "tick when you have held it"));
  CHECK(holds(listOf("  show: source\n").head, "tick when done"));
}

TEST_CASE("what belongs only perhaps is marked and counted, or left out") {
  const std::string perhaps = "  show: treatment\n  where: {introduced: ../1923}\n  columns: [code, motif]\n";
  const Made list = listOf(perhaps);
  CHECK(holds(list.table, "[] | not known (suggested) *perhaps | Fern\n"));
  CHECK(holds(list.table, "[] | BR-01-1 | Fern\n"));
  CHECK(holds(list.head, "*perhaps* what would place it here is not recorded"));
  CHECK(holds(list.notices,
              "It has the three decorations on record, one of them perhaps; others may turn up."));
  const Made sure = listOf(perhaps + "  sure: yes\n");
  CHECK_FALSE(holds(sure.table, "perhaps"));
  CHECK(holds(sure.notices,
              "It has the two decorations on record that surely belong here; others may turn up."));
}

TEST_CASE("no list is complete, and an empty one has no table") {
  CHECK(
      holds(listOf("  show: form\n").notices,
            "incomplete: This is not a complete list. It has the two pieces on record; others may turn up."));
  CHECK(holds(listOf("  show: mark\n").notices, "It has the one mark on record;"));
  const Made none = listOf("  show: treatment\n  where: {code: X-1}\n  sure: yes\n");
  CHECK(holds(none.notices, "Nothing on record belongs on this list yet."));
  CHECK_FALSE(none.whole.hasRows);
  CHECK(listOf("  show: form\n").whole.hasRows);
}

// The figure is that of California Agriculture 53(5), 1999.
TEST_CASE("the caution stands on every list of ware, with its date, and on no other") {
  for (const char* kind : {"shape", "form", "motif", "treatment", "set", "mark", "specimen"}) {
    const Made list = listOf("  show: " + std::string(kind) + "\n");
    CHECK(holds(list.notices, "caution: "));
    CHECK(holds(list.notices, "14.2 per cent leached lead (California Agriculture 53(5), 1999)"));
    CHECK(holds(list.notices, "Local rules and a laboratory decide. This list is no appraisal."));
    CHECK(list.whole.columns.writeIn == "Date seen");
  }
  for (const char* kind : {"source", "person", "question", "term", "maker"}) {
    const Made list = listOf("  show: " + std::string(kind) + "\n");
    CHECK_FALSE(holds(list.notices, "caution"));
    CHECK(list.whole.columns.writeIn.empty());
  }
}

TEST_CASE("title, edition and note at the head; figures to the right") {
  const Guide guide(Texts{
      {"guide.yaml", "guide: Plates of Velm\nby: Mo Delling\nedition: 2\nsettings: {language: en-US}\n"},
      {"records.yaml", kPottery +
                           "- checklist: list\n  title: A list\n  show: talk\n  columns: [title, number]\n"
                           "  note: Take a *pencil*.\n"}});
  const Made list = made(guide);
  CHECK(list.head.starts_with("# A list\n\nTake a *pencil*.\n"));
  CHECK(list.whole.document.file == "list");
  CHECK(list.whole.document.edition == "Plates of Velm, second edition");
  CHECK(list.whole.document.language == "en-US");
  REQUIRE(list.whole.columns.align.size() == 3);
  CHECK(list.whole.columns.align[1] == document::Align::left);
  CHECK(list.whole.columns.align[2] == document::Align::right);
}

TEST_CASE("private fields are never printed, even where a column asks for one") {
  const Made list =
      listOf("  show: specimen\n  columns: [treatment, kept, owner, my-thought, holder]\n  grouped: kept\n");
  CHECK(list.table ==
        " | Decoration | Holder\n[] | BR-01-1 Fern | a museum\n[] | BR-01-1 Fern | –\n[] | Other, 7-inch "
        "plate | –\n");
  for (const char* secret : {"shelf nine", "Secretname", "hush"}) {
    CHECK_FALSE(holds(list.table, secret));
    CHECK_FALSE(holds(list.head, secret));
  }
}

TEST_CASE("what a list was made from, each once") {
  CHECK(listOf("  show: form\n  where: {ware: flat}\n").from ==
        std::vector<std::string>{"form:plate", "checklist:list"});
}

TEST_CASE("the layout it asks for, else the guide's, else the built-in one") {
  auto layout = [](const std::string& own, const std::string& guide) {
    const Guide one(Texts{{"guide.yaml", "guide: G\n" + guide},
                          {"records.yaml", "- checklist: list\n  title: L\n  show: shape\n" + own}});
    return layoutNameOf(*one.materials, one.at("checklist:list"));
  };
  CHECK(layout("", "") == "checklist");
  CHECK(layout("", "settings: {layout: mine}\n") == "mine");
  CHECK(layout("  layout: wide\n", "settings: {layout: mine}\n") == "wide");
}

}  // namespace
}  // namespace saggar::compose::testing
