#pragma once
#include <string>
#include <string_view>

// HTML in prose is shown as it was typed, comments are left out.
namespace saggar::reading {

// The text without its comments; `comments` becomes true if there was one. A comment that is never closed
// stays.
std::string withoutComments(std::string_view html, bool& comments);

// "b" of `<b>`, `</b>` and `<B class="x">`, in small letters; empty for what is no tag.
std::string tagName(std::string_view html);
bool isClosingTag(std::string_view html);

// What to type instead of the tag.
std::string insteadOfTag(std::string_view html);

}  // namespace saggar::reading
