// Writing the house down: one tap for each thing, with one hand. Taps go through the queue: a lost connection loses none.

const SURVEY = '/api/survey';
const fetchSurvey = async () => { S.survey = await ask('GET', SURVEY); };

const tap = (body, said, done) => {
  const one = Queue.add(SURVEY, body, said, answer => {
    say((answer.said || []).join(' ') || wRecorded);
    if (done) done(answer);
    draw();
  });
  S.lastTap = one;
  draw();
  return one;
};
const takeBack = () => {
  const last = S.lastTap;
  S.lastTap = null;
  if (last && Queue.drop(last)) { say(wUndoGone); draw(); return; }
  const undo = tap({ do: 'undo' }, wUndo);
  S.lastTap = null;
  if (!last) return;
  undo.undoes = last.key;
  Queue.keep();
  draw();
};
/** The room a person is in: {id, name, points}, also one that is not sent yet. */
const roomNow = () => {
  if (!S.inRoom) return null;
  const known = S.survey && S.survey.rooms.find(r => r.id === S.inRoom);
  if (known) return known;
  const waiting = Queue.of(SURVEY).find(q => 'new:' + q.key === S.inRoom);
  return waiting ? { id: S.inRoom, name: waiting.body.name, points: [], usual: '' } : null;
};
/** What came of a tap. A new room has its real id now: in what still waits, and here. */
const surveyTaken = (one, answer) => {
  S.survey = answer;
  S.stale = true;
  const mine = 'new:' + one.key, room = one.body.do === 'room' && answer.rooms[answer.rooms.length - 1];
  if (!room) return;
  for (const other of Queue.load()) if (other.body.room === mine) other.body.room = room.id;
  if (S.inRoom === mine) S.inRoom = room.id;
};

const roomPicker = survey => [el('h1', wPickRoom),
  el('div.tiles', survey.rooms.map(room => bigButton('tile', 'r-' + room.id, () => { S.inRoom = room.id; draw(); byId('view').scrollTop = 0; }, room.name, `${room.floor}, ${wThings(room.points.length)}`))),
  section(wNewRoom, form(() => {
    const name = typed('n-room');
    if (!name) return;
    const body = { do: 'room', name };
    if (typed('n-floor')) body.floor = typed('n-floor');
    const one = tap(body, name);
    S.inRoom = 'new:' + one.key;
    forget('n-room');
    draw();
  }, field(wRoomName, 'n-room', { maxlength: 200 }), survey.floors.length ? field(wOnFloor, 'n-floor', { options: survey.floors.map(f => [f.id, f.name]) }) : null, el('button.answer', { id: 'addroom' }, wAddRoom))),
  section(wPanels, el('div.tiles', survey.panels.map(p => bigButton('tile', 'p-' + p.id, () => { S.inPanel = p.id; draw(); }, p.name, `${wSpaces}: ${p.spaces}`))),
    folded(wNewPanel, 'newpanel', () => form(() => {
      const amps = typed('n-amps');
      tap({ do: 'panel', words: `${typed('n-panel')} ${typed('n-spaces')} spaces, ${amps ? amps + ' A main' : 'main lugs'}` }, typed('n-panel'));
      forget('n-panel');
    }, field(wPanelName, 'n-panel', { value: 'Main' }), field(wSpaces, 'n-spaces', { options: [8, 12, 16, 20, 24, 30, 32, 40, 42, 60].map(n => [n, n]), value: '20' }),
    field(wMainAmps, 'n-amps', { options: [[60, '60 A'], [100, '100 A'], [125, '125 A'], [150, '150 A'], [200, '200 A'], ['', wLugs]], value: '100' }), el('button.answer', wAddPanel))))];

const inRoom = (survey, room) => {
  const kept = Queue.of(SURVEY), waiting = kept.filter(q => q.body.do === 'items' && q.body.room === room.id && !kept.some(other => other.undoes === q.key)), count = new Map();
  for (const point of room.points) count.set(point.name.replace(/ \d+$/, '').toLowerCase(), (count.get(point.name.replace(/ \d+$/, '').toLowerCase()) || 0) + 1);
  for (const q of waiting) count.set(q.said.toLowerCase(), (count.get(q.said.toLowerCase()) || 0) + 1);
  const add = (items, name) => tap({ do: 'items', room: room.id, items }, name);
  const tile = t => { const n = count.get(t.name.toLowerCase()) || 0; return button([el('b', t.name), n ? el('span.count', n) : null], () => add(t.items, t.name), { id: 't-' + t.name.replace(/\W+/g, '-'), class: 'tile tap' }); };
  const last = room.points[room.points.length - 1];
  return [el('p.over', wTapThings), el('h1', room.name), 
    el('div.tiles', room.usual && !room.points.length ? button(`${wUsual}: ${room.usual.slice(1)}`, () => add(room.usual, room.usual.slice(1)), { class: 'tile', id: 'usual' }) : null, survey.taps.slice(0, 8).map(tile)), folded(wMoreThings, 'moretaps', () => el('div.tiles', survey.taps.slice(8).map(tile))),
    form(() => { const text = typed('n-items'); if (text) { forget('n-items'); add(text, text); } }, el('div.line1', field(wOtherThing, 'n-items', { placeholder: wOtherHint }), el('button', { id: 'additem' }, wEnterLine))),
    section(`${wInRoom} (${room.points.length + waiting.length})`, el('ul.rows', { id: 'written' },
      waiting.slice().reverse().map(q => el('li', el('span.row', el('span.grow', q.said), el('span.tag.s3', wNotSent)))),
      room.points.slice().reverse().map(p => el('li', S.naming === p.id ? nameForm(p) : button([el('span.grow', p.name + (p.place ? ` (${p.place})` : '')), el('span.circuit', wSayWhere)], () => { S.naming = p.id; draw(); byId('np-place').focus(); byId('np-save').scrollIntoView({ block: 'nearest' }); }, { id: 'pt-' + p.id, class: 'row' }))))),
    el('div.bar', button(wUndo, takeBack, { id: 'undo', disabled: !survey.can_undo && !waiting.length ? true : null }), el('span.grow', waiting.length ? '' : last ? wLastWas(last.name) : ''), button(wAnotherRoom, () => { S.inRoom = null; S.naming = null; draw(); byId('view').scrollTop = 0; }, { id: 'other' }))];
};
const nameForm = p => form(() => {
  tap({ do: 'name', point: p.id, name: typed('np-name') || p.name, place: typed('np-place') }, p.name);
  S.naming = null;
  forget('np-name', 'np-place');
  draw();
}, field(wNameIt, 'np-name', { value: p.name }), field(wPlaceIt, 'np-place', { value: p.place, placeholder: wSayWhereHint }), el('div.bigs', el('button', { id: 'np-save' }, wSave), button(wCancel, () => { S.naming = null; forget('np-name', 'np-place'); draw(); })));

const inPanel = panel => {
  const used = new Set(), known = S.view && S.view.panels.find(p => p.id === panel.id);
  if (known) for (const c of known.cells) if (c.handle !== null) c.numbers.forEach(n => used.add(parseInt(n, 10)));
  for (const q of Queue.of(SURVEY)) if (q.body.do === 'breakers' && q.body.panel === panel.id) q.body.items.split(' ')[0].split('+').forEach(n => used.add(Number(n)));
  (S.passed || []).forEach(n => used.add(n));
  let next = 1;
  while (used.has(next) && next <= panel.spaces) next += next + 2 > panel.spaces && next % 2 ? 2 - next + 1 : 2;
  if (next > panel.spaces || used.has(next)) { next = 1; while (used.has(next)) next++; }
  const full = next > panel.spaces, poles = Number(S.typed['b-poles'] || 1);
  const spaces = poles === 2 ? `${next}+${next + 2}` : String(next);
  const add = amps => {
    const label = typed('b-label');
    tap({ do: 'breakers', panel: panel.id, items: `${spaces} ${amps}${label ? ' "' + label.replace(/"/g, "'") + '"' : ''}` }, `${spaces}, ${amps} A`, () => { S.stale = true; fetchHouse().then(draw); });
    forget('b-label', 'b-poles');
    (S.passed = S.passed || []).push(...spaces.split('+').map(Number));
    draw();
  };
  return [el('h1', wBreakersOf(panel.name)), full ? el('p', wAllWritten) : [el('p.over', wSpace), el('p.big', { id: 'space' }, spaces),
    choice(wPoles, 'b-poles', [[1, '1'], [2, '2']], poles, to => { S.typed['b-poles'] = to; draw(); }), field(wLabel, 'b-label', { maxlength: 100 }),
    el('div.tiles', [15, 20, 30, 40, 50, 60].map(a => button(`${a} A`, () => add(a), { class: 'tile', id: 'amps-' + a }))), button(wEmpty, () => { (S.passed = S.passed || []).push(next); draw(); }, { class: 'wide', id: 'emptyspace' })],
  el('div.bar', button(wUndo, () => { (S.passed || []).pop(); takeBack(); }, { id: 'undo' }), el('span.grow'), button(wAnotherRoom, () => { S.inPanel = null; S.passed = []; draw(); }, { id: 'other' }))];
};

function viewWrite() {
  const survey = S.survey;
  if (!survey) return [el('h1', wTitles.write), el('p.wait', wLoading)];
  const panel = S.inPanel && survey.panels.find(p => p.id === S.inPanel), room = roomNow();
  return panel ? inPanel(panel) : room ? inRoom(survey, room) : roomPicker(survey);
}
