// What is known, and what follows from it. Nothing here touches the page.

// What begins with $ is how the page stands; every view draws it.
let $view = null,  // the house view (docs/page-api.md)
  $served = true,  // false in the saved file
  $at = [], $now = null,  // where each variable stands, and what changes by it
  $me = null, $trace = null, $survey = null, $outage = null,  // as the house computer told them last
  $offline = false, $stale = false, $wasKept = false, $change = 0,
  $secret, $joinError, $viewFailed,  // joining
  $asking = null, $told = null, $placing, $saidStep, $whyOf, $whyText,  // tracing
  $inRoom = null, $inPanel = null, $naming = null, $lastTap = null, $passed = [],  // writing down
  $source = '', $may = null,  // in an outage: which source is to carry the house
  $zoom = 1;
const $typed = {}, $open = new Set(), $seen = {};

// ---- diagrams: the whole of what the page knows about wiring ----

const stateOf = (diagram, at) => {
  while (diagram > 3) { const node = $view.diagrams.nodes[diagram - 4]; diagram = node[1 + at[node[0]]]; }
  return diagram;
};
const WORKS = 0, DEAD = 1, PART_LIVE = 2, NOT_KNOWN = 3;
const handleAt = i => $view.handles[i], pointAt = i => $view.points[i], roomAt = i => $view.rooms[i], variableAt = i => $view.variables[i];
const usualAt = () => $view.variables.map(v => v.usual);
const movedVariables = () => [...$at.keys()].filter(i => $at[i] !== variableAt(i).usual);
const stands = handle => $at[handle.variable];

/** What differs from an ordinary day where the handles stand as `at`: places in `points`, in walking order. */
const changes = at => {
  const usual = usualAt(), by = [[], [], [], []], [on, off, part, unknown] = by;
  const state = $view.points.map(({ diagram }, i) => {
    const now = stateOf(diagram, at);
    if (stateOf(diagram, usual) !== now) by[now].push(i);
    return now;
  });
  return { on, off, part, unknown, state, gone: [...off, ...part, ...unknown], count: by.flat().length };
};
/** At `at`, with one handle put to one of its throws. */
const withHandle = (at, handle, to) => { const next = at.slice(); next[handle.variable] = to; return next; };
const isJoined = at => stateOf($view.joined, at) === 1;

/** Places in `points` by room, in walking order: [[room, [point]]]. */
const byRooms = points => {
  const wanted = new Set(points);
  return $view.rooms.map(room => [room, room.points.filter(p => wanted.has(p))]).filter(([, some]) => some.length);
};

/**
 * Does a backup source carry this point when the power from the street is gone? {is: 'yes' | 'no' | 'open' | 'none', by}: tried are the
 * handles as on an ordinary day, each transfer position on backup, and the other way round of each interlock.
 */
const onBackup = point => {
  const { sources, handles, interlocks } = $view, known = sources.filter(s => s.variable !== null), spare = known.filter(s => s !== sources[0]), ways = [];
  if (!spare.length) return { is: 'none' };
  for (const source of spare) {
    const at = usualAt();
    known.forEach(s => { at[s.variable] = Number(s === source); });
    ways.push([at, source.name]);
    handles.forEach(h => { const to = h.throws.indexOf('backup'); if (to > 0) ways.push([withHandle(at, h, to), h.name]); });
    for (const [a, b] of interlocks) for (const [off, on] of [[a, b], [b, a]])
      ways.push([withHandle(withHandle(at, handles[off], 0), handles[on], 1), handles[on].name]);
  }
  const states = ways.map(([at]) => stateOf(point.diagram, at)), by = states.indexOf(WORKS);
  return by >= 0 ? { is: 'yes', by: ways[by][1] } : { is: states.includes(NOT_KNOWN) ? 'open' : 'no' };
};

// ---- search that forgives ----

const stem = word => word.replace(/^(.+)ies$/, '$1y').replace(/^(.+(?:ch|sh|ss|.x))es$|^(..+[^s])s$/, '$1$2');
const wordsOf = text => text.normalize('NFD').replace(/[\u0300-\u036f]/g, '').toLowerCase().split(/[^\p{L}\p{N}]+/u).filter(isThere).map(stem);

/** One slip: a letter too many, too few, wrong, or two that changed places. */
const oneSlip = (a, b) => {
  if (Math.abs(a.length - b.length) > 1 || min(a.length, b.length) < 4) return false;
  let i = 0, j = 0;
  while (i < a.length && i < b.length && a[i] === b[i]) i++;
  while (j < a.length - i && j < b.length - i && a[a.length - 1 - j] === b[b.length - 1 - j]) j++;
  const x = a.slice(i, a.length - j), y = b.slice(i, b.length - j);
  return x.length < 2 && y.length < 2 || x.length === 2 && x === y[1] + y[0];
};

/** How well one word of the question fits the words of a thing: 0 not at all. */
const fit = (word, words) => max(0, ...words.map(has => has === word ? 10 : has.startsWith(word) && word.length > 1 ? 6 : word.length > 3 && has.includes(word) ? 4 : oneSlip(has, word) ? 3 : 0));

let known = {};
/** What fits a question, the best first: the items of `searchable`. */
const search = question => {
  if (known.of !== $view) known = searchable($view);
  const said = wordsOf(question), asked = said.filter(w => said.length === 1 || !wNoise.includes(w)), text = ` ${asked.join(' ')} `;
  if (!asked.length) return [];
  const readings = [asked];  // words may be written together or apart, and several may mean one
  if (asked.length > 1) readings.push([asked.join('')], ...asked.slice(1).map((w, i) => [...asked.slice(0, i), asked[i] + w, ...asked.slice(i + 2)]));
  for (const [words, other] of known.phrases) if (text.includes(words)) readings.push(text.replace(words, other).trim().split(' '));
  const score = ({ bonus, name, more }) => max(...readings.map((words, way) => {
    const fits = words.map(word => max(fit(word, name) * 2 || fit(word, more), ...(known.same.get(word) || []).map(other => fit(other, name) > 6 ? 16 : 0)));
    return fits.includes(0) ? 0 : fits.reduce((a, b) => a + b) / words.length - (way && 0.5) - name.length * 0.05 + bonus;
  }));
  const scores = known.items.map(score), most = max(...scores);
  return known.items.map((item, i) => [scores[i], item]).filter(([s]) => s > max(0, most * 0.3)).sort((a, b) => b[0] - a[0]).slice(0, 40).map(([, item]) => item);
};
