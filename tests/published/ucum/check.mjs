// Asks an independent UCUM library about every unit code and conversion that print_units printed.
//   npm ci && print_units | node check.mjs
// Ends with 1 when the library contradicts a line, when a kind of line is missing, or when the library agrees to anything.
import { readFileSync } from 'node:fs';
import ucum from '@lhncbc/ucum-lhc';

const library = ucum.UcumLhcUtils.getInstance();

// Molar masses in g/mol. Source: IUPAC atomic weights (glucose C6H12O6, beta-hydroxybutyric acid C4H8O3).
const molarMass = { glucose: 180.156, ketones: 104.105 };
// The places at which the house prints the other value.
const places = { 'mmol/L': 1, 'mg/dL': 0, kg: 1 };
const expected = { unit: 25, glucose: 904, ketones: 100, same: 15, weight: 296 };

const isValid = (code) => library.validateUnitString(code).status === 'valid';

function converted(value, from, to, mass) {
  const answer = library.convertUnitTo(from, value, to, { molecularWeight: mass ?? null });
  return answer.status === 'succeeded' ? answer.toVal : undefined;
}

// What is wrong with one line; undefined when the library agrees.
function complaint([claim, ...fields]) {
  if (claim === 'unit') return isValid(fields[0]) ? undefined : 'is no valid UCUM code';
  const [value, from, ours, to] = fields;
  const theirs = converted(Number(value), from, to, molarMass[claim]);
  if (theirs === undefined) return 'cannot be converted';
  const half = claim === 'same' ? 1e-9 * Number(ours) : 0.5 * 10 ** -places[to] + 1e-9;
  return Math.abs(theirs - Number(ours)) <= half ? undefined : `is ${theirs} ${to}`;
}

const lines = readFileSync(0, 'utf8').split('\n').filter((line) => line !== '');
const complaints = [];
const counted = {};
for (const line of lines) {
  const fields = line.split('\t');
  counted[fields[0]] = (counted[fields[0]] ?? 0) + 1;
  const wrong = complaint(fields);
  if (wrong) complaints.push(`${fields.join(' ')}: ${wrong}`);
}
for (const [claim, count] of Object.entries(expected)) {
  if (counted[claim] !== count) complaints.push(`${claim}: ${counted[claim] ?? 0} lines where ${count} belong`);
}

// A judge that agrees to everything judges nothing: these must be refused.
const wrongLines = [
  ['unit', 'iU'],
  ['unit', 'mg/dll'],
  ['glucose', '100', 'mg/dL', '5.7', 'mmol/L'],
  ['glucose', '400', 'mg/dL', '22.3', 'mmol/L'],
  ['ketones', '54.05', 'mg/dL', '3', 'mmol/L'],
  ['same', '90', 'min', '90', 's'],
  ['weight', '44', '[lb_av]', '44', 'kg'],
];
for (const fields of wrongLines) {
  if (!complaint(fields)) complaints.push(`${fields.join(' ')}: taken for right, and it is wrong`);
}

for (const text of complaints.slice(0, 20)) console.error(text);
const summary = Object.entries(counted).map(([claim, count]) => `${count} ${claim}`).join(', ');
console.log(`${lines.length} lines (${summary}), ${complaints.length} contradicted`);
process.exit(complaints.length === 0 ? 0 : 1);
