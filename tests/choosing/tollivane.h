#pragma once

// A guide in small: an invented pottery, its rules for numbers and codes, some shapes and decorations of it. It gives
// no finding whatever.
namespace saggar::choosing::testing {

inline constexpr const char* kTollivane = R"(- maker: wesperling
  name: Wesperling & Sarnock
  trade: pottery
  works:
    - {works: ferry-street, name: Ferry Street works, letter: F, used: 1889/1931}
    - {works: upper-bench, name: Upper Bench works, letter: U, used: 1906/1968}
    - {works: tunnel, name: Tunnel works, letter: T, used: 1927/1962}
  codes:
    - rule: old decoration number
      used: 1896/1926
      written: NUMBER
      parts: {NUMBER: 1 to 2880}
      order: NUMBER
      on-date: {1187: 1909, 1422: 1911, 2310: 1916, 2641: 1923}
      last-of: {2880: 1926}
      missing: {1601-1688: pages torn out}
    - rule: decoration code
      used: 1926/1968
      where: {not: {shape: jessamount}}
      written: PREFIX-SERIAL-GROUP/LINING
      parts:
        PREFIX: [shape.prefix, for.prefix]
        SERIAL: 2 or 3 digits
        GROUP:
          A: a line or stamp only
          B: one or two small decals
          C: three or more decals, or one large centre
          D: a border decal, or a centre with a verge line
        LINING:
          0: {look: {edge-line: none}}
          1: {look: {edge-line: gold}}
          2: {look: {edge-line: gold, verge-line: gold}}
          3: {look: {edge-line: platinum}}
      alone: PREFIX-SERIAL
      order: SERIAL within PREFIX
    - rule: decoration code on Jessamount
      like: decoration code
      where: {shape: jessamount}
      parts: {SERIAL: 3 digits}
    - rule: copied serial
      like: decoration code
      used: 1938/1945
      where: {motif.supplier: orvenholt}
      parts: {SERIAL: last 3 of motif.supplier-number}
      order: none
    - rule: experimental number
      where: {status: sample}
      written: X-SERIAL
      parts: {SERIAL: 3 digits}
      order: none
    - rule: date code
      on: specimen.date-code
      used: 1925/1951
      written: WORKS YY QUARTER
      parts: {WORKS: maker.works.letter, YY: year 19YY, QUARTER: quarter}
      alike: [4 9]
    - rule: batch
      on: specimen.date-code
      used: 1952/1968
      written: YY WEEK
      parts: {YY: year 19YY, WEEK: week}
    - rule: cipher
      on: specimen.code-seen
      written: CIPHER
      parts: {CIPHER: 1 or 2 letters}
  cite:
    - books: title leaf

- maker: orvenholt
  trade: decal supplier
  cite:
    - books: suppliers

- maker: quennock
  name: Quennock Mail Order House
  trade: retailer
  closed: 1955
  prefix: QM
  cite:
    - books: customers

- shape: jessamount
  name: Jessamount
  maker: wesperling
  prefix: JM
  introduced: 1932
  withdrawn: 1955
  look: {outline: round, handle: looped}
  cite:
    - books: vol. 3

- shape: linnavere
  name: Linnavere
  maker: wesperling
  prefix: LV
  introduced: 1936
  withdrawn: 1952
  look: {outline: round, handle: ring}
  cite:
    - books: vol. 4

- shape: orrinstead
  name: Orrinstead
  maker: wesperling
  prefix: OD
  introduced: 1907
  withdrawn: 1926
  look: {outline: round, handle: angular}
  cite:
    - books: vol. 1

- motif: barrow-of-blooms
  name: Barrow of Blooms
  introduced: 1926
  withdrawn: 1941
  cite:
    - books: vol. 2

- motif: teasel-row
  name: Teasel Row
  introduced: 1930
  withdrawn: 1944
  cite:
    - books: vol. 3

- motif: harbour-lantern
  name: Harbour Lantern
  introduced: 1934
  withdrawn: 1946
  cite:
    - books: vol. 4

- motif: gooseberry-wreath
  name: Gooseberry Wreath
  supplier: orvenholt
  supplier-number: 6203
  introduced: 1938
  withdrawn: 1951
  cite:
    - books: vol. 5

- motif: wren-and-medlar
  name: Wren and Medlar
  supplier: orvenholt
  supplier-number: 7203
  introduced: 1941
  withdrawn: 1953
  cite:
    - books: vol. 5

- treatment: od-1422
  shape: orrinstead
  motif: none
  code: 1422
  look: {edge-line: gold, verge-line: gold}
  introduced: 1911
  withdrawn: 1920
  cite:
    - books: no. 1422

- treatment: jm-018
  shape: jessamount
  motif: teasel-row
  code: JM-018-C/1
  look: {edge-line: gold}
  introduced: 1932
  withdrawn: 1944
  cite:
    - books: vol. 3, JM-018

- treatment: jm-061
  shape: jessamount
  motif: harbour-lantern
  code: JM-061-C/1
  look: {edge-line: gold}
  introduced: 1934
  withdrawn: 1946
  cite:
    - books: vol. 4, JM-061

- treatment: qm-112
  shape: jessamount
  motif: harbour-lantern
  for: quennock
  code: QM-112-C/0
  look: {edge-line: none}
  introduced: 1934
  withdrawn: 1941
  cite:
    - books: vol. 4, QM-112

- treatment: jm-203
  shape: jessamount
  motif: gooseberry-wreath
  code: JM-203-C/1
  look: {edge-line: gold}
  introduced: 1938
  withdrawn: 1951
  cite:
    - books: vol. 5, JM-203-C

- treatment: lv-12
  shape: linnavere
  motif: harbour-lantern
  code: LV-12-C/0
  look: {edge-line: none}
  introduced: 1938
  withdrawn: 1946
  cite:
    - books: vol. 5, LV-12

- feature: edge-line
  of: treatment
  ask: Is there a line at the very edge?
  values:
    none: no line
    gold: a thin gold line
    platinum: {is: a thin silvery line, used: 1937/..}

- feature: verge-line
  of: treatment
  ask: Is there a line at the verge?
  values: {none: no line, gold: a thin gold line}

- feature: handle
  of: shape
  ask: What are the cup handles like?
  values: {looped: a loop, angular: two straight parts, ring: a ring}

- feature: outline
  of: shape
  ask: What is the outline of a plate?
  values: {round: a circle, scalloped: a wavy edge}

- form: plate-7
  ware: flat
  nominal: 7 in
  actual: 9 1/8 in
  cite:
    - books: sizes

- source: books
  type: decoration-book
  title: Decoration books
  date: 1896/1968
)";

}  // namespace saggar::choosing::testing
