#!/usr/bin/env bash
# Measures the program against yaml-cpp's bare event parse of the same files, and the reasoning about dates by itself, and
# prints the ratios of this one run.
#
#   tests/bench/bench.sh [BUILD-FOLDER] [ROUNDS]
#
# The build folder (build/ unless told otherwise) is configured with -DSAGGAR_TESTS=ON. Every program is run in turn,
# ROUNDS times (3), and the best of each counts: its time on the clock, and the processors' time, which another program
# on the same machine disturbs less. The invented guide is made anew in a folder that goes away again.
set -euo pipefail
cd "$(dirname "$0")/../.."
build=${1:-build}
rounds=${2:-3}
cmake -S . -B "$build" -DSAGGAR_TESTS=ON >/dev/null
targets=(bench_generate bench_event_parse bench_time_reading bench_time_chronology bench_reasoning)
grep -q 'add_executable(saggar ' CMakeLists.txt && [ -e src/main.cpp ] && targets+=(saggar)
cmake --build "$build" --target "${targets[@]}" >/dev/null
tools="$PWD/$build/tests/bench"
[ -x "$tools/bench_generate" ] || tools="$build/tests/bench"
program="$build/saggar"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

"$tools/bench_generate" "$work/many" >"$work/size"
"$tools/bench_generate" "$work/one" --one-file >/dev/null
"$tools/bench_generate" "$work/quarter" --treatments 10000 --specimens 15000 --sources 600 --files 100 >/dev/null
"$tools/bench_generate" "$work/events" --treatments 18800 --specimens 28200 --files 100 >/dev/null
"$tools/bench_generate" "$work/events-tenth" --treatments 1880 --specimens 2820 --files 10 >/dev/null
"$tools/bench_generate" "$work/falling" --falling 100000 >/dev/null
"$tools/bench_generate" "$work/falling-tenth" --falling 10000 >/dev/null
"$tools/bench_generate" "$work/after" --after 10000 >/dev/null
"$tools/bench_generate" "$work/after-tenth" --after 1000 >/dev/null
bytes=$(cut -d' ' -f1 "$work/size")
quarter=$(find "$work/quarter" -name '*.yaml' -size +0 -exec cat {} + | wc -c)
echo "$bytes bytes in 400 files and in one; $quarter bytes for a quarter of the treatments; $(nproc) processors, best of $rounds rounds"

# measure NAME COMMAND…: keeps the least clock seconds, processor seconds and peak kilobytes of NAME.
declare -A clock cpu peak
least() { awk -v a="${1:-999999}" -v b="$2" 'BEGIN { print (b < a ? b : a) }'; }
measure() {
  local name=$1
  shift
  local status=0
  LC_ALL=C /usr/bin/time -o "$work/time" -f '%e %U %S %M' "$@" >"$work/said" 2>"$work/told" || status=$?
  if [ "$status" -ne 0 ]; then
    echo "bench: $* ended with $status" >&2
    tail -5 "$work/said" "$work/told" >&2
    exit 1
  fi
  read -r e u s m < <(tail -1 "$work/time")
  clock[$name]=$(least "${clock[$name]:-}" "$e")
  cpu[$name]=$(least "${cpu[$name]:-}" "$(awk -v a="$u" -v b="$s" 'BEGIN { print a + b }')")
  peak[$name]=$(least "${peak[$name]:-}" "$m")
}

# timed PREFIX COMMAND…: a program that measures parts of itself, best of its own rounds: lines `NAME clock processors`.
timed() {
  local prefix=$1
  shift
  "$@" >"$work/said"
  while read -r name e c; do
    [ "$name" = "#" ] && { echo "$prefix$name $e $c"; continue; }
    clock[$prefix$name]=$(least "${clock[$prefix$name]:-}" "$e")
    cpu[$prefix$name]=$(least "${cpu[$prefix$name]:-}" "$c")
  done <"$work/said"
}

can_make=0
if [ -x "$program" ]; then
  "$program" -C "$work/quarter" make guide checklists -o "$work/out-try" --own "$work/own-try" >/dev/null 2>&1 && can_make=1
  rm -rf "$work/out-try" "$work/own-try"
fi
for ((round = 0; round < rounds; ++round)); do
  measure parse "$tools/bench_event_parse" "$work/many"
  measure parse-one "$tools/bench_event_parse" "$work/one"
  measure reading "$tools/bench_time_reading" "$work/many"
  measure reading-one "$tools/bench_time_reading" "$work/one"
  timed "" "$tools/bench_reasoning" 3
  for guide in many events events-tenth falling falling-tenth after after-tenth; do
    timed "guide-" "$tools/bench_time_chronology" "$work/$guide" "$guide" 2 >"$work/size-$guide"
  done
  [ -x "$program" ] || continue
  measure check "$program" -C "$work/many" check
  measure check-one "$program" -C "$work/one" check
  measure check-quarter "$program" -C "$work/quarter" check
  [ "$can_make" -eq 1 ] || continue
  rm -rf "$work/out" "$work/own"
  measure make "$program" -C "$work/many" make guide checklists -o "$work/out" --own "$work/own"
done

failed=0
# ratio WORDS A B MOST: A over B on the clock and by processor time.
ratio() {
  awk -v words="$1" -v a="${clock[$2]}" -v b="${clock[$3]}" -v c="${cpu[$2]}" -v d="${cpu[$3]}" -v most="$4" 'BEGIN {
    printf "%-58s %6.3f s / %6.3f s = %5.2f   (processors %5.2f)", words, a, b, a / b, c / d
    if (most != "") printf "   at most %s%s", most, (a / b <= most || c / d <= most ? "" : "  EXCEEDED")
    print ""
    exit !(most == "" || a / b <= most || c / d <= most)
  }' || failed=1
}
seconds() {
  awk -v words="$1" -v a="${clock[$2]}" -v c="${cpu[$2]}" -v most="$3" 'BEGIN {
    printf "%-58s %6.2f s   (processors %5.2f)   at most %s s%s\n", words, a, c, most, (a <= most || c <= most ? "" : "  EXCEEDED")
    exit !(a <= most || c <= most)
  }' || failed=1
}
per_byte() {
  awk -v words="$1" -v kb="${peak[$2]}" -v bytes="$bytes" -v most="$3" 'BEGIN {
    each = kb * 1024 / bytes
    printf "%-58s %6.2f bytes a byte of input", words, each
    if (most != "") printf "   at most %s%s", most, (each <= most ? "" : "  EXCEEDED")
    print ""
    exit !(most == "" || each <= most)
  }' || failed=1
}

ratio "reading, 400 files, to bare event parse" reading parse ""
ratio "reading, one file, to reading 400" reading-one reading ""
per_byte "reading, peak memory" reading ""
# The yardstick for 100,000 events and 400,000 facts: the event parse of the invented guide, scaled by its events or its
# facts, whichever gives less.
read -r _ events _ facts _ <"$work/size-many"
for kind in clock cpu; do
  declare -n times=$kind
  times[parse-scaled]=$(awk -v t="${times[parse]}" -v e="$events" -v f="$facts" 'BEGIN {
    a = 100000 / e; b = 400000 / f; print t * (a < b ? a : b) }')
done
ratio "bounds of 100,000 events, 400,000 facts, to their parse" bounds parse-scaled 0.25
ratio "chronology of the guide to its parse" guide-many parse 0.25
ratio "chronology, 103,000 events in guides, to 18,000" guide-events guide-events-tenth 12
# Mind the cache: 10,000 events stay within a processor's second cache and 100,000 do not, so that this one shows the
# machine as much as the program. What would be quadratic is a hundredfold.
ratio "bounds, 100,000 events to 10,000" bounds bounds-tenth 12
ratio "bounds, tangled, 100,000 events to 10,000" tangled tangled-tenth ""
ratio "bounds, 100,000 falling numbers to 10,000" falling falling-tenth 12
ratio "bounds, a chain of 10,000 \`after\` to 1,000" after after-tenth 12
ratio "chronology, 100,000 falling numbers in a guide to 10,000" guide-falling guide-falling-tenth 12
ratio "chronology, a chain of 10,000 \`after\` in a guide to 1,000" guide-after guide-after-tenth 12
seconds "1,000 contradictions among 100,000 events" clashes 2
if [ -x "$program" ]; then
  ratio "check, 400 files, to bare event parse" check parse 1.6
  ratio "check, one file, to check, 400 files" check-one check 1.2
  ratio "check, 40,000 treatments, to 10,000" check check-quarter 4.6
  per_byte "check, peak memory" check 8
else
  echo "the program is not built: check and make are not measured"
fi
if [ "$can_make" -eq 1 ]; then
  ratio "make guide checklists to check" make check 3
  per_byte "make guide checklists, peak memory" make 12
elif [ -x "$program" ]; then
  echo "make guide checklists does not run yet on the invented guide: not measured"
fi
exit "$failed"
