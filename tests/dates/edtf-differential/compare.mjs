// Compares our reading of EDTF with that of the npm package `edtf`, an implementation by other hands.
//
//   node compare.mjs LIST --answers FILE     answers already given, one JSON object a line
//   node compare.mjs LIST --program PATH     asks `PATH date --read`, one expression a line
//
// Compared are acceptance, earliest and latest day. Differences that are known, with their reasons, stand in
// known-differences.tsv; any other one fails, and so does a reason that explains nothing any more.
import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import edtf from 'edtf'

const here = dirname(fileURLToPath(import.meta.url))
const [list, how, where] = process.argv.slice(2)
if (!where || !['--answers', '--program'].includes(how)) {
  console.error('usage: compare.mjs LIST (--answers FILE | --program PATH)')
  process.exit(2)
}

const lines = text => text.split('\n').filter(line => line !== '')
const expressions = lines(readFileSync(list, 'utf8'))
const answers = lines(how === '--answers' ? readFileSync(where, 'utf8') : ask(where)).map(line => JSON.parse(line))
if (answers.length !== expressions.length) {
  console.error(`${expressions.length} expressions, ${answers.length} answers`)
  process.exit(1)
}

function ask(program) {
  const run = spawnSync(program, ['date', '--read'], { input: readFileSync(list), maxBuffer: 1 << 30 })
  if (run.error) throw run.error
  return run.stdout.toString('utf8')
}

// A time of day counts as the calendar day written, so an offset is taken off before the package reads it.
const withoutZone = text => text.replace(/(T\d\d:\d\d:\d\d)(Z|[+-]\d\d(:\d\d)?)?$/, '$1Z')

function day(milliseconds, blank) {
  if (milliseconds === null) return blank
  if (milliseconds === Infinity) return '+inf'
  if (milliseconds === -Infinity) return '-inf'
  const date = new Date(milliseconds)
  const year = date.getUTCFullYear()
  const digits = String(Math.abs(year)).padStart(4, '0')
  const rest = [date.getUTCMonth() + 1, date.getUTCDate()].map(n => String(n).padStart(2, '0'))
  return [(year < 0 ? '-' : '') + digits, ...rest].join('-')
}

function theirs(expression) {
  try {
    const value = edtf(withoutZone(expression))
    const open = { earliest: '-inf', latest: '+inf' }
    const blank = side => (expression.startsWith('..') && side === 'earliest' ? open.earliest : 'unknown')
    return `${day(value.min, blank('earliest'))} ${day(value.max, blank('latest'))}`
  } catch (error) {
    return 'refused'
  }
}

const ours = answer => (answer.error ? 'refused' : `${answer.plain.earliest} ${answer.plain.latest}`)

const known = lines(readFileSync(join(here, 'known-differences.tsv'), 'utf8'))
  .filter(line => !line.startsWith('#'))
  .map(line => {
    const [pattern, ours, theirs, reason] = line.split('\t')
    const whole = text => new RegExp(`^(?:${text})$`)
    return { pattern: whole(pattern), ours: whole(ours), theirs: whole(theirs), source: pattern, reason, used: 0 }
  })

let agreed = 0
let explained = 0
let unexplained = 0
expressions.forEach((expression, index) => {
  const a = ours(answers[index])
  const b = theirs(expression)
  if (a === b) {
    agreed += 1
    return
  }
  const entry = known.find(row => row.pattern.test(expression) && row.ours.test(a) && row.theirs.test(b))
  if (entry) {
    entry.used += 1
    explained += 1
    return
  }
  unexplained += 1
  if (unexplained <= 20) console.log(`${expression}\n  ours   ${a}\n  theirs ${b}`)
})
const idle = known.filter(entry => entry.used === 0)
idle.forEach(entry => console.log(`no longer a difference: ${entry.source}`))
console.log(`${agreed} agree, ${explained} differ as known, ${unexplained} differ otherwise`)
process.exit(unexplained > 0 || idle.length > 0 || agreed === 0 ? 1 : 0)
