#pragma once
#include <string>

#include "records/value.h"

// A condition as an author would write it on one line.
namespace saggar::choosing {

// "{not: {any: [{shape: jessamount}, {introduced: 1938/1945}]}}"; past so many bytes the parts that are left are "…".
std::string onOneLine(const records::Value& value, std::size_t most);

}  // namespace saggar::choosing
