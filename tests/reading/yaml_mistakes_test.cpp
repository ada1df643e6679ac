#include "support.h"

// The commonest slips of people who write YAML by hand: each gives one finding, at its own place, and the hint prints
// what to type instead. The facts are of an invented pottery.
using namespace reading_test;

namespace {

struct Slip {
  const char* name;
  const char* text;     // of a file
  const char* where;    // "line:column rule"
  const char* message;  // words the message has
  const char* hint;     // words the hint has
  const char* ids;      // of the records that are there afterwards
};

constexpr Slip kSlips[] = {
    // a colon inside unquoted text
    {"colon in text", "- shape: linnavere\n  name: Linnavere: the ribbed shape\n  maker: wesperling\n",
     "2:9 yaml-broken", "second colon", "`name: \"Linnavere: the ribbed shape\"`", "linnavere"},
    {"colon in text with a quotation mark", "- shape: linnavere\n  note: He said: \"ribs\"\n",
     "2:9 yaml-broken", "second colon", "`note: 'He said: \"ribs\"'`", "linnavere"},
    {"colon at the end of text", "- shape: linnavere\n  name: Linnavere:\n  maker: wesperling\n",
     "2:9 yaml-broken", "ends in a colon", "`name: \"Linnavere:\"`", "linnavere"},
    {"colon in a locator", "- shape: linnavere\n  cite:\n    - decoration-books: vol. 4: May 1936\n",
     "3:25 yaml-broken", "second colon", "`decoration-books: \"vol. 4: May 1936\"`", "linnavere"},
    {"citation on the line of cite", "- shape: linnavere\n  cite: decoration-books: vol. 4\n",
     "2:9 yaml-broken", "cannot stand on the line of `cite:`", "`decoration-books: vol. 4`", "linnavere"},
    {"colon in a text of a list",
     "- question: tr-6\n  asks: What is TR-6?\n  would-settle:\n    - The old books: 2500 to 2641\n",
     "4:7 value-unfit", "makes a key and a value", "`\"The old books: 2500 to 2641\"`", "tr-6"},
    {"colon in the second line of a text",
     "- shape: linnavere\n  note: The first guide\n    says of it: ribs all round\n", "3:5 yaml-broken",
     "colon in a text that runs over several lines", "`note: |`", "linnavere"},
    {"colon in braces", "- shape: linnavere\n  introduced: {is: 1936, note: said: 1936}\n",
     "2:32 yaml-broken", "second colon", "`note: \"said: 1936\"`", "linnavere"},
    {"no blank after a colon", "- shape: linnavere\n  name:Linnavere\n  maker: wesperling\n",
     "2:3 yaml-broken", "no blank after the colon", "`name: Linnavere`", "linnavere"},
    {"no blank after the last colon", "- shape: linnavere\n  maker: wesperling\n  name:Linnavere\n",
     "3:3 yaml-broken", "no blank after the colon", "`name: Linnavere`", "linnavere"},
    {"no blank after a colon in braces", "- shape: linnavere\n  introduced: {is:1936, cite: books}\n",
     "2:16 yaml-broken", "no blank after the colon", "`is: 1936`", "linnavere"},
    {"no blank after the kind's colon", "- shape:linnavere\n", "1:3 yaml-broken", "no blank after the colon",
     "`shape: linnavere`", ""},
    // a sign in front
    {"at", "- shape: linnavere\n  name: @home\n", "2:9 yaml-broken", "cannot begin with `@`",
     "`name: \"@home\"`", "linnavere"},
    {"per cent", "- shape: linnavere\n  note: %1936\n", "2:9 yaml-broken", "cannot begin with `%`",
     "`note: \"%1936\"`", "linnavere"},
    {"backquote", "- shape: linnavere\n  name: `Linnavere`\n", "2:9 yaml-broken", "cannot begin with ``",
     "`name: \"`Linnavere`\"`", "linnavere"},
    {"ampersand and a blank", "- maker: wesperling\n  name: & Sarnock\n", "2:9 yaml-broken",
     "cannot begin with `&`", "`name: \"& Sarnock\"`", "wesperling"},
    {"ampersand and a word", "- maker: wesperling\n  name: &Sarnock\n", "2:9 value-lost", "begins with `&`",
     "`\"&Sarnock\"`", "wesperling"},
    {"ampersand and words", "- maker: wesperling\n  name: &Sarnock and Co\n", "2:9 value-lost", "`&Sarnock`",
     "`\"&Sarnock and Co\"`", "wesperling"},
    {"star", "- shape: linnavere\n  note: *rare*\n", "2:9 yaml-broken", "cannot begin with `*`",
     "`note: \"*rare*\"`", "linnavere"},
    {"star and a blank", "- shape: linnavere\n  note: * rare\n", "2:9 yaml-broken", "cannot begin with `*`",
     "`note: \"* rare\"`", "linnavere"},
    {"two stars", "- shape: linnavere\n  note: **rare** on cups\n", "2:9 yaml-broken",
     "cannot begin with `*`", "`note: \"**rare** on cups\"`", "linnavere"},
    {"exclamation mark", "- shape: linnavere\n  name: !Linnavere\n", "2:9 value-lost", "begins with `!`",
     "`\"!Linnavere\"`", "linnavere"},
    {"exclamation mark and more", "- shape: linnavere\n  note: !rare in blue\n  maker: wesperling\n",
     "2:9 value-lost", "begins with `!`", "`\"!rare in blue\"`", "linnavere"},
    {"two exclamation marks", "- shape: linnavere\n  note: !! rare\n", "2:9 yaml-broken",
     "cannot begin with `!`", "`note: \"!! rare\"`", "linnavere"},
    {"question mark and a blank", "- shape: linnavere\n  note: ? ribs\n", "2:9 yaml-broken",
     "cannot begin with `?`", "`note: \"? ribs\"`", "linnavere"},
    {"comma", "- shape: linnavere\n  note: , ribs\n", "2:9 yaml-broken", "cannot begin with `,`",
     "`note: \", ribs\"`", "linnavere"},
    {"at in a list", "- shape: linnavere\n  also:\n    - @home\n", "3:7 yaml-broken", "cannot begin with `@`",
     "`\"@home\"`", "linnavere"},
    {"at in brackets", "- shape: linnavere\n  also: [Lin, @home]\n", "2:15 yaml-broken",
     "cannot begin with `@`", "`\"@home\"`", "linnavere"},
    {"bar and text", "- shape: linnavere\n  note: | ribs all round\n", "2:9 yaml-broken",
     "nothing may follow `|`", "on the next line", "linnavere"},
    {"closing bracket in front", "- shape: linnavere\n  note: ]ribs\n", "2:9 yaml-broken",
     "`]` closes a bracket", "`\"]ribs\"`", "linnavere"},
    // a tab
    {"tab in front of a field", "- shape: linnavere\n\tname: Linnavere\n", "2:1 yaml-broken", "a tab",
     "replace the tab by blanks", "linnavere"},
    {"tab behind blanks", "- shape: linnavere\n  look:\n  \toutline: round\n", "3:3 yaml-broken", "a tab",
     "replace the tab by blanks", "linnavere"},
    {"tab in front of an item", "- shape: linnavere\n  forms:\n\t- teapot\n", "3:1 yaml-broken", "a tab",
     "replace the tab by blanks", "linnavere"},
    {"tab in front of a record", "- shape: linnavere\n\t- shape: jessamount\n", "2:1 yaml-broken", "a tab",
     "replace the tab by blanks", "linnavere"},
    // out of line
    {"item further out", "- shape: linnavere\n  forms:\n    - plate-7\n   - teapot\n", "4:4 yaml-broken",
     "list item is out of line", "`    - teapot`", "linnavere"},
    {"item further in", "- shape: linnavere\n  forms:\n    - plate-7\n     - teapot\n", "4:6 yaml-broken",
     "this item", "same column", "linnavere"},
    {"item further in than a citation",
     "- shape: linnavere\n  cite:\n    - books: p. 7\n     - price-list-9\n", "4:6 yaml-broken",
     "out of line", "`    - price-list-9`", "linnavere"},
    {"item further in than a quoted one", "- shape: linnavere\n  also:\n    - \"Lin\"\n     - Linny\n",
     "4:6 yaml-broken", "out of line", "`    - Linny`", "linnavere"},
    {"field further out", "- shape: linnavere\n  look:\n    outline: round\n   rim: yes\n", "4:4 yaml-broken",
     "`rim:` is out of line", "`    rim: yes`", "linnavere"},
    {"field further in", "- shape: linnavere\n  name: Linnavere\n   maker: wesperling\n", "3:4 yaml-broken",
     "`maker:` stands further in", "`  maker: wesperling`", "linnavere"},
    {"field with one blank", "- shape: linnavere\n name: Linnavere\n", "2:2 yaml-broken",
     "`name:` is out of line", "`  name: Linnavere`", "linnavere"},
    {"field with four blanks", "- shape: linnavere\n    name: Linnavere\n", "2:5 yaml-broken",
     "`name:` stands further in", "`  name: Linnavere`", "linnavere"},
    {"field at the margin", "- shape: linnavere\nname: Linnavere\n  maker: wesperling\n- shape: jessamount\n",
     "2:1 yaml-broken", "stands at the margin", "`  name: Linnavere`", "linnavere jessamount"},
    {"record one blank in",
     "- shape: linnavere\n  maker: wesperling\n - shape: jessamount\n   maker: wesperling\n",
     "3:2 yaml-broken", "record is out of line", "same column", "linnavere jessamount"},
    {"first record one blank in",
     " - shape: linnavere\n   maker: wesperling\n- shape: jessamount\n- shape: corrisand\n",
     "1:2 yaml-broken", "record is out of line", "same column", "linnavere jessamount corrisand"},
    {"record without its dash", "shape: linnavere\n  maker: wesperling\n- shape: jessamount\n",
     "1:1 yaml-broken", "does not begin with a dash", "`- shape: linnavere`", "linnavere jessamount"},
    {"record without a blank behind the dash", "-shape: linnavere\n- shape: jessamount\n", "1:1 yaml-broken",
     "no blank after the dash", "`- shape: linnavere`", "linnavere jessamount"},
    {"heading without its sign", "Shapes of the ivory years\n- shape: jessamount\n", "1:1 yaml-broken",
     "outside any record", "`# Shapes of the ivory years`", "jessamount"},
    {"heading with a colon", "Shapes:\n- shape: jessamount\n", "1:1 yaml-broken", "outside any record",
     "a `#` in front", "jessamount"},
    {"item behind a value", "- shape: linnavere\n  forms: \"plate-7\"\n    - teapot\n", "3:5 yaml-broken",
     "has its value already", "`forms:`", "linnavere"},
    {"list on the line of its key", "- shape: linnavere\n  forms: - teapot\n", "2:10 yaml-broken",
     "on the line of its key", "`[one, two]`", "linnavere"},
    {"words alone", "- shape: linnavere\n  Linnavere is ribbed\n  maker: wesperling\n", "2:3 yaml-broken",
     "neither `word: value`", "`Linnavere: is ribbed`", "linnavere"},
    {"words alone at the end", "- shape: linnavere\n  name: Linnavere\n  ribbed\n", "3:3 yaml-broken",
     "neither `word: value`", "`ribbed: …`", "linnavere"},
    {"line of a text further out",
     "- shape: linnavere\n  note: |\n      Ribs all round\n    the edge.\n  maker: wesperling\n",
     "4:5 yaml-broken", "further out than the first line", "`      the edge.`", "linnavere"},
    // quotes
    {"open quote", "- shape: linnavere\n  name: \"Linnavere\n  maker: wesperling\n- shape: jessamount\n",
     "2:9 quote-open", "not closed", "`name: \"Linnavere\"`", "linnavere jessamount"},
    {"open single quote", "- shape: linnavere\n  name: 'Linnavere\n  maker: wesperling\n", "2:9 quote-open",
     "not closed", "`name: 'Linnavere'`", "linnavere"},
    {"open quote, another behind", "- shape: linnavere\n  name: \"Linnavere\n  note: \"ribs\"\n",
     "2:9 quote-open", "not closed", "`name: \"Linnavere\"`", "linnavere"},
    {"open quote closed by the next", "- shape: linnavere\n  name: \"Linnavere\n  note: ribs\"\n",
     "2:9 quote-open", "not closed", "`name: \"Linnavere\"`", "linnavere"},
    {"open quote in brackets", "- shape: linnavere\n  also: [\"Lin, Linny]\n  maker: wesperling\n",
     "2:10 quote-open", "not closed", "", "linnavere"},
    {"open quote in the id", "- shape: \"linnavere\n  maker: wesperling\n", "1:10 quote-open", "not closed",
     "`shape: \"linnavere\"`", "linnavere"},
    {"apostrophe inside single quotes", "- shape: linnavere\n  name: 'Linnavere's rim'\n", "2:9 yaml-broken",
     "follows the closing quotation mark", "`name: \"Linnavere's rim\"`", "linnavere"},
    {"words behind quotes", "- shape: linnavere\n  name: \"Linnavere\" ware\n", "2:9 yaml-broken",
     "follows the closing quotation mark", "`name: '\"Linnavere\" ware'`", "linnavere"},
    {"words behind quotes in brackets", "- shape: linnavere\n  also: [\"Lin\" ware, Linny]\n",
     "2:10 yaml-broken", "follows the closing quotation mark", "`'\"Lin\" ware'`", "linnavere"},
    {"backslash", "- shape: linnavere\n  photo: \"images\\linnavere.png\"\n", "2:17 yaml-broken", "backslash",
     "`'images\\linnavere.png'`", "linnavere"},
    // brackets
    {"open bracket", "- shape: linnavere\n  forms: [plate-7, teapot\n  maker: wesperling\n",
     "2:10 yaml-broken", "`[` opens here and is not closed", "`forms: [plate-7, teapot]`", "linnavere"},
    {"open bracket at the end", "- shape: linnavere\n  forms: [plate-7, teapot\n- shape: jessamount\n",
     "2:10 yaml-broken", "`[` opens here and is not closed", "`forms: [plate-7, teapot]`",
     "linnavere jessamount"},
    {"open brace", "- shape: linnavere\n  introduced: {is: 1936, cite: books\n  maker: wesperling\n",
     "2:15 yaml-broken", "`{` opens here and is not closed", "`introduced: {is: 1936, cite: books}`",
     "linnavere"},
    {"bracket open in braces", "- shape: linnavere\n  forms: {is: [plate-7, teapot, cite: books}\n",
     "2:15 yaml-broken", "not closed before `}`", "`]`", "linnavere"},
    {"bracket too many", "- shape: linnavere\n  forms: [plate-7, teapot]]\n", "2:27 yaml-broken",
     "never opened", "take it out", "linnavere"},
    {"words behind a bracket", "- shape: linnavere\n  note: [sic] ribbed\n", "2:15 yaml-broken",
     "follows the closing bracket", "`note: \"[sic] ribbed\"`", "linnavere"},
    {"comma missing in braces", "- shape: linnavere\n  introduced: {is: 1936 cite: books}\n",
     "2:20 yaml-broken", "a comma is missing", "`is: 1936, cite: books`", "linnavere"},
    {"link in braces",
     "- shape: linnavere\n  more: {Rim: ribbed as [the rival](shape:no-9) is, Foot: flat}\n",
     "2:25 yaml-broken", "in the middle of a text", "`\"ribbed as [the rival](shape:no-9) is\"`",
     "linnavere"},
    {"bracket missing in front", "- specimen: lv-12-plate\n  marks: k4, {mark: k5, at: beside it}]\n",
     "2:39 yaml-broken", "never opened", "`marks: [k4, {mark: k5, at: beside it}]`", "lv-12-plate"},
    {"dashes in brackets", "- shape: linnavere\n  forms: [- plate-7, - teapot]\n", "2:11 yaml-broken",
     "no dash", "`[one, two]`", "linnavere"},
    {"braces for brackets", "- shape: linnavere\n  forms: {plate-7, teapot}\n", "2:10 yaml-broken",
     "words alone", "`[plate-7, teapot]`", "linnavere"},
    // a comma in an unquoted citation
    {"comma in a citation in brackets", "- shape: linnavere\n  cite: [decoration-books: vol. 3, May 1932]\n",
     "2:36 value-unfit", "a comma ends the citation", "`[\"decoration-books: vol. 3, May 1932\"]`",
     "linnavere"},
    {"comma in a full citation", "- shape: linnavere\n  cite: {source: books, at: vol. 3, May 1932}\n",
     "2:37 value-lost", "a comma ends the value", "`at: \"vol. 3, May 1932\"`", "linnavere"},
    {"comma in braces", "- shape: linnavere\n  look: {colour: rose, green or blue, rim: yes}\n",
     "2:24 value-lost", "a comma ends the value", "`colour: \"rose, green or blue\"`", "linnavere"},
    // what YAML drops
    {"number sign", "- shape: linnavere\n  note: no. #3 of the list\n", "2:13 value-lost", "for a comment",
     "`note: \"no. #3 of the list\"`", "linnavere"},
    {"number sign at once", "- treatment: lv-12\n  shape: linnavere\n  motif: none\n  code: #12\n",
     "4:9 value-lost", "for a comment", "`code: \"#12\"`", "lv-12"},
    {"comment in the middle of a text", "- shape: linnavere\n  note: The ribs # run\n    all round\n",
     "3:5 yaml-broken", "a comment ends the text", "above the field", "linnavere"},
};

}  // namespace

TEST_CASE("each of the commonest slips is one finding at its place, with what to type") {
  for (const Slip& slip : kSlips) {
    CAPTURE(std::string(slip.name));
    const Read read = readText(slip.text);
    CAPTURE(read.report());
    CHECK(read.places() == std::string(slip.where) + '\n');
    if (read.all().size() != 1) continue;
    checkWording(read.all()[0]);
    CHECK_MESSAGE(read.all()[0].message.find(slip.message) != std::string::npos, read.all()[0].message);
    CHECK_MESSAGE(read.all()[0].hint.find(slip.hint) != std::string::npos, read.all()[0].hint);
    std::string ids;
    for (const records::Record& record : read.guide.records)
      ids += (ids.empty() ? "" : " ") + std::string(record.id);
    CHECK(ids == slip.ids);
  }
}

TEST_CASE("the same slips in the middle of a file cost no other record") {
  for (const Slip& slip : kSlips) {
    const std::string_view text(slip.text);
    if (!text.starts_with("- ")) continue;
    CAPTURE(std::string(slip.name));
    const std::string before =
        "- form: plate-7\n  ware: flat\n\n- person: quoyne\n  part: |\n    modeller\n\n";
    const std::string after =
        "\n# the last ones\n- form: teapot\n  ware: hollow\n- term: verge\n  means: The line.\n";
    const Read read = readText(before + slip.text + after);
    CAPTURE(read.report());
    CHECK(read.all().size() == 1);
    const int line = std::atoi(slip.where) + 7;
    if (!read.all().empty()) CHECK(read.place(0).line == static_cast<std::size_t>(line));
    CHECK(read.find(records::Kind::form, "plate-7"));
    CHECK(read.find(records::Kind::person, "quoyne"));
    CHECK(read.find(records::Kind::form, "teapot"));
    REQUIRE(read.find(records::Kind::term, "verge"));
    CHECK(read.find(records::Kind::term, "verge")->fields.size() == 1);
    CHECK_FALSE(read.find(records::Kind::term, "verge")->broken);
  }
}
