// The panel in its physical order. A touch switches a handle here, in the picture: what it takes down is shown at once.

/** What is drawn of each handle, by its place in `handles`: {node, make}. A touch draws only what it changes. */
const drawn = new Map();
const kept = (place, make) => {
  const one = { node: make(), make };
  drawn.set(place, one);
  return one.node;
};
const shortNow = () => wShort($now.off.length, $now.part.length, $now.unknown.length);
const moveHandle = (handle, to) => {
  $at = withHandle($at, handle, to);
  $now = changes($at);
  const { id } = focused();
  for (const place of variableAt(handle.variable).handles) {
    const one = drawn.get(place), node = one && one.make();
    if (node) one.node.replaceWith(node), one.node = node;
  }
  byId('outcome').replaceWith(outcome());
  byId('bar').replaceChildren(...movedBar(true));
  const again = byId(id);
  if (again && again !== focused()) focusOn(again);
  say(isJoined($at) ? wJoined : `${handle.name}: ${nameOfThrow(handle.variable)}. ${shortNow()}`);
};
/** A handle that is ON or OFF, to be touched. */
const switchOf = (handle, words, marks, style, ...shown) => {
  const on = stands(handle);
  return button([...shown, el('span.lever', on ? wOn : wOff)], () => moveHandle(handle, on ? 0 : 1), '.cell' + marks + (on ? '' : '.off'),
    { id: 'h-' + handle.ref, role: 'switch', 'aria-checked': String(on > 0), [LABEL]: words, style });
};

const cellOf = ({ handle, text, amps, mark, numbers, column, first_half, halves }, ties) => {
  const style = { 'grid-row': `${first_half + 1} / span ${halves}`, 'grid-column': column + 1 }, number = el('span.num', numbers.join(' ')), is = handleAt(handle);
  if (!is) return el('.cell.none', { style }, number, small(wEmpty));
  return switchOf(is, [is.name, text || wCarriesNothing, amps && wAmps(amps), mark].filter(isThere).join(', '), '', style,
    number, el('span.text', text), small([amps && wAmps(amps), mark && el('b.mk', mark), ties.some(t => t.column === column && t.first_half <= first_half && first_half <= t.last_half) && ' ' + wTied]));
};

const grid = ({ rows, columns, cells, ties, name }) => {
  // a row with tandems is high, an empty one low
  const height = h => { const here = cells.filter(c => c.first_half >> 1 <= h && h <= c.first_half + c.halves - 1 >> 1); return here.some(c => c.halves === 1) ? '2.9' : here.some(c => c.handle !== null) ? '1.6' : '.8'; };
  return el('.panelbox', { role: 'group', [LABEL]: name, style: { 'grid-template-rows': Array.from({ length: rows * 2 }, (_, h) => `minmax(${height(h >> 1)}rem, auto)`).join(' '), 'grid-template-columns': `repeat(${columns}, minmax(0, 1fr))` } },
    cells.slice().sort((a, b) => a.first_half - b.first_half || a.column - b.column).map(cell => kept(cell.handle, () => cellOf(cell, ties))));
};

const dangers = () => {
  const out = $view.interlocks.filter(pair => pair.every(h => stands(handleAt(h)) === 1)).map(pair => wInterlocked(...pair.map(h => handleAt(h).name)));
  if (isJoined($at)) out.unshift(wJoined);
  return out.length && el('.danger', ALERT, out.map(text => paragraph(el('b.bang', '! '), text)));
};
/** What a loss of power hurts, for each handle that was switched off. */
const hurts = () => {
  const refs = offRefs(), all = !refs.length ? [] : $view.answers.off ? refs.flatMap(ref => answersOf('off', ref)) : answersOf('off', refs.join()) || [];
  return lines(all.filter(isDanger));
};

const outcome = () => {
  const c = $now, moved = movedVariables(), touched = new Set([...c.gone, ...c.on]), isTouched = room => roomAt(room).points.some(p => touched.has(p));
  const part = (title, some, cls) => some.length && el('section.part.s' + cls, el('h3', `${title} (${some.length})`), roomLists(some));
  // the floors follow a moment later: first what was touched is seen
  const plans = el('div');
  if (moved.length) setTimeout(() => {
    if (plans.isConnected) $view.floors.forEach(({ name, rooms }, i) => { if (rooms.some(isTouched)) plans.append(el('h3', name), floorPicture(i, -1, rooms.find(isTouched))); });
  });
  return el('section#outcome', { tabindex: '-1' }, el('h2', wWhat), dangers(),
    !moved.length ? paragraph(wAsUsual) : [el('p.moved', `${wMoved}: ` + moved.map(v => `${variableAt(v).handles.map(h => handleAt(h).short).join('+') || ($view.sources[variableAt(v).source] || {}).name} ${nameOfThrow(v)}`).join(', ')), hurts(),
      part(wGoesOff, c.off, 1), part(wPartLive, c.part, 2), part(wUnknown, c.unknown, 3), part(wComesOn, c.on, 0),
      c.count ? less(wTestFirst) : paragraph(wNoChange), plans]);
};
const nameOfThrow = variable => {
  const at = $at[variable], handle = handleAt(variableAt(variable).handles[0]);
  return handle ? handle.throws[at] : at ? wLive : wDead;
};

/** The bar of what is moved, and the way back. */
const movedBar = see => movedVariables().length ? [el('.bar', grow(shortNow()), see && button(wSee, () => jumpTo('outcome'), '#see'), button(wAllBack, () => { $at = usualAt(); draw(); say(wAsUsual); }, '#back'))] : [];

function viewPanel([which]) {
  const { panels, transfer, sources } = $view, at = +which || 0, panel = panels[at];
  $now = changes($at);
  drawn.clear();
  if (!panel) return bare(wTitles.panel, paragraph(wEmptyHouse));
  const main = handleAt(panel.main);
  return [heading([panel.name, el('span.at', ' ' + panel.place)]), picks(wPanelOf, panels.map(p => p.name), 'panel', at), hint(wPanelHelp),
    el('.two', el('div', main && kept(panel.main, () => switchOf(main, main.name, '.wide', {}, el('span.text', wMain))), grid(panel),
      transfer.map(transferBox), sources.length > 1 && section(wSources, sources.map(sourceSwitch)), photosOf(panel.id), sheetsLink()), outcome()), movedBar(true)];
}

const sourceSwitch = source => {
  const street = source.kind === 'utility';
  return source.variable !== null && choice(source.name, 'src' + source.variable, [[1, street ? wLive : wRuns], [0, street ? wDead : wStands]], $at[source.variable], to => moveHandle(source, to));
};
/** Positions whose handles are tied are one. */
const transferBox = ({ name, place, positions }) => {
  const variableOf = p => (handleAt(p.handle) || {}).variable, all = positions.map(variableOf);
  return section(`${name}, ${place}`, positions.map((p, i) => {
    const handle = handleAt(p.handle), tied = positions.filter(other => variableOf(other) === all[i]);
    return handle && all.indexOf(all[i]) === i && choice(`${tied.map(t => t.label).join('+')}  ${p.text}`, 'pos' + all[i], handle.throws.map((t, to) => [to, t]), stands(handle), to => moveHandle(handle, to));
  }));
};
