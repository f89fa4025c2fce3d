// check.mjs BUNDLE.json: judges the bundle by the FHIR library and each unit by the UCUM library.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const require = createRequire(import.meta.url);
const { Fhir } = require('fhir');
const ucum = require('@lhncbc/ucum-lhc').UcumLhcUtils.getInstance();

const bundle = JSON.parse(readFileSync(process.argv[2], 'utf8'));
const failures = [];
const judge = (resource, name) => {
  const result = new Fhir().validate(resource, { errorOnUnexpected: true });
  for (const message of result.messages) {
    if (message.severity === 'error' || message.severity === 'fatal') failures.push(`${name}: ${message.location} ${message.message}`);
  }
};

// A judge that finds nothing wrong has to find what is.
const broken = JSON.parse(JSON.stringify(bundle));
const observations = bundle.entry.map((entry) => entry.resource).filter((resource) => resource.resourceType === 'Observation');
const spoiled = JSON.parse(JSON.stringify(observations[0]));
delete spoiled.status;
spoiled.colour = 'red';
judge(spoiled, 'spoiled');
if (failures.length === 0) throw new Error('the validator takes an observation without a status');
failures.length = 0;

judge(bundle, 'bundle');
for (const entry of bundle.entry) judge(entry.resource, entry.resource.resourceType);
const urls = new Set(bundle.entry.map((entry) => entry.fullUrl));
if (urls.size !== bundle.entry.length) failures.push('two entries have one address');
let quantities = 0;
for (const observation of observations) {
  if (!urls.has(observation.subject.reference)) failures.push('an observation is of nobody');
  if (!/T\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)$/.test(observation.effectiveDateTime)) failures.push('a time has no zone');
  if (!observation.valueQuantity) continue;
  ++quantities;
  const verdict = ucum.validateUnitString(observation.valueQuantity.code);
  if (verdict.status !== 'valid') failures.push(`${observation.valueQuantity.code}: ${verdict.msg}`);
}
if (observations.length < 4 || quantities < 3) failures.push(`${observations.length} observations, ${quantities} quantities: too few to judge`);
if (!bundle.entry.some((entry) => entry.resource.resourceType === 'Provenance')) failures.push('no provenance');
for (const failure of failures) console.error(failure);
console.log(`${bundle.entry.length} resources, ${quantities} units, ${failures.length} faults`);
process.exit(failures.length === 0 ? 0 : 1);
