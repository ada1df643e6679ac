// Expressions by chance, well formed but not always possible.
#pragma once

#include "support.h"

namespace saggar::dates::testing {

struct Wanted {
  bool masks = true;
  bool seasons = true;
  bool qualifiersWithin = true;  // elsewhere than at the end
  bool sets = true;
};

class Generator {
 public:
  Generator(std::uint64_t seed, Wanted wanted) : random_(seed), wanted_(wanted) {}

  std::string expression() {
    const int form = random_.below(wanted_.sets ? 8 : 5);
    if (form < 3) return date();
    if (form < 5) return interval();
    return set(form == 5);
  }

  std::string date() {
    std::string out = qualifier(true, 12);
    if (random_.oneIn(10)) out += '-';
    out += year();
    if (out == "-0000" || (out.size() == 6 && out.substr(1) == "-0000")) out.back() = '1';
    if (random_.oneIn(3)) return out + qualifier(false, 4);
    out += qualifier(wanted_.qualifiersWithin ? 12 : 0);
    out += '-';
    out += qualifier(true, 12);
    if (wanted_.seasons && random_.oneIn(6)) {
      out += two(21 + random_.below(21), 0);
      return out + qualifier(false, 4);
    }
    out += two(1 + random_.below(12), 3);
    if (random_.oneIn(3)) return out + qualifier(false, 4);
    out += qualifier(wanted_.qualifiersWithin ? 12 : 0);
    out += '-';
    out += qualifier(true, 12);
    out += two(1 + random_.below(31), 3);
    return out + qualifier(false, 4);
  }

  std::string interval() {
    const int form = random_.below(8);
    if (form == 0) return "../" + date();
    if (form == 1) return date() + "/..";
    if (form == 2) return "/" + date();
    if (form == 3) return date() + "/";
    const std::string left = date();  // in this order on every compiler
    return left + "/" + date();
  }

 private:
  std::string qualifier(bool left, int oneIn) {
    return left && !wanted_.qualifiersWithin ? "" : qualifier(oneIn);
  }
  std::string qualifier(int oneIn) {
    if (oneIn == 0 || !random_.oneIn(oneIn)) return "";
    return std::string(1, random_.pick(std::string_view("?~%")));
  }

  std::string year() {
    std::string out = two(random_.oneIn(8) ? random_.below(100) : 18 + random_.below(3), 0);
    out += two(random_.below(100), 0);
    if (!wanted_.masks || !random_.oneIn(4)) return out;
    switch (random_.below(5)) {
      case 0: out[3] = 'X'; break;
      case 1: out[2] = out[3] = 'X'; break;
      default:
        for (char& digit : out) {
          if (random_.oneIn(4)) digit = 'X';
        }
    }
    return out;
  }

  std::string two(int value, int maskOneIn) {
    std::string out = {static_cast<char>('0' + value / 10), static_cast<char>('0' + value % 10)};
    if (wanted_.masks && maskOneIn != 0 && random_.oneIn(maskOneIn)) {
      const int which = random_.below(3);
      if (which != 1) out[0] = 'X';
      if (which != 0) out[1] = 'X';
    }
    return out;
  }

  std::string set(bool all) {
    std::string out = all ? "{" : "[";
    const int count = 1 + random_.below(4);
    for (int i = 0; i < count; ++i) {
      if (i > 0) out += ',';
      const bool openFirst = i == 0 && random_.oneIn(6);
      if (openFirst) out += "..";
      out += date();
      if (openFirst) continue;
      if (i == count - 1 && random_.oneIn(6)) {
        out += "..";
      } else if (random_.oneIn(5)) {
        out += ".." + date();
      }
    }
    return out + (all ? "}" : "]");
  }

  Random random_;
  Wanted wanted_;
};

}  // namespace saggar::dates::testing
