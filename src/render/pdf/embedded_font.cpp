#include "render/pdf/embedded_font.h"

#include <hb-ot.h>
#include <hb-subset.h>
#include <hb.h>

#include <cmath>
#include <cstdint>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "render/pdf/deflate.h"
#include "render/pdf/operators.h"

namespace saggar::render {
namespace {

struct FreeBlob {
  void operator()(hb_blob_t* one) const { hb_blob_destroy(one); }
};
using Blob = std::unique_ptr<hb_blob_t, FreeBlob>;

Blob subset(const UsedFont& font, const std::vector<UsedFont::Glyph>& glyphs) {
  hb_subset_input_t* input = hb_subset_input_create_or_fail();
  if (!input) throw std::bad_alloc();
  hb_subset_input_set_flags(
      input, HB_SUBSET_FLAGS_RETAIN_GIDS | HB_SUBSET_FLAGS_NO_HINTING | HB_SUBSET_FLAGS_NOTDEF_OUTLINE);
  hb_set_t* wanted = hb_subset_input_glyph_set(input);
  for (const auto& glyph : glyphs) hb_set_add(wanted, glyph.id);
  // What shaping needs has done its work; a page needs outlines and metrics alone.
  hb_set_t* dropped = hb_subset_input_set(input, HB_SUBSET_SETS_DROP_TABLE_TAG);
  for (const char* tag : {"GSUB", "GPOS", "GDEF", "name", "post", "cmap", "OS/2", "DSIG", "Silf", "Glat",
                          "Gloc", "Feat", "Sill"})
    hb_set_add(dropped, hb_tag_from_string(tag, 4));
  hb_face_t* reduced = hb_subset_or_fail(font.file().face(), input);
  hb_subset_input_destroy(input);
  if (!reduced)
    throw std::runtime_error(
        fmt::format("the font {} cannot be reduced to the glyphs in use", font.file().name()));
  Blob bytes(hb_face_reference_blob(reduced));
  if (font.file().isCff()) {
    hb_face_t* again = hb_face_create(bytes.get(), 0);
    bytes.reset(hb_face_reference_table(again, HB_TAG('C', 'F', 'F', ' ')));
    hb_face_destroy(again);
  }
  hb_face_destroy(reduced);
  return bytes;
}

// PDF wants six capitals before the name of a subset, different for different subsets.
std::string subsetTag(const UsedFont& font, const std::vector<UsedFont::Glyph>& glyphs) {
  std::uint64_t hash = 14695981039346656037ULL;  // FNV-1a
  auto mix = [&](std::uint64_t value) { hash = (hash ^ value) * 1099511628211ULL; };
  for (const char c : font.file().name()) mix(static_cast<unsigned char>(c));
  for (const auto& glyph : glyphs) mix(glyph.id);
  std::string tag;
  for (int i = 0; i < 6; ++i, hash /= 26) tag += static_cast<char>('A' + hash % 26);
  return tag;
}

std::string postScriptName(const FontFile& file) {
  char buffer[128];
  unsigned size = sizeof buffer;
  hb_ot_name_get_utf8(file.face(), HB_OT_NAME_ID_POSTSCRIPT_NAME, HB_LANGUAGE_INVALID, &size, buffer);
  std::string out;
  for (const char c : std::string_view(buffer, std::min<unsigned>(size, sizeof buffer - 1)))
    if ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-') out += c;
  return out.empty() ? "Font" : out;
}

std::string toUnicode(const std::vector<UsedFont::Glyph>& glyphs) {
  std::string out =
      "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
      "/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n"
      "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
      "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
  constexpr std::size_t kMost = 100;  // entries a block, by the CMap rules
  for (std::size_t start = 0; start < glyphs.size(); start += kMost) {
    const std::size_t end = std::min(glyphs.size(), start + kMost);
    out += fmt::format("{} beginbfchar\n", end - start);
    for (std::size_t i = start; i < end; ++i) {
      out += fmt::format("<{:04X}> <", glyphs[i].id);
      appendUtf16Hex(out, *glyphs[i].text);
      out += ">\n";
    }
    out += "endbfchar\n";
  }
  out += "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
  return out;
}

std::string widths(const UsedFont& font, const std::vector<UsedFont::Glyph>& glyphs) {
  std::string out = "/W [";
  for (std::size_t i = 0; i < glyphs.size();) {
    appendNumber(out, glyphs[i].id);
    out += " [";
    std::size_t k = i;
    do {
      if (k > i) out += ' ';
      appendNumber(out, font.advance(glyphs[k].id));
      ++k;
    } while (k < glyphs.size() && glyphs[k].id == glyphs[k - 1].id + 1);
    out += k < glyphs.size() ? "]\n" : "]";
    i = k;
  }
  return out + "]\n";
}

std::string descriptor(const UsedFont& font, const std::string& name, Haru::Id program) {
  const FontFile& file = font.file();
  const double thousandth = 1000 / file.unitsPerEm();
  auto metric = [&](hb_ot_metrics_tag_t tag, double otherwise) {
    hb_position_t value = 0;
    return hb_ot_metrics_get_position(file.font(), tag, &value) ? value * thousandth : otherwise;
  };
  double box[4] = {0, -250, 1000, 900};
  hb_blob_t* head = hb_face_reference_table(file.face(), HB_TAG('h', 'e', 'a', 'd'));
  unsigned length = 0;
  if (const char* data = hb_blob_get_data(head, &length); length >= 44)
    for (int i = 0; i < 4; ++i)
      box[i] = static_cast<std::int16_t>(static_cast<unsigned char>(data[36 + 2 * i]) << 8 |
                                         static_cast<unsigned char>(data[37 + 2 * i])) *
               thousandth;
  hb_blob_destroy(head);
  const double slant = hb_style_get_value(file.font(), HB_STYLE_TAG_SLANT_ANGLE);
  const double weight = hb_style_get_value(file.font(), HB_STYLE_TAG_WEIGHT);
  const int flags = 4 | (slant != 0 ? 64 : 0);  // not limited to the Latin set; italic
  std::string out = fmt::format("/Type /FontDescriptor\n/FontName /{}\n/Flags {}\n/FontBBox [", name, flags);
  for (int i = 0; i < 4; ++i) {
    if (i > 0) out += ' ';
    appendNumber(out, std::round(box[i]));
  }
  out += "]\n/ItalicAngle ";
  appendNumber(out, slant);
  out += "\n/Ascent ";
  appendNumber(out, std::round(metric(HB_OT_METRICS_TAG_HORIZONTAL_ASCENDER, box[3])));
  out += "\n/Descent ";
  appendNumber(out, std::round(metric(HB_OT_METRICS_TAG_HORIZONTAL_DESCENDER, box[1])));
  out += "\n/CapHeight ";
  appendNumber(out, std::round(file.capHeight() * thousandth));
  out += "\n/StemV ";
  appendNumber(out, std::round(50 + weight * weight / 4225));  // the usual estimate from the weight class
  out += fmt::format("\n/{} {}\n", file.isCff() ? "FontFile3" : "FontFile2", referenceTo(program));
  return out;
}

}  // namespace

Haru::Id embed(Haru& file, const UsedFont& font) {
  const auto glyphs = font.glyphs();
  const Blob program = subset(font, glyphs);
  unsigned length = 0;
  const char* data = hb_blob_get_data(program.get(), &length);
  if (length == 0)
    throw std::runtime_error(
        fmt::format("the font {} has no outlines that PDF can carry", font.file().name()));
  const bool cff = font.file().isCff();
  const Haru::Id stream =
      file.addStream(deflated({data, length}), true,
                     cff ? std::string("/Subtype /CIDFontType0C\n") : fmt::format("/Length1 {}\n", length));
  const std::string name = subsetTag(font, glyphs) + "+" + postScriptName(font.file());
  const Haru::Id described = file.add(descriptor(font, name, stream));
  const Haru::Id descendant = file.add(
      fmt::format(
          "/Type /Font\n/Subtype /{}\n/BaseFont /{}\n/CIDSystemInfo <</Registry (Adobe) /Ordering (Identity) "
          "/Supplement 0>>\n/FontDescriptor {}\n/DW 0\n",
          cff ? "CIDFontType0" : "CIDFontType2", name, referenceTo(described)) +
      widths(font, glyphs) + (cff ? "" : "/CIDToGIDMap /Identity\n"));
  const Haru::Id unicode = file.addStream(deflated(toUnicode(glyphs)), true);
  return file.add(fmt::format(
      "/Type /Font\n/Subtype /Type0\n/BaseFont /{}\n/Encoding /Identity-H\n/DescendantFonts [{}]\n"
      "/ToUnicode {}\n",
      name, referenceTo(descendant), referenceTo(unicode)));
}

}  // namespace saggar::render
