#pragma once
#include <cstdint>
#include <string>

// Small texts of records of the invented pottery, for tests that damage them.
namespace reading_test {

// Every way to write a value at least once.
inline const char* const kInventedRecords = R"(# Shapes of the ivory years
- shape: linnavere
  name: Linnavere
  also:
    - {name: "Ribbed Lin", by: collectors}
    - Linny
  maker: wesperling
  prefix: LV
  designed:
    is: by 1936
    cite: plate-patent
  introduced:
    is: 1936
    cite:
      - decoration-books: vol. 4, May 1936
      - {source: price-list-17, at: "p. 3, left", dated: 1936-05, says: indirect}
    but: [{is: 1937?, cite: dunnavick-1974, set-aside: no citation}]
  withdrawn: 1952
  forms:
    is: [plate-7, teapot, 'batter-set']
    complete: yes
  look: {outline: round, rim: yes, handle: [ring, {is: looped, judged: seen twice}], finial: unknown}
  note: |
    Fine ribs all round the edge; see [the rival](shape:brathermoor-no-9).

    Is it ivory? Often.
  more:
    Body:
      is: ivory, then vellum
      cite: decoration-books
  kept: cabinet 2, shelf 3
  cite: decoration-books

- treatment: lv-12
  shape: linnavere
  motif: heron-pond
  code: LV-12-C/1
  look:
    edge-line: gold
    glaze: [{is: ivory, used: ../1937}, {is: vellum, used: 1938/..}]
  introduced: 1937
  status: production
  met: rarely
  note: >-
    Black on ivory;
    the bird looks left.

- specimen: lv-12-plate
  treatment: lv-12
  form: plate-7
  marks: [k4, {mark: k5, at: beside it}]
  date-code: U372
  size: 9 1/8 in
  seen: {on: 2019-05-14, by: odile-marrenby, how: in-hand}
  my-shelf: [3, 4]

- talk: twelve-shapes
  title: "Twelve shapes: a first look"
  budget: 28:00
  segments:
    - title: Opening
      about: [shape:linnavere]
      time: 2:00
      say: |
        Twelve plates, and not one teapot.
- source: price-list-17
  type: price-list
  title: Price list no. 17
  date: 1936
)";

// The same numbers on every machine.
class Random {
 public:
  explicit Random(std::uint64_t seed) : state_(seed * 0x9E3779B97F4A7C15ull + 1) {}
  std::uint32_t next() {
    state_ ^= state_ << 13;
    state_ ^= state_ >> 7;
    state_ ^= state_ << 17;
    return static_cast<std::uint32_t>(state_ >> 32);
  }
  std::size_t below(std::size_t limit) { return next() % limit; }

 private:
  std::uint64_t state_;
};

}  // namespace reading_test
