// A date expression as text: canonical EDTF, and English as an author prints it.
//
//   expression   inTable           inWords                    happened                lasted
//   1932         1932              1932                       in 1932                 in 1932
//   1932-05-05   5 May 1932        5 May 1932                 on 5 May 1932           on 5 May 1932
//   1932~        about 1932        about 1932                 about 1932              about 1932
//   1932?        perhaps 1932      perhaps 1932               perhaps in 1932         perhaps in 1932
//   193X         1930s             the 1930s                  in the 1930s            in the 1930s
//   1934-35      3rd quarter 1934  the third quarter of 1934  in … of 1934            in … of 1934
//   [..1935]     by 1935           by the end of 1935         by the end of 1935      by the end of 1935
//   [1935..]     from 1935         1935 or later              in 1935 or later        in 1935 or later
//   [1932,1934]  1932 or 1934      1932 or 1934               in 1932 or 1934         in 1932 or 1934
//   1926/1935    1926 to 1935      1926 to 1935               between 1926 and 1935   from 1926 to 1935
//   1937/..      since 1937        since 1937                 in 1937 or later        since 1937
//   1937/        1937 to ?         1937 to a date not known   in 1937 or later        from 1937 to …
//   ../1935      until 1935        until 1935                 by the end of 1935      until 1935
//
// What inTable prints, parse reads back with the same plain bounds, unless parts of the date are qualified
// apart (`1932-~05`), X stands elsewhere than at the end (`1X32`), or S or a time of day was written; inWords
// likewise, and unless a blank end is spelt out.
#pragma once

#include <string>

#include "dates/expression.h"

namespace saggar::dates {

// EDTF. The same bounds, doubts and members; the qualifiers at the place where they are shortest, so that the
// level may be lower than that of what was written.
std::string canonical(const Expression& expression);
std::string canonical(const Date& date);

std::string inTable(const Expression& expression);   // short, for a column
std::string inWords(const Expression& expression);   // for a sentence, without a preposition
std::string happened(const Expression& expression);  // with one, of a moment: "It was introduced …"
std::string lasted(const Expression& expression);    // with one, of a span: "It was used …"

std::string describeDay(Day day);  // `5 May 1932`; `no limit` and `not known` for what is no day

// What bounds say: `5 May 1932`, `May 1932`, `1926 to 1935`, `1 May 1932 to 5 June 1933`, `by the end of
// 1935`, `1 May 1936 or later`, `any time`, `not known`.
std::string describeBounds(const Bounds& bounds);

}  // namespace saggar::dates
