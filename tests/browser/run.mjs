// node tests/browser/run.mjs BUILD SCENARIO: runs one scenario in a browser against the programs in the folder BUILD. Pictures go to
// BUILD/browser/SCENARIO. Exit code 0: it holds; 1: it does not; 77: what the tests need is not installed (npm ci in tests/browser).

import fs from 'node:fs';
import path from 'node:path';

const kMostSeconds = 170;  // a net, for machines that do much else; by themselves they take 5 to 30
const [build, name] = process.argv.slice(2).map((word, i) => (i === 0 ? path.resolve(word) : word));
let Tools;
try { ({ Tools } = await import('./tools.mjs')); }
catch (error) {
  if (error.code !== 'MODULE_NOT_FOUND') throw error;
  console.log(`${error.message.split('\n')[0]}: run 'npm ci' in tests/browser first.`);
  process.exit(77);
}
const folder = path.join(build, 'browser', name);
fs.rmSync(folder, { recursive: true, force: true });
fs.mkdirSync(folder, { recursive: true });
const tools = new Tools(build, folder, name);
const { scenario } = await import(`./${name}.mjs`);
tools.traced();
let timer;
const late = new Promise((_, no) => { timer = setTimeout(() => no(new Error(`not done after ${kMostSeconds} s`)), kMostSeconds * 1000); });
try { await Promise.race([scenario(tools), late]); }
catch (error) { tools.check(false, error.stack || String(error)); }
clearTimeout(timer);
if (tools.failures.length) await Promise.race([tools.lastPictures(), new Promise(go => setTimeout(go, 5000))]);
await Promise.race([tools.end(), new Promise(go => setTimeout(go, 5000))]);
console.log(tools.failures.length ? `${name}: ${tools.failures.length} failed` : `${name}: holds`);
process.exit(tools.failures.length ? 1 : 0);
