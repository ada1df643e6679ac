#!/bin/sh
# Reads the PDF samples with programs that had no part in making them. Usage: pdf_tools.sh path/of/test_render
set -u
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
SAGGAR_PDF_SAMPLES="$folder" "$1" -tc='samples are written*' >"$folder/log" 2>&1 || { cat "$folder/log"; exit 1; }
failed=0
fail() {
  echo "$1: $2"
  failed=1
}

for file in "$folder"/*.pdf; do
  name=$(basename "$file" .pdf)
  # qpdf gives 3 for warnings; the other two repair in silence and only say so on standard error.
  said=$(qpdf --check "$file" 2>&1) || fail "$name" "qpdf: $said"
  said=$(pdfinfo "$file" 2>&1 >/dev/null) || fail "$name" "pdfinfo failed"
  [ -z "$said" ] || fail "$name" "pdfinfo: $said"
  said=$(mutool draw -q -F txt -o /dev/null "$file" 2>&1 | grep -v 'ICC support is not available')
  [ -z "$said" ] || fail "$name" "mutool: $said"
  said=$(pdftotext "$file" /dev/null 2>&1)
  [ -z "$said" ] || fail "$name" "pdftotext: $said"
  # Every font is embedded, a subset, and has its table of characters.
  said=$(pdffonts "$file" | tail -n +3 | awk '{ if ($(NF-4) != "yes" || $(NF-3) != "yes" || $(NF-2) != "yes") print }')
  [ -z "$said" ] || fail "$name" "pdffonts: $said"
done

# The text of the page is the text of the document: every word, in order. Hyphens are left out of the comparison,
# because pdftotext takes those at line ends away.
plain() { perl -CSD -0777 -pe 's/-\s*\n//g; s/-//g; s/\s+/\n/g; s/^\n//; s/\n*\z/\n/'; }
plain <"$folder/roll.txt" >"$folder/wanted"
pdftotext -raw "$folder/roll.pdf" - | plain >"$folder/found"
[ "$(wc -l <"$folder/wanted")" -gt 500 ] || fail roll "the sample has too few words"
said=$(diff "$folder/wanted" "$folder/found") || fail roll "text differs: $said"

pages=$(pdfinfo "$folder/checklist.pdf" | awk '/^Pages:/ { print $2 }')
for page in $(seq 1 "$pages"); do
  pdftotext -f "$page" -l "$page" "$folder/checklist.pdf" - >"$folder/page"
  grep -q "$page of $pages" "$folder/page" || fail checklist "page $page does not say which of how many it is"
  grep -q "^Seen on" "$folder/page" || fail checklist "page $page has no table head"
  pdftotext -raw -f "$page" -l "$page" "$folder/draft.pdf" - | tr -d ' \n' | grep -q "Draft" || fail draft "page $page does not say so"
done
grep -q ", continued" "$folder/page" || pdftotext "$folder/checklist.pdf" - | grep -q ", continued" ||
  fail checklist "no group is continued"
[ "$(pdfinfo "$folder/checklist.pdf" | awk '/^Title:/ { print $2, $3, $4 }')" = "Treatments by Shape" ] ||
  fail checklist "the title is not in the file"
qpdf --json --json-key=outlines "$folder/checklist.pdf" | grep -q '"title": "Linnavere"' || fail checklist "no outline"
qpdf --json --json-key=pagelabels "$folder/checklist.pdf" | grep -q '"/S": "/D"' || fail checklist "no page labels"
qpdf --qdf --object-streams=disable "$folder/links.pdf" - | grep -a -q '/URI (https://example.org/a\\(b\\)' ||
  fail links "the outside link is not in the file"
qpdf --qdf "$folder/links.pdf" - | grep -a -q 'javascript' && fail links "a script was passed on"

[ "$failed" = 0 ] && echo "all PDF samples are sound"
exit "$failed"
