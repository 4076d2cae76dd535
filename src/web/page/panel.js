// The panel in its physical order. A touch switches a handle here, in the picture: what it takes down is shown at once.

/** What is drawn of each handle, by its place in `handles`: {node, make}. A touch draws only what it changes. */
const drawn = new Map();
const kept = (place, make) => {
  const one = { node: make(), make };
  drawn.set(place, one);
  return one.node;
};
const moveHandle = (handle, to) => {
  S.at = withHandle(S.at, handle, to);
  const c = S.now = changes(S.at), focused = document.activeElement.id;
  for (const place of S.view.variables[handle.variable].handles) {
    const one = drawn.get(place), node = one && one.make();
    if (node) one.node.replaceWith(node), one.node = node;
  }
  byId('outcome').replaceWith(outcome());
  byId('bar').replaceChildren(...movedBar(true));
  if (focused && byId(focused) !== document.activeElement) byId(focused).focus({ preventScroll: true });
  say(isJoined(S.at) ? wJoined : `${handle.name}: ${nameOfThrow(handle.variable)}. ${wShort(c.off.length, c.part.length, c.unknown.length)}`);
};

const cellOf = (cell, ties) => {
  const place = { 'grid-row': `${cell.first_half + 1} / span ${cell.halves}`, 'grid-column': String(cell.column + 1) };
  const number = cell.numbers.join(' ');
  if (cell.handle === null) return el('div.cell.none', { style: place }, el('span.num', number), el('span.small', wEmpty));
  const handle = S.view.handles[cell.handle], is = stands(handle);
  const words = `${handle.name}, ${cell.text || wCarriesNothing}${cell.amps ? ', ' + wAmps(cell.amps) : ''}${cell.mark ? ', ' + cell.mark : ''}`;
  return el('button', { type: 'button', id: 'h-' + handle.ref, role: 'switch', 'aria-checked': String(is === 1), 'aria-label': words, style: place,
    class: `cell c${cell.column % 2} ${is === 0 ? 'off' : ''}`, on: { click: () => moveHandle(handle, is === 0 ? 1 : 0) } },
  el('span.num', number), el('span.text', cell.text), el('span.small', cell.amps ? wAmps(cell.amps) : '', cell.mark ? el('b.mk', cell.mark) : null, ties.some(t => t.column === cell.column && t.first_half <= cell.first_half && cell.first_half <= t.last_half) ? ' ' + wTied : null),
  el('span.lever', is === 0 ? wOff : wOn));
};

const grid = panel => {
  const halves = panel.rows * 2, tandem = new Set(), full = new Set();
  for (const cell of panel.cells) for (let h = cell.first_half; h < cell.first_half + cell.halves; h++) {
    const row = h >> 1;
    if (cell.halves === 1) tandem.add(row);
    if (cell.handle !== null) full.add(row);
  }
  const rows = Array.from({ length: halves }, (_, h) => tandem.has(h >> 1) ? 'minmax(2.9rem, auto)' : full.has(h >> 1) ? 'minmax(1.6rem, auto)' : 'minmax(.8rem, auto)').join(' ');
  return el('div.panelbox', { role: 'group', 'aria-label': panel.name, style: { 'grid-template-rows': rows, 'grid-template-columns': `repeat(${panel.columns}, minmax(0, 1fr))` } },
    panel.cells.slice().sort((a, b) => a.first_half - b.first_half || a.column - b.column).map(cell => cell.handle === null ? cellOf(cell, panel.ties) : kept(cell.handle, () => cellOf(cell, panel.ties))));
};

const switchOf = (handle, text) => el('button', { type: 'button', id: 'h-' + handle.ref, role: 'switch', 'aria-checked': String(stands(handle) === 1), 'aria-label': handle.name,
  class: 'cell wide ' + (stands(handle) ? '' : 'off'), on: { click: () => moveHandle(handle, stands(handle) ? 0 : 1) } }, el('span.text', text), el('span.lever', stands(handle) ? wOn : wOff));

const dangers = () => {
  const out = [];
  if (isJoined(S.at)) out.push(wJoined);
  for (const [a, b] of brokenInterlocks(S.at)) out.push(wInterlocked(S.view.handles[a].name, S.view.handles[b].name));
  return out.length ? el('div.danger', { role: 'alert' }, out.map(text => el('p', el('b.bang', '! '), text))) : null;
};
/** What a loss of power hurts, for each handle that was switched off. */
const hurts = () => {
  const refs = movedVariables().filter(v => S.at[v] === 0).flatMap(v => S.view.variables[v].handles.slice(0, 1)).map(h => S.view.handles[h].ref);
  if (!refs.length) return null;
  const all = S.served && !S.view.answers.off ? Answers.get('off', '', `ask=off&thing=${encodeURIComponent(refs.join(','))}`) || [] : refs.flatMap(ref => (S.view.answers.off || {})[ref] || []);
  return lines(all.filter(line => line.kind === 'danger'));
};

const outcome = () => {
  const c = S.now, moved = movedVariables();
  const part = (title, some, cls) => some.length ? el('section', { class: 'part ' + cls }, el('h3', `${title} (${some.length})`), roomLists(some)) : null;
  // the floors follow a moment later: first what was touched is seen
  const plans = el('div'), touched = new Set([...c.off, ...c.part, ...c.unknown, ...c.on]);
  if (moved.length) setTimeout(() => {
    if (plans.isConnected) S.view.floors.forEach((floor, i) => { if (floor.rooms.some(r => S.view.rooms[r].points.some(p => touched.has(p)))) plans.append(el('h3', floor.name), floorPicture(i, -1, floor.rooms.findIndex(r => S.view.rooms[r].points.some(p => touched.has(p))))); });
  });
  return el('section', { id: 'outcome', tabindex: '-1' }, el('h2', wWhat), dangers(),
    moved.length ? [el('p.moved', `${wMoved}: `, moved.map(v => S.view.variables[v].handles.map(h => S.view.handles[h].short).join('+') ||
        (S.view.sources[S.view.variables[v].source] || { name: '' }).name).map((name, i) => `${i ? ', ' : ''}${name} ${nameOfThrow(moved[i])}`).join('')), hurts(),
      part(wGoesOff, c.off, 's1'), part(wPartLive, c.part, 's2'), part(wUnknown, c.unknown, 's3'), part(wComesOn, c.on, 's0'),
      c.off.length + c.part.length + c.unknown.length + c.on.length ? el('p.small', wTestFirst) : el('p', wNoChange),
      plans]
      : el('p', wAsUsual));
};
const nameOfThrow = variable => {
  const one = S.view.variables[variable], at = S.at[variable];
  return one.handles.length ? S.view.handles[one.handles[0]].throws[at] : at ? wLive : wDead;
};

/** The bar of what is moved, and the way back. */
const movedBar = see => movedVariables().length ? [el('div.bar', el('span.grow', wShort(S.now.off.length, S.now.part.length, S.now.unknown.length)),
  see ? button(wSee, () => { const to = byId('outcome'); to.focus({ preventScroll: true }); to.scrollIntoView(); }, { id: 'see' }) : null, button(wAllBack, () => { S.at = usualAt(); draw(); say(wAsUsual); }, { id: 'back' }))] : [];

function viewPanel([which]) {
  const v = S.view, at = Number(which) || 0, panel = v.panels[at];
  S.now = changes(S.at);
  drawn.clear();
  if (!panel) return [el('h1', wTitles.panel), el('p', wEmptyHouse)];
  return [el('h1', panel.name, el('span.at', ' ' + panel.place)),
    picks(wPanelOf, v.panels.map(p => p.name), 'panel', at),
    el('p.hint', wPanelHelp),
    el('div.two', el('div', panel.main !== null && panel.main !== undefined ? kept(panel.main, () => switchOf(v.handles[panel.main], wMain)) : null, grid(panel),
      v.transfer.map(transferBox), v.sources.length > 1 ? section(wSources, v.sources.map(sourceSwitch)) : null, sheetsLink()), outcome()), movedBar(true)];
}

const sourceSwitch = source => source.variable === null || source.variable === undefined ? null : choice(source.name, 'src' + source.variable, [[1, source.kind === 'utility' ? wLive : wRuns], [0, source.kind === 'utility' ? wDead : wStands]], S.at[source.variable],
  to => moveHandle(source, to));
const transferBox = transfer => section(`${transfer.name}, ${transfer.place}`, transfer.positions.map(p => p.handle).filter((h, i, all) => h !== null && all.findIndex(o => S.view.handles[o].variable === S.view.handles[h].variable) === i).map(h => {
  const handle = S.view.handles[h], mine = transfer.positions.filter(p => p.handle !== null && S.view.handles[p.handle].variable === handle.variable);
  const title = `${mine.map(p => p.label).join('+')}  ${mine[0].text || ''}`.trim();
  return choice(title, 'pos' + handle.variable, handle.throws.map((t, i) => [i, t]), stands(handle), to => moveHandle(handle, to));
}));
