#include "choosing/flow.h"

#include "base/text.h"

namespace saggar::choosing {

using records::Entry;
using records::Value;
using records::ValueType;

namespace {

class Line {
 public:
  explicit Line(std::size_t most) : most_(most) {}

  std::string of(const Value& value) {
    add(value);
    return std::move(out_);
  }

 private:
  void add(const Value& value) {
    if (value.is(ValueType::mapping)) {
      out_ += '{';
      for (const Entry& entry : value.entries())
        if (!part(entry.value, std::string(entry.key) + ": ")) break;
      out_ += '}';
    } else if (value.is(ValueType::list)) {
      out_ += '[';
      for (const Value& item : value.items())
        if (!part(item, {})) break;
      out_ += ']';
    } else {
      out_ += scalar(value);
    }
  }

  // False where there is no more room.
  bool part(const Value& value, const std::string& before) {
    if (out_.back() != '{' && out_.back() != '[') out_ += ", ";
    const bool whole = value.is(ValueType::mapping) || value.is(ValueType::list);
    if (out_.size() + before.size() + (whole ? 2 : scalar(value).size()) > most_) {
      out_ += "…";
      return false;
    }
    out_ += before;
    add(value);
    return true;
  }

  static std::string scalar(const Value& value) {
    const std::string text = base::onOneLine(value.text);
    if (text.empty() && value.is(ValueType::none)) return "none";
    return value.quoted ? '"' + text + '"' : text;
  }

  std::size_t most_;
  std::string out_;
};

}  // namespace

std::string onOneLine(const Value& value, std::size_t most) {
  return Line(most).of(value);
}

}  // namespace saggar::choosing
