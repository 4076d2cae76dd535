// What is known, and what follows from it. Nothing here touches the page.

const S = {
  view: null,             // the house view (docs/page-api.md)
  served: true,           // false in the saved file
  at: [], typed: {}, open: new Set(), seen: {},
  me: null, trace: null, survey: null, outage: null,
  offline: false, stale: false, change: 0,
};

// ---- diagrams: the whole of what the page knows about wiring ----

const stateOf = (diagram, at) => {
  while (diagram > 3) { const node = S.view.diagrams.nodes[diagram - 4]; diagram = node[1 + at[node[0]]]; }
  return diagram;
};
const WORKS = 0, DEAD = 1, PART_LIVE = 2, NOT_KNOWN = 3;
const usualAt = () => S.view.variables.map(v => v.usual);
const isMoved = variable => S.at[variable] !== S.view.variables[variable].usual;
const movedVariables = () => S.view.variables.map((_, i) => i).filter(isMoved);
const stands = handle => S.at[handle.variable];
const asAll = throws => throws.every(t => t === 'off' || t === 'on');

/** What differs from an ordinary day where the handles stand as `at`: places in `points`, in walking order. */
const changes = at => {
  const usual = usualAt(), out = { off: [], part: [], unknown: [], on: [], state: [] };
  S.view.points.forEach((point, i) => {
    const before = stateOf(point.diagram, usual), now = stateOf(point.diagram, at);
    out.state[i] = now;
    if (before === now) return;
    if (now === DEAD) out.off.push(i);
    else if (now === PART_LIVE) out.part.push(i);
    else if (now === NOT_KNOWN) out.unknown.push(i);
    else out.on.push(i);
  });
  return out;
};
/** At `at`, with one handle put to one of its throws. */
const withHandle = (at, handle, to) => { const next = at.slice(); next[handle.variable] = to; return next; };
const isJoined = at => stateOf(S.view.joined, at) === 1;
const brokenInterlocks = at => S.view.interlocks.filter(pair => pair.every(h => at[S.view.handles[h].variable] === 1));

/** Places in `points` by room, in walking order: [[room, [point]]]. */
const byRooms = points => {
  const wanted = new Set(points);
  return S.view.rooms.map(room => [room, room.points.filter(p => wanted.has(p))]).filter(([, some]) => some.length);
};

/**
 * Does a backup source carry this point when the power from the street is gone? {is: 'yes' | 'no' | 'open' | 'none', by}: tried are the
 * handles as on an ordinary day, each transfer position on backup, and the other way round of each interlock.
 */
const onBackup = point => {
  const v = S.view, usual = usualAt();
  const spare = v.sources.filter((s, i) => i > 0 && s.variable !== null && s.variable !== undefined);
  if (!spare.length) return { is: 'none' };
  const ways = [];
  for (const source of spare) {
    const at = usual.slice();
    v.sources.forEach(s => { if (s.variable !== null && s.variable !== undefined) at[s.variable] = s === source ? 1 : 0; });
    ways.push([at, source.name]);
    v.handles.forEach(h => { const to = h.throws.indexOf('backup'); if (to > 0) ways.push([withHandle(at, h, to), h.name]); });
    for (const pair of v.interlocks) for (const [off, on] of [pair, [pair[1], pair[0]]])
      ways.push([withHandle(withHandle(at, v.handles[off], 0), v.handles[on], 1), v.handles[on].name]);
  }
  let open = false;
  for (const [at, by] of ways) {
    const state = stateOf(point.diagram, at);
    if (state === WORKS) return { is: 'yes', by };
    if (state === NOT_KNOWN) open = true;
  }
  return { is: open ? 'open' : 'no' };
};

// ---- search that forgives ----

const folded_ = text => text.normalize('NFD').replace(/[\u0300-\u036f]/g, '').toLowerCase();
const stem = word => word.length > 4 && /(ches|shes|sses|xes)$/.test(word) ? word.slice(0, -2)
  : word.length > 3 && word.endsWith('ies') ? word.slice(0, -3) + 'y'
    : word.length > 3 && word.endsWith('s') && !word.endsWith('ss') ? word.slice(0, -1) : word;
const wordsOf = text => folded_(text).split(/[^\p{L}\p{N}]+/u).filter(Boolean).map(stem);

/** One slip: a letter too many, too few, wrong, or two that changed places. */
const oneSlip = (a, b) => {
  if (Math.abs(a.length - b.length) > 1 || Math.min(a.length, b.length) < 4) return false;
  let i = 0, j = 0;
  while (i < a.length && i < b.length && a[i] === b[i]) i++;
  while (j < a.length - i && j < b.length - i && a[a.length - 1 - j] === b[b.length - 1 - j]) j++;
  const x = a.slice(i, a.length - j), y = b.slice(i, b.length - j);
  return x.length <= 1 && y.length <= 1 || x.length === 2 && y.length === 2 && x[0] === y[1] && x[1] === y[0];
};

const Search = {
  items: null, of: null,
  build() {
    const items = [], add = (kind, place, name, more) => items.push({ kind, place, name, words: wordsOf(name), more: wordsOf(more || '') });
    const v = S.view;
    v.points.forEach((p, i) => add('point', i, p.full, [p.place, p.name, p.label, ...p.marks, ...p.loads.map(l => v.loads[l].name)].join(' ')));
    v.handles.forEach((h, i) => add('handle', i, h.name, h.short));
    v.rooms.forEach((r, i) => add('room', i, r.name));
    v.panels.forEach(p => p.cells.forEach(c => { if (c.handle !== null && c.text) items.find(x => x.kind === 'handle' && x.place === c.handle).more.push(...wordsOf(c.text)); }));
    this.items = items; this.of = v;
    this.same = new Map();
    for (const group of v.synonyms) {
      const all = group.flatMap(wordsOf);
      for (const word of all) this.same.set(word, [...new Set([...(this.same.get(word) || []), ...all])]);
    }
    this.phrases = (v.phrases || []).map(pair => pair.map(words => ` ${wordsOf(words).join(' ')} `));
  },
  /** How well one word of the question fits the words of a thing: 0 not at all. */
  fit(word, words) {
    let best = 0;
    for (const has of words) {
      if (has === word) return 10;
      if (has.startsWith(word) && word.length > 1) best = Math.max(best, 6);
      else if (word.length > 3 && has.includes(word)) best = Math.max(best, 4);
      else if (oneSlip(has, word)) best = Math.max(best, 3);
    }
    return best;
  },
  run(question) {
    if (!S.view) return [];
    if (this.of !== S.view) this.build();
    const asked = wordsOf(question).filter(w => !['the', 'a', 'in', 'of', 'my', 'is', 'on', 'for', 'breaker', 'which', 'what', 'where'].includes(w) || wordsOf(question).length === 1);
    if (!asked.length) return [];
    const joined = asked.length > 1 ? [asked.join('')].concat(asked.slice(0, -1).map((w, i) => [...asked.slice(0, i), w + asked[i + 1], ...asked.slice(i + 2)].join(' '))) : [];
    const readings = [asked, ...joined.map(j => j.split(' '))];
    const text = ` ${asked.join(' ')} `;
    for (const [said, other] of this.phrases) if (text.includes(said)) readings.push(text.replace(said, other).trim().split(' '));
    const score = item => Math.max(...readings.map((words, way) => {
      let sum = 0;
      for (const word of words) {
        let best = this.fit(word, item.words) * 2 || this.fit(word, item.more);
        for (const other of this.same.get(word) || []) best = Math.max(best, (this.fit(other, item.words) > 6 ? 16 : 0));
        if (!best) return 0;
        sum += best;
      }
      return sum / words.length - (way ? 0.5 : 0) - item.words.length * 0.05 + (item.kind === 'point' ? 0.3 : 0);
    }));
    return this.items.map(item => ({ item, score: score(item) })).filter(x => x.score > 0).sort((a, b) => b.score - a.score)
      .filter((x, _, all) => x.score > all[0].score * 0.3).slice(0, 40).map(x => x.item);
  },
};
