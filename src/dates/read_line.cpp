#include "dates/read_line.h"

#include "base/utf8.h"
#include "dates/parse.h"
#include "dates/print.h"

namespace saggar::dates {
namespace {

void appendString(std::string& out, std::string_view text) {
  constexpr std::string_view kHex = "0123456789abcdef";
  out += '"';
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (byte < 0x20 || byte == 0x7F) {
      out += "\\u00";
      out += kHex[byte >> 4];
      out += kHex[byte & 15];
    } else {
      out += c;
    }
  }
  out += '"';
}

void appendBounds(std::string& out, std::string_view key, const Bounds& bounds) {
  out += ",\"";
  out += key;
  out += "\":{\"earliest\":\"";
  bounds.earliest.appendTo(out);
  out += "\",\"latest\":\"";
  bounds.latest.appendTo(out);
  out += "\"}";
}

}  // namespace

std::string readLine(std::string_view text, const Options& options) {
  std::string out = "{\"expression\":";
  appendString(out, base::sanitizedUtf8(text));
  const Result result = parse(text, options);
  if (!result) {
    out += ",\"error\":";
    appendString(out, result.error().sentence());
    out += ",\"at\":";
    appendNumber(out, static_cast<Int128>(result.error().codePoint) + 1);
    return out += '}';
  }
  out += ",\"level\":\"";
  out += levelName(result->level());
  out += '"';
  appendBounds(out, "plain", result->plain(options));
  appendBounds(out, "wide", result->wide(options));
  out += ",\"doubted\":[";
  const bool earliest = result->isDoubted(End::Earliest);
  if (earliest) out += "\"earliest\"";
  if (result->isDoubted(End::Latest)) out += earliest ? ",\"latest\"" : "\"latest\"";
  out += "],\"says\":";
  appendString(out, inWords(*result));
  return out += '}';
}

}  // namespace saggar::dates
