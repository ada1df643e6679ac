#include "codes/signs.h"

#include <unicode/normalizer2.h>
#include <unicode/uchar.h>

#include "base/utf8.h"

namespace saggar::codes {
namespace {

constexpr char32_t kReplacement = 0xFFFD;

bool isBlankSign(char32_t c) {
  return c < 0x80 ? c == ' ' || (c >= 9 && c <= 13) : u_isUWhiteSpace(c);
}

char32_t withPlainDash(char32_t c) {
  return c >= 0x80 && u_hasBinaryProperty(c, UCHAR_DASH) ? U'-' : c;
}

const icu::Normalizer2* composer() {
  static const icu::Normalizer2* const nfc = [] {
    UErrorCode error = U_ZERO_ERROR;
    const icu::Normalizer2* found = icu::Normalizer2::getNFCInstance(error);
    return U_SUCCESS(error) ? found : nullptr;
  }();
  return nfc;
}

struct Point {
  char32_t code;
  std::uint32_t begin, end;
};

// Composes what stands between two boundaries of normalisation; every sign that comes of it has the whole
// place.
void compose(std::vector<Point>& points) {
  const icu::Normalizer2* nfc = composer();
  if (nfc == nullptr) return;
  std::vector<Point> done;
  for (std::size_t i = 0; i < points.size();) {
    std::size_t j = i + 1;
    const auto joins = [&](char32_t c) {
      return c < kAnySign && !nfc->hasBoundaryBefore(static_cast<UChar32>(c));
    };
    while (j < points.size() && joins(points[j].code)) ++j;
    if (j == i + 1 && (points[i].code >= kAnySign || nfc->isInert(static_cast<UChar32>(points[i].code)))) {
      done.push_back(points[i]);
    } else {
      icu::UnicodeString run;
      for (std::size_t k = i; k < j; ++k) {
        if (points[k].code < kAnySign) run.append(static_cast<UChar32>(points[k].code));
      }
      UErrorCode error = U_ZERO_ERROR;
      const icu::UnicodeString composed = nfc->normalize(run, error);
      if (U_FAILURE(error) || points[i].code >= kAnySign) {
        done.insert(done.end(), points.begin() + static_cast<std::ptrdiff_t>(i),
                    points.begin() + static_cast<std::ptrdiff_t>(j));
      } else {
        for (std::int32_t k = 0; k < composed.length(); k = composed.moveIndex32(k, 1)) {
          done.push_back({static_cast<char32_t>(composed.char32At(k)), points[i].begin, points[j - 1].end});
        }
      }
    }
    i = j;
  }
  points = std::move(done);
}

}  // namespace

std::vector<Sign> toSigns(std::string_view text, Questions questions) {
  std::vector<Point> points;
  points.reserve(text.size());
  bool plain = true;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t begin = at;
    char32_t c = static_cast<unsigned char>(text[at]);
    if (c < 0x80) {
      ++at;
    } else {
      plain = false;
      c = base::nextCodePoint(text, at);
      if (c == kReplacement && at == begin + 1) c = kBrokenSign;
    }
    points.push_back({c, static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(at)});
  }
  if (!plain) compose(points);

  std::vector<Sign> signs;
  signs.reserve(points.size());
  for (const Point& point : points) {
    if (point.code >= kAnySign) {
      signs.push_back({point.code, kReplacement, point.begin, point.end});
    } else if (isBlankSign(point.code)) {
      if (!signs.empty() && signs.back().folded == U' ') {
        signs.back().end = point.end;
      } else if (!signs.empty()) {
        signs.push_back({U' ', U' ', point.begin, point.end});
      }
    } else if (point.code == U'?' && questions == Questions::anySign) {
      signs.push_back({kAnySign, U'?', point.begin, point.end});
    } else {
      const char32_t c = withPlainDash(point.code);
      const char32_t small =
          c < 0x80 ? (c >= U'A' && c <= U'Z' ? c + 32 : c)
                   : static_cast<char32_t>(u_foldCase(static_cast<UChar32>(c), U_FOLD_CASE_DEFAULT));
      signs.push_back({small, c, point.begin, point.end});
    }
  }
  if (!signs.empty() && signs.back().folded == U' ') signs.pop_back();
  return signs;
}

std::u32string foldedSigns(std::string_view text) {
  std::u32string folded;
  for (const Sign& sign : toSigns(text, Questions::literal)) folded.push_back(sign.folded);
  return folded;
}

std::string withPlainDashes(std::string_view text) {
  std::string plain;
  plain.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t begin = at;
    const char32_t c = base::nextCodePoint(text, at);
    if (withPlainDash(c) == U'-') {
      plain += '-';
    } else {
      plain += text.substr(begin, at - begin);
    }
  }
  return plain;
}

bool isLetterSign(const Sign& sign) {
  const char32_t c = sign.folded;
  if (c < 0x80) return c >= U'a' && c <= U'z';
  return c < kAnySign && u_isalpha(static_cast<UChar32>(c));
}

bool sameText(std::string_view typed, std::string_view value) {
  const std::vector<Sign> left = toSigns(typed, Questions::anySign);
  const std::u32string right = foldedSigns(value);
  if (left.size() != right.size()) return false;
  for (std::size_t i = 0; i < left.size(); ++i) {
    if (left[i].folded == kBrokenSign || !fits(left[i], right[i])) return false;
  }
  return true;
}

std::string foldedKey(std::string_view text) {
  std::string key;
  for (const Sign& sign : toSigns(text, Questions::literal)) {
    if (sign.folded == kBrokenSign) {
      key.append(text.substr(sign.begin, sign.end - sign.begin));
    } else {
      base::appendUtf8(key, sign.folded);
    }
  }
  return key;
}

}  // namespace saggar::codes
