// Reading a date expression: EDTF of all three levels, or the words that a guide prints (listed in words.h).
//
// Any text at all gives an expression or an error, in time that grows with the length of the text. The
// commonest forms (`1932`, `1932-05-05`, `1926/1935`, `by 1935`) allocate nothing.
#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "dates/expression.h"

namespace saggar::dates {

struct Error {
  std::string seen;      // the part of the text that is at fault, shortened
  std::size_t byte = 0;  // where it begins, and how many bytes it has
  std::size_t bytes = 0;
  std::size_t codePoint = 0;  // where it begins, in code points from 0
  std::string message;        // what is wrong: lower case, no full stop
  std::string hint;           // what to type; may be empty
  std::string suggestion;     // the whole expression put right, if that is not in doubt; parse accepts it

  std::string sentence() const { return hint.empty() ? message : message + "; " + hint; }
};

class Result {
 public:
  Result(Expression expression) : expression_(std::move(expression)) {}
  Result(Error error) : error_(std::make_unique<Error>(std::move(error))) {}

  explicit operator bool() const { return error_ == nullptr; }
  const Expression& operator*() const { return expression_; }
  const Expression* operator->() const { return &expression_; }
  const Error& error() const { return *error_; }  // only if there is no expression

 private:
  Expression expression_;
  std::unique_ptr<Error> error_;
};

// The whole text; a blank at either end is an error, as is a range that ends before it begins. The hemisphere
// says whether two seasons of one year stand in order.
Result parse(std::string_view text, const Options& options = {});

// EDTF only, without words.
Result parseEdtf(std::string_view text, const Options& options = {});

}  // namespace saggar::dates
