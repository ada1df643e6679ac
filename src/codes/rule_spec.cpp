#include "codes/rule_spec.h"

#include <fmt/format.h>

#include <algorithm>
#include <unordered_map>

#include "base/edit_distance.h"
#include "base/text.h"
#include "codes/written.h"

namespace saggar::codes {
namespace {

bool hasAll(const RuleSpec& spec, const OrderSpec& order) {
  if (order.none()) return true;
  return spec.part(order.number) != nullptr &&
         std::all_of(order.within.begin(), order.within.end(),
                     [&](const std::string& name) { return spec.part(name) != nullptr; });
}

template <class T>
void fill(std::optional<T>& into, const std::optional<T>& from) {
  if (!into) into = from;
}

std::string_view withoutCommas(std::string_view text) {
  text = base::trimmed(text);
  while (text.ends_with(',')) text = base::trimmed(text.substr(0, text.size() - 1));
  return text;
}

}  // namespace

const NamedPart* RuleSpec::part(std::string_view partName) const {
  const auto found = std::find_if(parts.begin(), parts.end(),
                                  [&](const NamedPart& named) { return named.name == partName; });
  return found == parts.end() ? nullptr : &*found;
}

RuleSpec inherit(const RuleSpec& base, const RuleSpec& derived) {
  RuleSpec whole = derived;
  const bool ownForm = derived.written || derived.pattern;
  if (!ownForm) {
    whole.written = base.written;
    whole.pattern = base.pattern;
  }
  const std::string form = derived.written   ? *derived.written
                           : derived.pattern ? *derived.pattern
                                             : std::string();
  whole.parts.clear();
  for (const NamedPart& part : base.parts) {
    const NamedPart* own = derived.part(part.name);
    if (own != nullptr) {
      whole.parts.push_back(*own);
    } else if (!ownForm || isNamedIn(form, part.name)) {
      whole.parts.push_back(part);
    }
  }
  for (const NamedPart& part : derived.parts) {
    if (base.part(part.name) == nullptr) whole.parts.push_back(part);
  }
  if (!whole.order && base.order && hasAll(whole, *base.order)) {
    whole.order = base.order;
    whole.orderFrom = base.orderFrom.empty() ? base.name : base.orderFrom;
  } else {
    whole.orderFrom = derived.name;
  }
  if (!whole.alone && base.alone) {
    const bool standing = std::all_of(base.parts.begin(), base.parts.end(), [&](const NamedPart& part) {
      return !isNamedIn(*base.alone, part.name) || whole.part(part.name) != nullptr;
    });
    if (standing) whole.alone = base.alone;
  }
  fill(whole.alike, base.alike);
  fill(whole.unlike, base.unlike);
  fill(whole.usual, base.usual);
  const bool sameSeries = !derived.order || !derived.order->none();
  if (sameSeries) {
    fill(whole.firstOf, base.firstOf);
    fill(whole.onDate, base.onDate);
    fill(whole.lastOf, base.lastOf);
    fill(whole.missing, base.missing);
  }
  return whole;
}

Resolved resolveLikes(std::vector<RuleSpec> rules) {
  Resolved resolved;
  std::unordered_map<std::string, std::size_t> byName;
  for (std::size_t i = 0; i < rules.size(); ++i) byName.emplace(rules[i].name, i);

  resolved.usable.assign(rules.size(), true);
  enum class State { untouched, open, done };
  std::vector<State> state(rules.size(), State::untouched);
  for (std::size_t start = 0; start < rules.size(); ++start) {
    std::vector<std::size_t> chain;  // from a rule to the one it is like, and so on
    std::size_t at = start;
    while (state[at] == State::untouched) {
      state[at] = State::open;
      chain.push_back(at);
      if (!rules[at].like) break;
      const auto found = byName.find(*rules[at].like);
      if (found == byName.end()) {
        std::vector<std::string_view> names;
        for (const RuleSpec& rule : rules) {
          if (rule.name != rules[at].name) names.emplace_back(rule.name);
        }
        const auto near = base::nearest(*rules[at].like, names);
        resolved.problems.push_back(
            {at,
             {"like", *rules[at].like, fmt::format("no rule of this maker is called `{}`", *rules[at].like),
              near ? fmt::format("did you mean `{}`?", *near)
                   : "`like` takes the name after `rule:` of another rule"}});
        resolved.usable[at] = false;
        rules[at].like.reset();
        break;
      }
      at = found->second;
      if (state[at] == State::open) {
        resolved.problems.push_back({chain.back(),
                                     {"like", *rules[chain.back()].like,
                                      fmt::format("`{}` is like `{}`, which in the end is like itself",
                                                  rules[chain.back()].name, rules[at].name),
                                      "leave `like` away in the rule that says everything itself"}});
        resolved.usable[chain.back()] = false;
        rules[chain.back()].like.reset();
        break;
      }
    }
    for (; !chain.empty(); chain.pop_back()) {
      RuleSpec& rule = rules[chain.back()];
      if (rule.like) {
        const std::size_t from = byName.find(*rule.like)->second;
        rule = inherit(rules[from], rule);
        if (!resolved.usable[from]) resolved.usable[chain.back()] = false;
      } else {
        rule.orderFrom = rule.name;
      }
      state[chain.back()] = State::done;
    }
  }
  resolved.rules = std::move(rules);
  return resolved;
}

Parsed<OrderSpec> parseOrder(std::string_view typed) {
  const std::string_view text = base::trimmed(typed);
  if (text.starts_with("within ")) return parseOrder("");
  if (text == "none") return {OrderSpec{}, {}, {}};
  OrderSpec order;
  constexpr std::string_view kWithin = " within ";
  const std::size_t within = text.find(kWithin);
  order.number = std::string(base::trimmed(text.substr(0, within)));
  std::string_view rest =
      within == std::string_view::npos ? std::string_view() : text.substr(within + kWithin.size());
  while (!base::trimmed(rest).empty()) {
    const std::size_t comma = rest.find(',');
    const std::size_t word = rest.find(" and ");
    const std::size_t cut = std::min(comma, word);
    const std::string_view name = withoutCommas(rest.substr(0, cut));
    if (!name.empty()) order.within.emplace_back(name);
    if (cut == std::string_view::npos) break;
    rest = rest.substr(cut + (cut == word ? 5 : 1));
  }
  if (order.number.empty() || text.ends_with(" within") ||
      (within != std::string_view::npos && order.within.empty())) {
    return {std::nullopt, "`order` does not say which part counts",
            "write the part that counts, and within what: `SERIAL within PREFIX`, `NUMBER`, or `none`"};
  }
  return {std::move(order), {}, {}};
}

}  // namespace saggar::codes
