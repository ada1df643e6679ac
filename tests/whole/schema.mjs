// The JSON Schema that `saggar schema` prints, against the program's own reader: for every kind and field two values of
// the right form and two of a wrong one, judged by a 2020-12 validator (npm ajv, with npm yaml as a YAML 1.2 reader) and
// by `saggar check`. They must agree on at least 95 in a hundred; every other case is listed below with its reason.
//
// node schema.mjs PROGRAM GUIDE
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import Ajv from 'ajv/dist/2020.js';
import YAML from 'yaml';

const program = resolve(process.argv[2]);
const guide = resolve(process.argv[3]);
const schema = JSON.parse(execFileSync(program, ['schema'], { maxBuffer: 1 << 28 }));
const ajv = new Ajv({ strict: false, allErrors: false });
const validate = ajv.compile(schema);
let failures = 0;

// 1. The whole demo is valid.
function yamlFiles(folder) {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return yamlFiles(path);
    return entry.name.endsWith('.yaml') ? [path] : [];
  });
}
let files = 0;
for (const file of yamlFiles(guide)) {
  files += 1;
  const document = YAML.parse(readFileSync(file, 'utf8'), { version: '1.2', schema: 'core' });
  if (!validate(document)) {
    failures += 1;
    console.log(`the schema rejects ${file}: ${ajv.errorsText(validate.errors).slice(0, 400)}`);
  }
}

// 2. One value of each kind and field, right and wrong.
const KNOWN = new Map(Object.entries(JSON.parse(readFileSync(new URL('schema-differences.json', import.meta.url), 'utf8'))));
const wrong = [{ 'no-such-key': 'x' }, '§§§', [['nested']], ''];
const cases = [];
const EVIDENCE = new Set(['is', 'cite', 'judged', 'doubted', 'but', 'note', 'complete']);
// The mappings with fields of their own that a field takes; `free`: each under a key of the author's.
function structures(spec, free = false) {
  if (typeof spec !== 'object' || spec === null) return [];
  const own = Object.entries(spec.properties ?? {}).filter(([key]) => !EVIDENCE.has(key));
  if (own.length > 0 && own.every(([, part]) => part.description)) return [{ properties: spec.properties, required: spec.required, free }];
  return [...(spec.anyOf ?? []).flatMap((one) => structures(one, free)), ...(spec.additionalProperties ? structures(spec.additionalProperties, true) : [])];
}
for (const [name, definition] of Object.entries(schema.$defs)) {
  if (!name.startsWith('record-') || name === 'record-guide') continue;
  const kind = name.slice('record-'.length);
  for (const [field, spec] of Object.entries(definition.properties)) {
    if (field === kind) continue;
    // What a record of the kind says nothing without stands in each.
    const needed = definition.required.filter((name) => name !== kind && name !== field);
    const rest = needed.map((name) => `  ${name}: ${definition.properties[name].examples[0]}\n`).join('');
    for (const inner of structures(spec)) {
      const put = (key, text) => {
        const others = (inner.required ?? []).filter((name) => name !== key);
        const written = field === 'codes' && !['written', 'parts', 'pattern', 'like'].includes(key);
        const way = field === 'test' && ['where', 'has', 'makes'].includes(key);
        const parts = [...(way ? ['count: shape', ...(key === 'makes' ? [] : ['makes: 1'])] : []), ...(field === 'test' && key === 'every' ? ['has: {maker: known}'] : []), ...(field === 'test' && key === 'count' ? ['makes: 1'] : []), ...(written ? ['written: NUMBER', 'parts: {NUMBER: 1 to 2880}'] : []), ...others.map((name) => `${name}: ${inner.properties[name].examples[0]}`), `${key}: ${text}`];
        return inner.free ? `{one: {${parts.join(', ')}}}` : `{${parts.join(', ')}}`;
      };
      for (const [key, part] of Object.entries(inner.properties)) {
        if (EVIDENCE.has(key)) continue;
        for (const example of part.examples ?? []) cases.push({ kind, field, rest, yaml: put(key, example), flow: true });
        for (const value of wrong) cases.push({ kind, field, rest, yaml: put(key, JSON.stringify(value)), flow: true });
      }
    }
    for (const example of spec.examples ?? []) cases.push({ kind, field, rest, yaml: example, flow: true });
    for (const value of wrong) cases.push({ kind, field, rest, value });
  }
}
const work = mkdtempSync(join(tmpdir(), 'saggar-schema-'));
const READING = new Set(['value-unfit', 'field-unknown', 'field-twice', 'date-unreadable', 'yaml-broken', 'kind-unknown', 'value-lost', 'quote-open']);
const share = 60;
let agreed = 0;
let listed = 0;
const used = new Set();
for (let start = 0; start < cases.length; start += share) {
  const folder = join(work, `guide-${start}`);
  mkdirSync(folder);
  writeFileSync(join(folder, 'guide.yaml'), 'guide: Broken on purpose\n');
  const some = cases.slice(start, start + share);
  some.forEach((one, index) => {
    const value = one.flow ? one.yaml : JSON.stringify(one.value);
    one.text = `- ${one.kind}: x-${start + index}\n  ${one.field}: ${value}\n${one.rest}`;
    one.file = `${String(index).padStart(3, '0')}.yaml`;
    writeFileSync(join(folder, one.file), one.text);
  });
  const checked = spawnSync(program, ['-C', folder, 'check', '--format', 'json', '--only', [...READING].filter((rule) => rule !== 'value-lost').join(',')], { maxBuffer: 1 << 28 });
  const findings = JSON.parse(checked.stdout).findings;
  for (const one of some) {
    let bySchema = false;
    try {
      bySchema = validate(YAML.parse(one.text, { version: '1.2', schema: 'core' }));
    } catch {
      bySchema = false;
    }
    // A feature or record that is not there is no matter of form: only findings of reading count.
    const mine = findings.filter((finding) => finding.file === one.file);
    const byReader = !mine.some((finding) => finding.severity === 'error');
    const key = `${one.kind}.${one.field} ${one.flow ? one.yaml : JSON.stringify(one.value)}`;
    if (bySchema === byReader) {
      agreed += 1;
      continue;
    }
    if (KNOWN.has(key)) {
      listed += 1;
      used.add(key);
      continue;
    }
    failures += 1;
    console.log(`${key}: the schema ${bySchema ? 'accepts' : 'rejects'}, the reader ${byReader ? 'accepts' : `rejects (${mine[0].message})`}`);
  }
}
rmSync(work, { recursive: true });
for (const key of KNOWN.keys())
  if (!used.has(key)) {
    failures += 1;
    console.log(`listed as a difference, but they agree: ${key}`);
  }
const percent = (100 * agreed) / cases.length;
console.log(`${files} files of the demo; ${cases.length} values: ${agreed} agree (${percent.toFixed(1)} %), ${listed} differ as listed, ${failures} faults`);
process.exit(failures === 0 && percent >= 95 ? 0 : 1);
