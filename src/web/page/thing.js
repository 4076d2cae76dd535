// Find, and the card of one thing or handle: the questions of somebody in the dark.

const Answers = {
  all: new Map(),
  /** Lines that answer `query`; from the file, or from the server, which draws again when they are there. */
  get(what, id, query) {
    const given = S.view.answers[what];
    if (given) return given[id] || [];
    if (!S.served) return [];
    const key = S.view.house.revision + query, known = this.all.get(key);
    if (known === undefined) {
      this.all.set(key, null);
      ask('GET', '/api/answer?' + query).then(answer => this.all.set(key, answer.lines), e => this.all.set(key, [{ kind: 'caution', text: e.message }])).then(draw);
    }
    return known === undefined ? null : known;
  },
  of(what, id) { return this.get(what, id, `ask=${what}&thing=${encodeURIComponent(id)}`); },
};
const answer = all => all === null ? el('p.wait', wLoading) : lines(all);

const Tag = state => el('span', { class: 'tag s' + state }, wState[state]);
const pointLink = (i, short) => {
  const point = S.view.points[i], state = S.now ? S.now.state[i] : WORKS;
  return el('a.row', { href: '#thing/' + point.id }, el('span.grow', short ? point.name : point.full), state !== WORKS && movedVariables().length ? Tag(state) : null,
    el('span.circuit', point.label));
};
const roomLists = points => byRooms(points).map(([room, some]) => el('div.byroom', el('h3', room.name), list(some, i => pointLink(i, true), { class: 'rows' })));

function viewFind() {
  const asked = S.typed.q || '', v = S.view, found = asked.trim() ? Search.run(asked) : null;
  const box = el('input', { id: 'q', type: 'search', value: asked, autocomplete: 'off', autocapitalize: 'off', spellcheck: 'false', placeholder: wSearchHint, enterkeyhint: 'search',
    on: { input: () => { S.typed.q = box.value; clearTimeout(viewFind.timer); viewFind.timer = setTimeout(draw, 60); } } });
  const search = el('div', { role: 'search', class: 'search' }, form(() => { clearTimeout(viewFind.timer); draw(); const first = document.querySelector('.hits a'); if (first) first.focus(); }, el('label', { for: 'q' }, wSearch), box));
  const hit = item => item.kind === 'point' ? pointLink(item.place) : item.kind === 'handle'
    ? el('a.row', { href: '#handle/' + v.handles[item.place].ref }, el('span.grow', v.handles[item.place].name), el('span.circuit', wHandle))
    : el('a.row', { href: '#floor/' + v.rooms[item.place].floor + '/' + item.place }, el('span.grow', v.rooms[item.place].name), el('span.circuit', wRoom));
  return [el('h1.unseen', wTitles.find), search,
    el('p.count', { role: 'status' }, found ? (found.length ? wFound(found.length) : wNothing(asked)) : ''),
    found && !found.length ? el('p', wTryWords) : null,
    found ? list(found, hit, { class: 'rows hits' }) : v.points.length ? section(wByRoom, v.rooms.map((room, i) => room.points.length
      ? folded(`${room.name} (${room.points.length})`, 'room' + i, () => list(room.points, p => pointLink(p, true), { class: 'rows' })) : null)) : el('p', wEmptyHouse)];
}

const placeOfHandle = handle => {
  const i = S.view.handles.indexOf(handle);
  const panel = S.view.panels.find(p => p.main === i || p.cells.some(c => c.handle === i));
  if (panel) return wInPanel(panel.name, panel.place);
  const transfer = S.view.transfer.find(t => t.positions.some(p => p.handle === i));
  if (transfer) return `${transfer.name}, ${transfer.place}`;
  return handle.room !== null && S.view.rooms[handle.room] ? S.view.rooms[handle.room].name : '';
};
/** The handle of the circuit itself: the last breaker on the way. */
const breakerOf = point => point.way.map(i => S.view.handles[i]).filter(h => /^breaker/.test(h.ref)).pop();
const offWith = (variable, without) => {
  const at = usualAt();
  at[variable] = 0;
  const change = changes(at);
  return [...change.off, ...change.part, ...change.unknown].filter(i => i !== without && stateOf(S.view.points[i].diagram, usualAt()) === WORKS);
};

const offRefs = () => movedVariables().filter(v => S.at[v] === 0).flatMap(v => S.view.variables[v].handles.slice(0, 1)).map(h => encodeURIComponent(S.view.handles[h].ref)).join(',');

const chain = point => {
  const top = S.view.sources[0], way = point.way.map(i => S.view.handles[i]);
  return el('ol.chain', top && way.length ? el('li.end', top.name) : null,
    way.map(h => el('li', link('handle/' + h.ref, h.name), el('span.small', placeOfHandle(h)))), el('li.end', point.full));
};

function viewThing([id]) {
  const i = S.view.points.findIndex(p => p.id === id), point = S.view.points[i];
  if (!point) return [el('h1', wTitles.thing), el('p', wNothing(id))];
  const handle = breakerOf(point), backup = onBackup(point), tied = handle ? S.view.variables[handle.variable].handles.map(h => S.view.handles[h]).filter(h => h !== handle) : [];
  const others = handle ? offWith(handle.variable, i) : [];
  const title = { yes: wBackupYes, no: wBackupNo, open: wBackupOpen, none: wBackupNo }[backup.is];
  const floor = S.view.rooms[point.room].floor;
  return [backLink(), el('p.over', S.view.rooms[point.room].name), el('h1', point.name),
    el('div.plate', handle ? [el('p.over', wFedBy), el('p.big', link('handle/' + handle.ref, handle.name)), el('p', placeOfHandle(handle)), tied.length ? el('p', wTiedWith(tied.map(h => h.short).join(', '))) : null]
      : el('p.big', wNotKnown), el('p', { class: 'standing ' + point.standing }, wStanding[point.standing] || point.standing), point.marks.filter(mark => !/backup/.test(mark)).map(mark => el('p.mark', mark)),
      button(wWork, () => { const to = byId('work'); to.scrollIntoView(); to.focus({ preventScroll: true }); }, { id: 'towork' })),
    el('div', { class: 'plate backup-' + backup.is }, el('p.big', title),
      el('p', backup.is === 'yes' ? wBackupBy(backup.by) : backup.is === 'no' ? wBackupNone : backup.is === 'none' ? wNoSource : wNotKnown)),
    handle ? section(`${wAlsoOff} (${others.length})`, others.length ? roomLists(others) : el('p', wOnlyThis),
      button(wTryOff, () => { S.at = withHandle(usualAt(), handle, 0); go('panel'); }, { id: 'tryoff' })) : null,
    el('section', { id: 'work', tabindex: '-1' }, el('h2', wWork), answer(Answers.of('isolate', id))),
    section(wWay, chain(point)),
    section(wDetails, answer(Answers.of('where', id)), point.loads.map(l => S.view.loads[l].words ? el('p', S.view.loads[l].words) : null)),
    S.served ? folded(wRestore, 'restore', () => answer(Answers.get('restore', id, `ask=restore&thing=${id}&off=${offRefs()}`))) : null,
    el('p', link(`floor/${floor}/${point.room}`, wOnPlan))];
}

function viewHandle([ref]) {
  const handle = S.view.handles.find(h => h.ref === ref);
  if (!handle) return [el('h1', wTitles.handle), el('p', wNothing(ref))];
  const off = offWith(handle.variable, -1), two = asAll(handle.throws);
  return [backLink(), el('p.over', placeOfHandle(handle)), el('h1', handle.name),
    two ? section(`${wGoesOff} (${off.length})`, off.length ? roomLists(off) : el('p', wNoChange), button(wTryOff, () => { S.at = withHandle(usualAt(), handle, 0); go('panel'); }, { id: 'tryoff' })) : null,
    two ? section(wDetails, answer(Answers.of('off', ref))) : null,
    section(`${wCarries} (${handle.carries.length})`, handle.carries.length ? roomLists(handle.carries) : el('p', wCarriesNothing))];
}
