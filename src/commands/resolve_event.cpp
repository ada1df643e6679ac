#include "commands/resolve_event.h"

#include "base/edit_distance.h"
#include "base/text.h"
#include "commands/resolve_reference.h"

namespace saggar::commands {

using chronology::Event;
using chronology::EventEnd;
using chronology::Events;

std::optional<Event> eventNamed(const linking::Collection& collection, const Events& events,
                                const std::string& typed, std::string& error, std::string& hint) {
  const std::size_t dot = typed.find('.');
  const auto record = recordNamed(collection, typed.substr(0, dot), error, hint);
  if (!record) return std::nullopt;
  const records::Kind kind = collection[*record].kind;
  const std::string reference = collection[*record].reference();
  const auto slots = Events::slotsOf(kind);
  if (slots.empty()) {
    error = "a " + std::string(records::name(kind)) + " has no date, so that `" + reference + "` is no event";
    hint = "an event is written `kind:id.field`, as `shape:jessamount.introduced`";
    return std::nullopt;
  }
  if (dot == std::string::npos) {
    if (const auto event = events.standingFor(*record)) return event;
  }
  std::vector<std::string> names;
  for (const Events::Slot& slot : slots) {
    const std::string name = events.text({*record, slot.field, slot.end});
    if (typed == name || reference + typed.substr(std::min(dot, typed.size())) == name ||
        reference + typed.substr(std::min(dot, typed.size())) + ".from" == name)
      return Event{*record, slot.field, slot.end};
    names.push_back(name);
  }
  const std::string wanted = reference + typed.substr(std::min(dot, typed.size()));
  const std::vector<std::string_view> known(names.begin(), names.end());
  const auto near = base::nearest(wanted, known);
  error = "`" + base::shortened(typed, 80) + "` is no event";
  std::vector<std::string> shown;
  for (const std::string& name : names) shown.push_back('`' + name + '`');
  hint = near ? "did you mean `" + std::string(*near) + "`?"
              : "the events of `" + reference + "` are " + base::listedInWords(shown);
  return std::nullopt;
}

}  // namespace saggar::commands
