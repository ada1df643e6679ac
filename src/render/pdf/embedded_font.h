#pragma once
#include "render/pdf/fount.h"
#include "render/pdf/haru.h"

namespace saggar::render {

// Puts a font into the file: only the glyphs in use (hb-subset), glyph numbers as codes (Identity-H), exact
// widths, and the text each glyph stands for. Gives the object that a page's resources name. Throws
// std::runtime_error if the font cannot be reduced to its used glyphs.
Haru::Id embed(Haru& file, const UsedFont& font);

}  // namespace saggar::render
