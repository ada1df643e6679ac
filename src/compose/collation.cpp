#include "compose/collation.h"

#include <unicode/coll.h>
#include <unicode/locid.h>
#include <unicode/normalizer2.h>
#include <unicode/uchar.h>
#include <unicode/unistr.h>

#include <vector>

#include "base/text.h"
#include "base/utf8.h"

namespace saggar::compose {

struct Collation::State {
  std::unique_ptr<icu::Collator> primary;   // letters alone
  std::unique_ptr<icu::Collator> tertiary;  // marks and capitals too
};

namespace {

std::unique_ptr<icu::Collator> collator(std::string_view language,
                                        icu::Collator::ECollationStrength strength) {
  UErrorCode status = U_ZERO_ERROR;
  const icu::Locale locale = icu::Locale::forLanguageTag(
      icu::StringPiece(language.data(), static_cast<std::int32_t>(language.size())), status);
  if (U_FAILURE(status)) status = U_ZERO_ERROR;
  std::unique_ptr<icu::Collator> made(icu::Collator::createInstance(locale, status));
  if (U_FAILURE(status) || made == nullptr) {
    status = U_ZERO_ERROR;
    made.reset(icu::Collator::createInstance(icu::Locale::getRoot(), status));
  }
  if (made == nullptr) return made;
  made->setStrength(strength);
  status = U_ZERO_ERROR;
  made->setAttribute(UCOL_ALTERNATE_HANDLING, UCOL_NON_IGNORABLE, status);  // a blank counts: word by word
  made->setAttribute(UCOL_NUMERIC_COLLATION, UCOL_ON, status);
  return made;
}

void append(std::string& out, const icu::Collator* collator, std::string_view words) {
  if (collator == nullptr) {
    out += base::folded(words);
    return;
  }
  const icu::UnicodeString text =
      icu::UnicodeString::fromUTF8(icu::StringPiece(words.data(), static_cast<std::int32_t>(words.size())));
  std::uint8_t small[256];
  const std::int32_t length = collator->getSortKey(text, small, sizeof small);
  if (length <= static_cast<std::int32_t>(sizeof small)) {
    out.append(reinterpret_cast<const char*>(small), static_cast<std::size_t>(length));
    return;
  }
  std::vector<std::uint8_t> large(static_cast<std::size_t>(length));
  collator->getSortKey(text, large.data(), length);
  out.append(reinterpret_cast<const char*>(large.data()), large.size());
}

std::string_view withoutLead(std::string_view heading) {
  for (bool again = true; again;) {
    again = false;
    for (std::string_view sign :
         {"\"", "'", "(", "[", "\xE2\x80\x9C", "\xE2\x80\x98", "\xE2\x80\x9D", "\xE2\x80\x99"})
      if (heading.starts_with(sign) && heading.size() > sign.size()) {
        heading.remove_prefix(sign.size());
        again = true;
      }
  }
  for (std::string_view article : {"the ", "a ", "an "})
    if (heading.size() > article.size() && base::folded(heading.substr(0, article.size())) == article)
      return heading.substr(article.size());
  return heading;
}

// Signs that neither part words nor count (NISO TR03-1999): stops, quotation marks and the like; hyphens, dashes and
// strokes are blanks.
std::string withoutSigns(std::string_view words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const char c = words[i];
    if (c == '-' || c == '/') {
      out += ' ';
    } else if (words.substr(i).starts_with("\xE2\x80\x93") || words.substr(i).starts_with("\xE2\x80\x94")) {
      out += ' ';
      i += 2;
    } else if (std::string_view(".;:'\"!?").find(c) == std::string_view::npos) {
      out += c;
    }
  }
  return base::onOneLine(out);
}

}  // namespace

Collation::Collation(std::string_view language) : state_(std::make_unique<State>()) {
  state_->primary = collator(language, icu::Collator::PRIMARY);
  state_->tertiary = collator(language, icu::Collator::TERTIARY);
}
Collation::~Collation() = default;
Collation::Collation(Collation&&) noexcept = default;

std::string Collation::key(std::string_view heading) const {
  const std::string_view words = withoutLead(heading);
  const std::size_t stop = words.find_first_of(",(");
  std::string key;
  append(key, state_->primary.get(), withoutSigns(words.substr(0, stop)));
  // Alone, then with a bracket, then with a comma.
  key += stop == std::string_view::npos ? '\x01' : words[stop] == '(' ? '\x02' : '\x03';
  if (stop != std::string_view::npos)
    append(key, state_->primary.get(), withoutSigns(words.substr(stop + 1)));
  key += '\x00';
  append(key, state_->tertiary.get(), words);
  return key;
}

std::string Collation::letter(std::string_view heading) const {
  const std::string words = withoutSigns(withoutLead(heading));
  if (words.empty()) return "#";
  std::size_t at = 0;
  const char32_t first = base::nextCodePoint(words, at);
  if (u_isdigit(static_cast<UChar32>(first))) return "0–9";
  if (!u_isalpha(static_cast<UChar32>(first))) return "#";
  UErrorCode status = U_ZERO_ERROR;
  const icu::Normalizer2* decompose = icu::Normalizer2::getNFDInstance(status);
  icu::UnicodeString letter(static_cast<UChar32>(first));
  if (U_SUCCESS(status)) letter = decompose->normalize(letter, status);
  UChar32 base = u_toupper(letter.char32At(0));
  if (base == 0x00C6) base = 'A';                    // Æ
  if (base == 0x0152 || base == 0x00D8) base = 'O';  // Œ, Ø
  std::string out;
  base::appendUtf8(out, static_cast<char32_t>(base));
  return out;
}

}  // namespace saggar::compose
