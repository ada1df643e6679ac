#include "reading/text_fault.h"

#include <algorithm>

#include "base/utf8.h"

namespace saggar::reading {

namespace {

bool isUnfitControl(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return (byte < 0x20 && byte != '\t' && byte != '\n' && byte != '\r') || byte == 0x7F;
}

}  // namespace

bool isPlain(std::string_view text) {
  unsigned bad = 0;
  for (char c : text) bad |= static_cast<unsigned>(isUnfitControl(c));
  return bad == 0 && base::firstInvalidUtf8(text) == std::string_view::npos &&
         text.find(kByteOrderMark, 1) == std::string_view::npos;
}

std::optional<TextFault> textFault(std::string_view text, bool atStart) {
  const std::size_t invalid = base::firstInvalidUtf8(text);
  const auto control =
      static_cast<std::size_t>(std::find_if(text.begin(), text.end(), isUnfitControl) - text.begin());
  const std::size_t mark = text.find(kByteOrderMark, atStart ? 1 : 0);
  const std::size_t first = std::min({invalid, control, mark});
  if (first >= text.size()) return std::nullopt;
  if (first == invalid)
    return TextFault{first, true, "this is not UTF-8: the file was saved in another encoding"};
  if (first == mark) return TextFault{first, false, "a byte order mark stands here, inside the text"};
  return TextFault{first, false,
                   text[first] == '\0' ? "a NUL byte stands here" : "a control character stands here"};
}

diagnostics::Finding unfitText(source::FileId file, std::size_t begin, const TextFault& fault) {
  const auto at = static_cast<std::uint32_t>(begin + fault.at);
  return {.rule = "text-unfit"_rule,
          .span = {file, at, at + 1},
          .message = fault.message,
          .hint = fault.encoding ? "save the file as UTF-8 (in your editor: save with encoding, UTF-8)"
                                 : "take it out: type the line anew"};
}

bool isWideText(std::string_view text) {
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF")) return true;
  const std::string_view head = text.substr(0, 512);
  return head.size() >= 4 &&
         static_cast<std::size_t>(std::count(head.begin(), head.end(), '\0')) * 5 >= head.size() * 2;
}

}  // namespace saggar::reading
