// The room's front door: dates as authors write them, and what they mean in days. Pure: it reads no clock,
// file or locale.
//
//   parse("by 1935")              Result: an Expression, or an Error that says what to type   parse.h
//   expression.plain(options)     what is said; wide(options): with `~` counted               expression.h
//   spanOf(expression, …)         read as something that lasted                               expression.h
//   momentDays(e), spanDays(e)    the days that bind, end by end                              binding.h
//   before(a, b), within(…)       certain, possible, impossible                               compare.h
//   canonical(e), inWords(e) …    EDTF, English                                               print.h
//   meantInTwoWays(text)          `1930-35`: a quarter, or years                             two_ways.h
//   parseLength("1y 6m")          lengths, and the days they can have                         length.h
//   readLine(text)                the JSON of `saggar date --read`                            read_line.h
#pragma once

#include "dates/binding.h"
#include "dates/bounds.h"
#include "dates/compare.h"
#include "dates/day.h"
#include "dates/expression.h"
#include "dates/length.h"
#include "dates/parse.h"
#include "dates/print.h"
#include "dates/read_line.h"
#include "dates/two_ways.h"
