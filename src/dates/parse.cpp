#include "dates/parse.h"

#include <algorithm>

#include "base/text.h"
#include "base/utf8.h"
#include "dates/advice.h"
#include "dates/edtf.h"
#include "dates/words.h"

namespace saggar::dates {
namespace {

constexpr std::size_t kLongestWords = 400;  // bytes

// Faults of the text as such, that no grammar need look at. None if there is none.
Fault faultOfText(std::string_view text) {
  if (text.empty()) return {Mistake::Empty, 0, 0};
  if (const std::size_t bad = base::firstInvalidUtf8(text); bad != std::string_view::npos) {
    return {Mistake::BadUtf8, bad, bad + 1};
  }
  const auto control = std::find_if(text.begin(), text.end(),
                                    [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; });
  if (control != text.end()) {
    const auto at = static_cast<std::size_t>(control - text.begin());
    return {Mistake::ControlCharacter, at, at + 1};
  }
  if (text.front() == ' ') return {Mistake::BlankAround, 0, 1};
  if (text.back() == ' ') return {Mistake::BlankAround, text.size() - 1, text.size()};
  return {};
}

// A letter other than those of EDTF, or a blank: the author was writing words.
bool looksLikeWords(std::string_view text) {
  if (text.find(' ') != std::string_view::npos) return true;
  return std::any_of(text.begin(), text.end(), [](char c) {
    return base::isLower(c) ||
           (base::isUpper(c) && std::string_view("XYEST").find(c) == std::string_view::npos);
  });
}

}  // namespace

std::optional<Expression> tryRead(std::string_view text, const Options& options) {
  Expression expression;
  EdtfReader edtf(text, options);
  if (edtf.read(expression)) return expression;
  if (text.size() > kLongestWords || faultOfText(text).mistake != Mistake::None) return std::nullopt;
  WordsReader words(text, options);
  if (words.read(expression)) return expression;
  return std::nullopt;
}

Result parse(std::string_view text, const Options& options) {
  EdtfReader edtf(text, options);
  Expression expression;
  if (edtf.read(expression)) return expression;
  if (const Fault fault = faultOfText(text); fault.mistake != Mistake::None)
    return explain(text, fault, options);
  const bool isSet = text.front() == '[' || text.front() == '{';
  if (isSet || text.size() > kLongestWords) return explain(text, edtf.fault(), options);
  WordsReader words(text, options);
  if (words.read(expression)) return expression;
  return explain(text, looksLikeWords(text) ? words.fault() : edtf.fault(), options);
}

Result parseEdtf(std::string_view text, const Options& options) {
  EdtfReader edtf(text, options);
  Expression expression;
  if (edtf.read(expression)) return expression;
  const Fault fault = faultOfText(text);
  return explain(text, fault.mistake != Mistake::None ? fault : edtf.fault(), options);
}

}  // namespace saggar::dates
