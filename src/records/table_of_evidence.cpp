#include "records/table_parts.h"

// What is known of the ware, and by what: specimens, sources, photographs, and the features one looks for.
namespace saggar::records {
namespace {

using enum FieldType;
using tables::group;
using tables::groupMap;
using tables::of;
using tables::oneOf;
using tables::ref;

constexpr std::string_view kHowSeen[] = {"in-hand", "photograph", "reported"};
constexpr std::string_view kSourceTypes[] = {"decoration-book",
                                             "factory-record",
                                             "ledger",
                                             "price-list",
                                             "catalogue",
                                             "leaflet",
                                             "trade-notice",
                                             "advertisement",
                                             "registration",
                                             "patent",
                                             "supplier-sheet",
                                             "photograph",
                                             "sample",
                                             "excavation",
                                             "interview",
                                             "letter",
                                             "observation",
                                             "newspaper",
                                             "directory",
                                             "copy",
                                             "book",
                                             "article",
                                             "museum-object",
                                             "newsletter",
                                             "sale",
                                             "post",
                                             "website",
                                             "recording",
                                             "hearsay"};
constexpr std::string_view kRecordForms[] = {"original", "derivative", "authored"};
constexpr std::string_view kInformation[] = {"primary", "secondary", "undetermined"};
constexpr std::string_view kFeatureOf[] = {"shape", "motif", "treatment", "mark", "specimen"};

constexpr FieldSpec kMarks[] = {
    ref("mark"_f, KindSet(Kind::mark), kRequired, "the mark", "k4"),
    of("at"_f, text, kOne, "where on the piece it stands", "inside the foot"),
};
constexpr FieldSpec kSeen[] = {
    of("on"_f, moment, kDated | kRequired, "the day it was seen", "14 May 2019"),
    of("by"_f, text, kOne, "who saw it: a person's id or a name", "odile-marrenby"),
    oneOf("how"_f, kHowSeen, kOne, "in hand unless written (reported means that somebody told of it)",
          "photograph"),
};
constexpr FieldSpec kFeatureValue[] = {
    of("is"_f, text, kRequired, "how it looks", "a thin line at the rim's edge"),
    of("used"_f, span, kOne, "from when to when it was used", "1927/1933"),
    of("caution"_f, text, kOne, "a caution that goes with it", "red glazes may hold uranium"),
};

constexpr FieldSpec kSpecimen[] = {
    ref("treatment"_f, KindSet(Kind::treatment), kOne, "its treatment, when known", "jm-045"),
    ref("shape"_f, KindSet(Kind::shape), kOne, "its shape, when the treatment is not known", "jessamount"),
    ref("motif"_f, KindSet(Kind::motif), kMayBeNone, "its motif, when the treatment is not known",
        "teasel-row"),
    ref("form"_f, KindSet(Kind::form), kRequired, "the kind of piece", "plate-7"),
    of("look"_f, look, kOne, "what it looks like, feature by feature", "{edge-line: gold, glaze: ivory}"),
    group("marks"_f, kMarks, kMany | kInventory | kMayBeNone, "its marks", "[k4, {mark: k5, at: beside it}]"),
    of("code-seen"_f, text, kMany | kMayBeNone, "the number on it, as it stands there", "JM-203-C/1"),
    of("date-code"_f, text, kMany | kMayBeNone, "the date code on it; `?` for a sign that cannot be read",
       "U3?1"),
    of("registered"_f, text, kMany, "the registration on it, as it stands there", "Des. Pat. 85412"),
    of("made"_f, moment, kDated, "when it was made, if it says so", "11 Aug 1933"),
    of("size"_f, measure, kOne, "what it measures", "9 1/8 in"),
    of("condition"_f, text, kOne, "its state", "a hairline at the foot"),
    group("seen"_f, kSeen, kMany | kRequired, "when it was seen, by whom and how",
          "{on: 2019-05-14, by: odile-marrenby, how: in-hand}"),
    ref("photo"_f, KindSet(Kind::photo), kMany, "pictures of it", "jm-045-baker"),
    of("holder"_f, text, kOne, "who holds it, as it may be printed", "Sarrow Valley museum"),
};
constexpr FieldSpec kSource[] = {
    oneOf("type"_f, kSourceTypes, kRequired, "what kind of source it is", "decoration-book"),
    of("by"_f, text, kMany, "who made it: a person's or maker's id, or a name", "hesper-dunnavick"),
    of("date"_f, span, kDated, "its date, or from when to when it runs", "1926/1945"),
    of("covers"_f, text, kOne, "what it covers", "nos. 1-2880"),
    ref("in"_f, KindSet(Kind::source), kOne, "the source it is part of", "decoration-books"),
    of("publisher"_f, text, kOne, "who published it", "Wesperling & Sarnock Pottery Company"),
    of("holder"_f, text, kOne, "who holds it", "museum"),
    of("link"_f, address, kOne, "its address on the web", "https://example.org/tollivane"),
    of("viewed"_f, moment, kDated, "when the address was last looked at", "14 May 2019"),
    oneOf("record"_f, kRecordForms, kOne,
          "what the record is, when not as its type says (derivative is a copy, authored somebody's own "
          "account)",
          "derivative"),
    oneOf("information"_f, kInformation, kOne,
          "whose words it has, when not as its type says (primary are those of who was there)", "secondary"),
    ref("draws-on"_f, KindSet(Kind::source), kMany, "the sources it copies or rests on", "dunnavick-1974"),
};
constexpr FieldSpec kFeature[] = {
    oneOf("of"_f, kFeatureOf, kMany, "what it is looked for on", "[shape, treatment]"),
    ref("maker"_f, KindSet(Kind::maker), kMany, "the makers on whose ware it is of use", "wesperling"),
    of("ask"_f, text, kOne, "the question to put to the piece", "What is the outline of a plate?"),
    groupMap("values"_f, kFeatureValue, kRequired, "its values, each with how it looks",
             "{gold: a thin gold line}"),
    of("effort"_f, number, kOne, "1 at a glance … 5 needs a lens or a lamp", "2"),
};
constexpr FieldSpec kPhoto[] = {
    of("file"_f, path, kRequired | kEssential, "the image file, from the guide's folder",
       "images/jm-045-baker.png"),
    ref("shows"_f, KindSet::any(), kMany, "what it shows", "specimen:jm-045-baker"),
    of("alt"_f, text, kOne, "what it shows, in words, for who cannot see it",
       "A baker with a copper kettle in the well seen from above"),
    of("caption"_f, prose, kOne, "the line below it", "A baker of Copper Pantry."),
    of("credit"_f, text, kOne, "who is to be named", "Odile Marrenby"),
    of("rights"_f, text, kOne,
       "own, in copyright, public domain, a licence such as CC BY 4.0, or the address of a rights statement",
       "own"),
    of("permission"_f, text, kOne, "who allowed it to be printed, and when",
       "the museum by letter of 3 March 2019"),
};

}  // namespace

namespace tables {
std::span<const FieldSpec> specimen() {
  return kSpecimen;
}
std::span<const FieldSpec> source() {
  return kSource;
}
std::span<const FieldSpec> feature() {
  return kFeature;
}
std::span<const FieldSpec> photo() {
  return kPhoto;
}
}  // namespace tables

}  // namespace saggar::records
