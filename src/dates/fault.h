// What is wrong with a date expression, as data: which mistake, and where. It costs nothing to make, so that
// the reader of words may try and fail; the sentences are made (faultText in advice.cpp) only for the one
// that is shown. Internal to the room.
#pragma once

#include <cstddef>
#include <cstdint>

namespace saggar::dates {

enum class Mistake : std::uint8_t {
  None,
  Empty,
  BadUtf8,
  ControlCharacter,
  NotAscii,
  BlankAround,
  BlankInside,
  NotADate,
  YearTooShort,
  YearTooLong,
  MinusZero,
  LowercaseX,
  MonthWidth,
  MonthRange,
  NoSuchMonth,
  DayWidth,
  DayRange,
  DayNotInMonth,
  NoRealDay,
  SeasonWithDay,
  QualifierTwice,
  QualifierWithTime,
  TimeForm,
  TimeRange,
  ZoneForm,
  TimeNotAlone,
  TimeOnPart,
  LongYearShort,
  LongYearZero,
  LongYearWithMonth,
  LongYearDigits,
  SignificantNone,
  SignificantTooMany,
  SecondSlash,
  NoEnds,
  DotsAlone,
  ExtraText,
  EndBeforeStart,
  SetNotClosed,
  SetMismatch,
  SetEmpty,
  SetEmptyMember,
  SetSlash,
  SetDots,
  SetTooLong,
  SetInInterval,
  UnknownWord,
  NoYear,
  OneYearMissing,
  CenturyOrDecade,
  NotADecade,
  NotAMonthName,
  OrdinalRange,
  BeforeVague,
  PhraseUnfinished,
  OpenDatePlace,
  TooLong,
};

struct Fault {
  Mistake mistake = Mistake::None;
  std::size_t from = 0, to = 0;  // bytes
};

}  // namespace saggar::dates
