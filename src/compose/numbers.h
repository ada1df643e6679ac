#pragma once
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "compose/page.h"

// Long lists of numbers, cut into files.
//
// The problem: a works that numbered everything leaves forty thousand numbers, and a file of twelve megabytes opens in no
// reader's hand. The choice: a list of more than kMostNumbers goes on in files of its own, "codes-1" and so on, and the
// chapter lists these files by what they hold. A file begins with a new prefix wherever it can; only a prefix with more
// numbers than a file takes is cut within. Each is composed and dropped by itself, so that no list is ever held whole. The
// cost: the same number may move to another file when many are added, so nothing may link to a row.
namespace saggar::compose {

inline constexpr std::size_t kMostNumbers = 1000;

// "JM-203-C" → "JM"; empty for a number that begins with a figure.
std::string_view prefixOf(std::string_view code);

struct NumberPart {
  std::size_t begin = 0;  // of the codes
  std::size_t end = 0;
  std::string title;  // "AAA to AAE"; "JM-1 to JM-1000" where a prefix is cut, or for numbers without one
};

// How a list of codes, in their order and each once, is cut. One part, without a title, if it need not be.
std::vector<NumberPart> partsOf(const std::vector<std::string_view>& codes, std::size_t most = kMostNumbers);

// Has every part composed in a file of its own (Page::further), and gives what stands in the chapter instead: `words`,
// and the files with how many numbers each has. `compose` adds to a page, whose heading and links to its neighbours are
// there already; it is called later, perhaps in another thread, and must own what it needs.
Blocks cutIntoFiles(Page& page, const std::vector<NumberPart>& parts, std::string words,
                    const std::function<Blocks(Page&, const NumberPart&)>& compose);

}  // namespace saggar::compose
