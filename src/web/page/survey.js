// Writing the house down: one tap for each thing, with one hand. Taps go through the queue: a lost connection loses none.

const SURVEY = '/api/survey';
const fetchSurvey = async () => { $survey = await ask(SURVEY); };

const tap = (body, said, done) => {
  $lastTap = send(SURVEY, body, said, answer => {
    say((answer.said || []).join(' ') || wRecorded);
    if (done) done(answer);
    draw();
  });
  draw();
  return $lastTap;
};
const takeBack = () => {
  const last = $lastTap;
  if (last && dropQueued(last)) say(wUndoGone);
  else {
    tap({ do: 'undo' }, wUndo).undoes = last && last.key;
    keepQueue();
  }
  $lastTap = null;
  draw();
};
/** The room a person is in: {id, name, points}, also one that is not sent yet. */
const roomNow = () => {
  const { body } = queuedFor(SURVEY).find(q => 'new:' + q.key === $inRoom) || {};
  return $survey.rooms.find(r => r.id === $inRoom) || (body && { id: $inRoom, name: body.name, points: [] });
};
/** What came of a tap. A new room has its real id now: in what still waits, and here. */
const surveyTaken = (one, answer) => {
  $survey = answer;
  $stale = true;
  if (one.body.do !== 'room') return;
  const mine = 'new:' + one.key, { id } = answer.rooms[answer.rooms.length - 1];
  for (const { body } of queue()) if (body.room === mine) body.room = id;
  if ($inRoom === mine) $inRoom = id;
};
const sendButton = (marks, text) => el('button' + marks, text);

const addRoom = () => {
  const name = typed('n-room'), floor = typed('n-floor');
  if (!name) return;
  $inRoom = 'new:' + tap({ do: 'room', name, ...(floor && { floor }) }, name).key;
  forget('n-room');
  draw();
};
const addPanel = () => {
  const amps = typed('n-amps'), name = typed('n-panel');
  tap({ do: 'panel', words: `${name} ${typed('n-spaces')} spaces, ${amps ? amps + ' A main' : 'main lugs'}` }, name);
  forget('n-panel');
};
const tileOf = (id, run, text, below) => bigButton('.tile', run, text, below, { id });
const roomPicker = ({ rooms, floors, panels }) => bare(wPickRoom,
  el('.tiles', rooms.map(r => tileOf('r-' + r.id, () => { $inRoom = r.id; draw(); toTop(); }, r.name, `${r.floor}, ${wThings(r.points.length)}`))),
  section(wNewRoom, form(addRoom, field(wRoomName, 'n-room', { maxlength: 200 }), floors.length && field(wOnFloor, 'n-floor', { options: floors.map(f => [f.id, f.name]) }), sendButton('#addroom.answer', wAddRoom))),
  section(wPanels, el('.tiles', panels.map(p => tileOf('p-' + p.id, () => { $inPanel = p.id; draw(); }, p.name, `${wSpaces}: ${p.spaces}`))),
    folded(wNewPanel, 'newpanel', () => form(addPanel, field(wPanelName, 'n-panel', { value: 'Main' }), field(wSpaces, 'n-spaces', { options: same([8, 12, 16, 20, 24, 30, 32, 40, 42, 60]), value: 20 }),
      field(wMainAmps, 'n-amps', { options: [...[60, 100, 125, 150, 200].map(a => [a, wAmps(a)]), ['', wLugs]], value: 100 }), sendButton('.answer', wAddPanel)))));

const reversed = all => all.slice().reverse();
const inRoom = ({ taps, can_undo }, { id, name, points, usual }) => {
  const sent = queuedFor(SURVEY), unsent = sent.filter(q => q.body.do === 'items' && q.body.room === id && !sent.some(other => other.undoes === q.key));
  const names = [...points.map(p => p.name.replace(/ \d+$/, '')), ...unsent.map(q => q.said)].map(text => text.toLowerCase());
  const add = (items, said) => tap({ do: 'items', room: id, items }, said), last = points[points.length - 1];
  const tile = t => { const n = names.filter(text => text === t.name.toLowerCase()).length; return button([el('b', t.name), n > 0 && el('span.count', n)], () => add(t.items, t.name), `#t-${t.name.replace(/\W+/g, '-')}.tile.tap`); };
  const point = p => $naming === p.id ? nameForm(p) : button([grow(p.name + (p.place && ` (${p.place})`)), el('span.circuit', wSayWhere)],
    () => { $naming = p.id; draw(); byId('np-place').focus(); byId('np-save').scrollIntoView({ block: 'nearest' }); }, '.row', { id: 'pt-' + p.id });
  const bySelf = () => { const text = typed('n-items'); if (text) { forget('n-items'); add(text, text); } };
  return [over(wTapThings), heading(name),
    el('.tiles', usual && !points.length && button(`${wUsual}: ${usual.slice(1)}`, () => add(usual, usual.slice(1)), '#usual.tile'), taps.slice(0, 8).map(tile)), folded(wMoreThings, 'moretaps', () => el('.tiles', taps.slice(8).map(tile))),
    form(bySelf, el('.line1', field(wOtherThing, 'n-items', { placeholder: wOtherHint }), sendButton('#additem', wEnterLine))),
    section(`${wInRoom} (${names.length})`, el('ul#written.rows', reversed(unsent).map(q => el('li', el('span.row', grow(q.said), el('span.tag.s3', wNotSent)))), reversed(points).map(p => el('li', point(p))))),
    el('.bar', button(wUndo, takeBack, '#undo', { disabled: !can_undo && !unsent.length }), grow(!unsent.length && last && wLastWas(last.name)), button(wAnotherRoom, () => { $inRoom = null; endNaming(); toTop(); }, '#other'))];
};
const endNaming = () => { $naming = null; forget('np-name', 'np-place'); draw(); };
const nameForm = p => form(() => {
  tap({ do: 'name', point: p.id, name: typed('np-name') || p.name, place: typed('np-place') }, p.name);
  endNaming();
}, field(wNameIt, 'np-name', { value: p.name }), field(wPlaceIt, 'np-place', { value: p.place, placeholder: wSayWhereHint }), el('.bigs', sendButton('#np-save', wSave), button(wCancel, endNaming)));

/** The next space that is empty: down the one side, then down the other; null where none is. */
const nextSpace = ({ id, spaces }) => {
  const used = new Set($passed), known = $view && $view.panels.find(p => p.id === id);
  if (known) for (const c of known.cells) if (c.handle !== null) c.numbers.forEach(n => used.add(parseInt(n)));
  for (const { body } of queuedFor(SURVEY)) if (body.do === 'breakers' && body.panel === id) body.items.split(' ')[0].split('+').forEach(n => used.add(+n));
  const all = Array.from({ length: spaces }, (_, i) => i + 1);
  return [...all.filter(n => n % 2), ...all.filter(n => n % 2 === 0)].find(n => !used.has(n));
};
const inPanel = panel => {
  const next = nextSpace(panel), poles = $typed['b-poles'] || 1, pass = (...spaces) => { $passed.push(...spaces); draw(); };
  const add = amps => {
    const label = typed('b-label'), taken = poles === 2 ? [next, next + 2] : [next], spaces = taken.join('+');
    tap({ do: 'breakers', panel: panel.id, items: `${spaces} ${amps}${label && ` "${label.replace(/"/g, "'")}"`}` }, `${spaces}, ${amps} A`, () => { $stale = true; fetchHouse().then(draw); });
    forget('b-label', 'b-poles');
    pass(...taken);
  };
  return [heading(wBreakersOf(panel.name)), !next ? paragraph(wAllWritten) : [over(wSpace), el('p#space.big', poles === 2 ? `${next}+${next + 2}` : next),
    choice(wPoles, 'b-poles', same([1, 2]), poles, to => { $typed['b-poles'] = to; draw(); }), field(wLabel, 'b-label', { maxlength: 100 }),
    el('.tiles', [15, 20, 30, 40, 50, 60].map(a => button(wAmps(a), () => add(a), `#amps-${a}.tile`))), button(wEmpty, () => pass(next), '#emptyspace.wide')],
  el('.bar', button(wUndo, () => { $passed.pop(); takeBack(); }, '#undo'), el('span.grow'), button(wAnotherRoom, () => { $inPanel = null; $passed = []; draw(); }, '#other'))];
};

function viewWrite() {
  if (!$survey) return waiting(wTitles.write);
  const panel = $survey.panels.find(p => p.id === $inPanel), room = roomNow();
  return panel ? inPanel(panel) : room ? inRoom($survey, room) : roomPicker($survey);
}
