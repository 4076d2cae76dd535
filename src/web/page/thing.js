// Find, and the card of one thing or handle: the questions of somebody in the dark.

/** Lines that answer a question; from the file, or from the server, which draws again when they are there. */
const answered = new Map();
const answersOf = (what, id, more = '') => {
  const given = $view.answers[what], query = `ask=${what}&thing=${encode(id)}${more}`, key = $view.house.revision + query;
  if (given) return given[id] || [];
  if (!$served) return [];
  if (!answered.has(key)) {
    answered.set(key, null);
    ask('/api/answer?' + query).then(answer => answered.set(key, answer.lines), e => answered.set(key, [{ kind: 'caution', text: e.message }])).then(draw);
  }
  return answered.get(key);
};
const answer = (...asked) => { const all = answersOf(...asked); return all ? lines(all) : el('p.wait', wLoading); };

const rowTo = (to, name, circuit, tag) => el('a.row', { href: '#' + to }, grow(name), tag, el('span.circuit', circuit));
const pointLink = (i, short) => {
  const point = pointAt(i), state = $now ? $now.state[i] : WORKS;
  return rowTo('thing/' + point.id, short ? point.name : point.full, point.label, state !== WORKS && movedVariables().length && el('span.tag.s' + state, wState[state]));
};
const pointRows = points => list(points, i => pointLink(i, true), '.rows');
const roomLists = points => byRooms(points).map(([room, some]) => el('.byroom', el('h3', room.name), pointRows(some)));
const roomsOr = (points, text) => points.length ? roomLists(points) : paragraph(text);

/** What can be found in a house view, and the words that mean the same. */
const searchable = v => {
  const items = [], same = new Map(), add = (row, name, more, bonus = 0) => items.push({ row, name: wordsOf(name), more: wordsOf(more.join(' ')), bonus });
  v.points.forEach((p, i) => add(() => pointLink(i), p.full, [p.place, p.name, p.label, ...p.marks, ...p.loads.map(l => v.loads[l].name)], 0.3));
  v.handles.forEach((h, i) => add(() => rowTo('handle/' + h.ref, h.name, wHandle), h.name, [h.short, ...v.panels.flatMap(p => p.cells.filter(c => c.handle === i).map(c => c.text))]));
  v.rooms.forEach((r, i) => add(() => rowTo(`floor/${r.floor}/${i}`, r.name, wRoom), r.name, []));
  for (const group of v.synonyms) {
    const all = group.flatMap(wordsOf);
    for (const word of all) same.set(word, (same.get(word) || []).concat(all));
  }
  return { of: v, items, same, phrases: v.phrases.map(pair => pair.map(words => ` ${wordsOf(words).join(' ')} `)) };
};
function viewFind() {
  const asked = $typed.q || '', found = asked.trim() && search(asked), { rooms } = $view;
  const box = el('input#q', { type: 'search', value: asked, autocomplete: 'off', autocapitalize: 'off', spellcheck: 'false', placeholder: wSearchHint, enterkeyhint: 'search',
    input: () => { $typed.q = box.value; clearTimeout(viewFind.timer); viewFind.timer = setTimeout(draw, 60); } });
  return [el('h1.unseen', wTitles.find),
    el('.search', { role: 'search' }, form(() => { clearTimeout(viewFind.timer); draw(); const first = doc.querySelector('.hits a'); if (first) first.focus(); }, el('label', { for: 'q' }, wSearch), box)),
    el('p.count', TOLD, found && (found.length ? wFound(found.length) : wNothing(asked))),
    !found ? $view.points.length ? section(wByRoom, rooms.map(({ name, points }, i) => points.length && folded(`${name} (${points.length})`, 'room' + i, () => pointRows(points)))) : paragraph(wEmptyHouse)
      : found.length ? list(found, item => item.row(), '.rows.hits') : paragraph(wTryWords)];
}

const placeOfHandle = handle => {
  const i = $view.handles.indexOf(handle), panel = $view.panels.find(p => p.main === i || p.cells.some(c => c.handle === i));
  if (panel) return wInPanel(panel.name, panel.place);
  const transfer = $view.transfer.find(t => t.positions.some(p => p.handle === i));
  return transfer ? `${transfer.name}, ${transfer.place}` : (roomAt(handle.room) || {}).name;
};
const wayOf = point => point.way.map(handleAt);
/** The handle of the circuit itself: the last breaker on the way. */
const breakerOf = point => wayOf(point).filter(h => /^breaker/.test(h.ref)).pop();
const offWith = (handle, without) => changes(withHandle(usualAt(), handle, 0)).gone.filter(i => i !== without && stateOf(pointAt(i).diagram, usualAt()) === WORKS);
/** What was switched off here, one handle of each. */
const offRefs = () => movedVariables().filter(v => $at[v] === 0).flatMap(v => variableAt(v).handles.slice(0, 1)).map(h => handleAt(h).ref);
const tryOff = handle => button(wTryOff, () => { $at = withHandle(usualAt(), handle, 0); go('panel'); }, '#tryoff');

const chain = point => {
  const top = $view.sources[0], way = wayOf(point);
  return el('ol.chain', top && way.length && el('li.end', top.name), way.map(h => el('li', link('handle/' + h.ref, h.name), small(placeOfHandle(h)))), el('li.end', point.full));
};

/** Photos that the card of this point, panel or handle shows; all of them without one. In the file they stand in what is read without scripts. */
const photosOf = at => $view.photos.map(({ id, words, on }) => (!at || on.includes(at)) &&
  el('figure', el('img', { src: $served ? '/api/photo?id=' + id : (byId('photo-' + id) || {}).src, alt: words, loading: 'lazy' }), paragraph(words)));

function viewThing([id]) {
  const i = $view.points.findIndex(p => p.id === id), point = pointAt(i);
  if (!point) return bare(wTitles.thing, paragraph(wNothing(id)));
  const handle = breakerOf(point), { is, by } = onBackup(point), room = roomAt(point.room);
  const tied = handle ? variableAt(handle.variable).handles.map(handleAt).filter(h => h !== handle) : [], others = handle && offWith(handle, i);
  return [backLink(), over(room.name), heading(point.name),
    el('.plate', handle ? [over(wFedBy), el('p.big', link('handle/' + handle.ref, handle.name)), paragraph(placeOfHandle(handle)), tied.length && paragraph(wTiedWith(tied.map(h => h.short).join(', ')))]
      : el('p.big', wNotKnown), el('p.standing', wStanding[point.standing]), point.marks.filter(mark => !/backup/.test(mark)).map(paragraph),
      button(wWork, () => jumpTo('work'), '#towork')),
    el('.plate.backup-' + is, wBackup(by)[is].map((text, n) => el(n ? 'p' : 'p.big', text))),
    handle && counted(wAlsoOff, others, roomsOr(others, wOnlyThis), tryOff(handle)),
    el('section#work', { tabindex: '-1' }, el('h2', wWork), answer('isolate', id)),
    section(wWay, chain(point)),
    section(wDetails, answer('where', id), point.loads.map(l => $view.loads[l].words).filter(isThere).map(paragraph)), photosOf(id),
    $served && folded(wRestore, 'restore', () => answer('restore', id, '&off=' + encode(offRefs().join()))),
    paragraph(link(`floor/${room.floor}/${point.room}`, wOnPlan))];
}

function viewHandle([ref]) {
  const handle = $view.handles.find(h => h.ref === ref);
  if (!handle) return bare(wTitles.handle, paragraph(wNothing(ref)));
  const off = offWith(handle);
  return [backLink(), over(placeOfHandle(handle)), heading(handle.name),
    handle.throws.join() === 'off,on' && [counted(wGoesOff, off, roomsOr(off, wNoChange), tryOff(handle)), section(wDetails, answer('off', ref))],
    counted(wCarries, handle.carries, roomsOr(handle.carries, wCarriesNothing)), photosOf(ref)];
}
