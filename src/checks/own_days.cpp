#include "checks/own_days.h"

#include "base/text.h"
#include "dates/length.h"

namespace saggar::checks {

dates::Day dayOf(const records::Value* value, dates::End end, const dates::Options& options) {
  return momentDays(value, options).at(end);
}

dates::Day dayWithoutSeason(const records::Value* value, dates::End end, const dates::Options& options) {
  const dates::Day day = dayOf(value, end, options);
  if (value == nullptr || value->date() == nullptr || !day.isFinite() ||
      !value->date()->usesSeason(end, options))
    return day;
  const dates::Int128 year = day.civil().year;
  return end == dates::End::Earliest ? dates::Day::fromCivil(year, 1, 1)
                                     : dates::Day::fromCivil(year, 12, 31);
}

std::string seasonInWords(const dates::Options& options) {
  return std::string("; only the season decides it, taken as in the ") +
         (options.hemisphere == dates::Hemisphere::South ? "south" : "north");
}

std::string gapInWords(dates::Day from, dates::Day to) {
  constexpr std::int64_t kMost = std::int64_t{1'000'000} * 365;
  const auto days = gapInDays(from, to);
  if (!days || *days > kMost) return "more than a million years";
  const auto whole = static_cast<std::size_t>(*days);
  // As many whole months as so few days can have, never rounded up: "at least 2 years" must be true.
  auto months = static_cast<std::int32_t>(*days * 4800 / 146097);
  while (dates::Length::ofMonths(months + 1).fewestDays() <= *days) ++months;
  if (months >= 12) return base::counted(static_cast<std::size_t>(months / 12), "year");
  if (months >= 2) return base::counted(static_cast<std::size_t>(months), "month");
  return base::counted(whole, "day");
}

std::optional<std::int64_t> gapInDays(dates::Day from, dates::Day to) {
  const dates::Int128 days = to.number() - from.number();
  if (days < 0 || days > INT64_MAX) return std::nullopt;
  return static_cast<std::int64_t>(days);
}

}  // namespace saggar::checks
