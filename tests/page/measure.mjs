import { readFileSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { brotliCompressSync, gzipSync } from 'node:zlib';
import { browser, made, madeSingle, noBrowser, served } from './harness.mjs';
import { once } from './times.mjs';

const root = made(), single = madeSingle();
let raw = 0, packed = 0;
for (const name of readdirSync(root, { recursive: true })) {
  const file = join(root, name);
  if (!statSync(file).isFile()) continue;
  const bytes = readFileSync(file), small = gzipSync(bytes, { level: 9 }).length;
  raw += bytes.length;
  packed += small;
  if (bytes.length > 20000) console.log(`${name}: ${bytes.length} bytes, ${small} compressed`);
}
console.log(`the folder: ${raw} bytes, ${packed} compressed (gzip -9)`);
const one = readFileSync(single);
console.log(`the single file: ${one.length} bytes, ${gzipSync(one, { level: 9 }).length} compressed (gzip -9), ${brotliCompressSync(one).length} (brotli)`);

const server = await served(root);
const chrome = await browser();
for (const [name, address] of [['folder', server.address], ['single file', pathToFileURL(single).href]]) {
  for (const slowed of [1, 6]) {
    const times = [];
    for (let at = 0; at < 7; ++at) times.push(await once(chrome, address, slowed));
    const middle = (key) => times.map((each) => each[key]).sort((a, b) => a - b)[3].toFixed(0);
    console.log(`${name}, processor slowed ${slowed} times: "what is it about" after ${middle('first')} ms, from the tap to the first question of the walk ${middle('tapped')} ms (middle of 7)`);
  }
}
await noBrowser();
await server.stop();
