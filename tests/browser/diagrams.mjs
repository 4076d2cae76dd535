// The page's own few lines that evaluate a diagram, against the program: `node diagrams.mjs DUMP_VIEW RECORD.json...`, or with `--random
// HOUSES` instead of records. In each the states of all points after all single moves under each source and 2,000 random multiple
// moves; 0 differences pass.
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const RANDOM_MOVES = 2000;
const [dump, ...records] = process.argv.slice(2);
const program = (...words) => execFileSync(dump, words, { encoding: 'utf8', maxBuffer: 1 << 28 });
const model = readFileSync(fileURLToPath(new URL('../../src/web/page/model.js', import.meta.url)), 'utf8');
const { look, stateOf } = new Function(model + '\nreturn { look: view => { $view = view; }, stateOf };')();
let view = null;
/** The variables' values where the handles and sources stand so. */
const valuesOf = (throws, sources) => view.variables.map(variable => variable.source === null ? throws[variable.handles[0]] : sources[variable.source]);
const digits = text => [...text].map(Number);

const total = { states: 0, points: 0, seen: [0, 0, 0, 0] };
const count = told => {
  let wrong = 0;
  for (const line of told.split('\n')) {
    if (!line) continue;
    const [throws, sources, states] = line.split(' ').map(digits);
    const at = valuesOf(throws, sources);
    total.states += 1;
    view.points.forEach((point, i) => {
      total.points += 1;
      total.seen[states[i]] += 1;
      if (stateOf(point.diagram, at) !== states[i]) wrong += 1;
    });
  }
  return wrong;
};
const fail = what => { console.log(what); process.exit(1); };

const compare = (name, source) => {
  view = JSON.parse(program(...source));
  look(view);
  const told = program('--states', String(RANDOM_MOVES), ...source), wrong = count(told);
  if (wrong > 0) fail(`${name}: ${wrong} differences`);
  const { nodes } = view.diagrams;
  if (nodes.length === 0) return;
  const used = view.points.map(point => point.diagram).find(diagram => diagram > 3), node = nodes[used - 4];
  if (!node || node[1] === node[2]) return;
  [node[1], node[2]] = [node[2], node[1]];  // a fault that is planted is seen
  const before = { ...total, seen: [...total.seen] };
  if (count(told) === 0) fail(`${name}: a decision was turned round, and nobody saw it`);
  Object.assign(total, before);
};

if (records[0] === '--random') for (let seed = 1; seed <= Number(records[1]); ++seed) compare(`random house ${seed}`, ['--random', String(seed)]);
else for (const record of records) compare(record, [record]);
const { states, points, seen } = total;
console.log(`${states} stands of the handles, ${points} states of points (working ${seen[0]}, dead ${seen[1]}, part live ${seen[2]}, unknown ${seen[3]}): 0 differences`);
if (states < 100 || seen[1] === 0) fail('too little was tried');
