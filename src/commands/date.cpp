#include "commands/command.h"
#include "dates/read_line.h"
#include "dates/two_ways.h"

namespace saggar::commands {

int readDates(const Environment& environment, const DateArguments& arguments) {
  bool unreadable = false;
  auto answer = [&](const std::string& expression) {
    const std::string line = dates::readLine(expression);
    const bool isDate = line.find("\",\"error\":") == std::string::npos;
    unreadable |= !isDate;
    environment.out(line + '\n');
    if (!isDate) return;
    if (const auto two = dates::meantInTwoWays(expression))
      environment.err("saggar: " + two->sentence() + '\n');
  };
  if (arguments.expressions.empty()) {
    std::string line;
    while (environment.readLine(line)) {
      if (line.ends_with('\r')) line.pop_back();
      answer(line);
    }
  } else {
    for (const std::string& expression : arguments.expressions) answer(expression);
  }
  return unreadable ? kFindings : kFine;
}

}  // namespace saggar::commands
