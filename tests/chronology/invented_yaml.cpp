#include "invented_guide.h"

// The invented guide as an author would type it, every fact on a line of its own.
namespace saggar::chronology::invented {
namespace {

class Writer {
 public:
  explicit Writer(Guide& guide) : guide_(guide) {}

  std::string write() {
    for (Record& record : guide_.records) put(record);
    return text_;
  }

 private:
  int line(const std::string& words) {
    text_ += words + '\n';
    return ++line_;
  }

  void put(Record& record) {
    line("- " + record.kind + ": " + record.id);
    if (record.kind == "source") line("  by: Somebody of " + record.id);
    for (Field& field : record.fields)
      if (field.value) put(record, field.name, *field.value);
    cite("  ", record.cite);
  }

  void put(const Record& record, const std::string& field, Value& value) {
    if (field == "codes") return codes(value);
    if (field == "after") return after(value);
    if (field == "seen") {
      value.line = line("  seen: {on: " + value.date.text + ", how: " + value.is + '}');
      return;
    }
    const Evidence& evidence = value.evidence;
    const std::string is =
        value.orTo ? '[' + value.is + ", " + guide_.records[*value.orTo].id + ']' : value.is;
    if (record.kind == "specimen" ||
        (evidence.cite.empty() && !evidence.judged && !evidence.doubted && evidence.but.empty())) {
      value.line = line("  " + field + ": " + is);
      return;
    }
    line("  " + field + ':');
    value.line = line("    is: " + is);
    put("    ", value.evidence);
  }

  void put(const std::string& margin, Evidence& evidence) {
    if (evidence.judged) line(margin + "judged: by its looks");
    if (evidence.doubted) line(margin + "doubted: the page is torn");
    if (!evidence.but.empty())
      line(margin + "but: [{is: " + evidence.but + (evidence.setAside ? ", set-aside: a misprint}]" : "}]"));
    cite(margin, evidence.cite);
  }

  void cite(const std::string& margin, std::vector<Citation>& citations) {
    if (citations.empty()) return;
    line(margin + "cite:");
    for (Citation& one : citations)
      one.line = line(margin + "  - {source: " + guide_.records[one.source].id +
                      (one.dated ? ", dated: " + one.dated->text : "") + '}');
  }

  void after(Value& value) {
    line("  after:");
    value.line = line("    - event: " + value.event);
    if (!value.least.empty()) line("      at-least: " + value.least);
    if (!value.most.empty()) line("      within: " + value.most);
    put("      ", value.evidence);
  }

  void codes(Value& value) {
    line("  codes:");
    line("    - rule: decoration number");
    line("      used: 1900/1999");
    line("      written: NUMBER");
    line("      parts: {NUMBER: 1 to 99}");
    value.line = line("      order: NUMBER");
    cite("      ", value.evidence.cite);
  }

  Guide& guide_;
  std::string text_;
  int line_ = 0;
};

}  // namespace

std::string Guide::yaml() {
  return Writer(*this).write();
}

}  // namespace saggar::chronology::invented
