// Tracing with the phone in hand: one thing at a time, alone or by two.

const TRACE = '/api/trace';

const fetchTrace = async () => { takeTrace(await ask('GET', TRACE)); };
const takeTrace = trace => {
  const was = S.trace, me = meOf(trace), step = trace.step;
  const before = was && canAct(was) && was.step.step;
  S.trace = trace;
  if (was && was.step.step !== step.step) {
    if (S.asking === 'skip') S.asking = null;
    S.open.delete('tracemore');
    byId('view').scrollTop = 0;
  }
  if (!was || !me || S.saidStep === was.step.step) return;
  if (canAct(trace) && before !== step.step) {  // it is this person's turn: told, and felt in the hand
    say(wYourTurn, false, sentences(textFor(me, step))[0].textContent);
    if (navigator.vibrate) navigator.vibrate(120);
  } else if (was.step.step !== step.step) say(wElsewhere);
};
const isMove = step => step.kind === 'open' || step.kind === 'close';
/** May this person do something now? */
const canAct = trace => {
  const me = meOf(trace), step = trace.step;
  if (!me || !step.answers.length) return false;
  if (me.place === 'both' || (step.kind === 'caution' && step.reason === 'start')) return true;
  return isMove(step) ? me.place === 'panel' && partners(me, trace).some(p => p.ready) : me.place === 'rooms';
};
/** The step in the words for this person: what the helper is called to do is told to the helper as a thing to do. */
const textFor = (me, step) => {
  if (!step.by_helper || me.place === 'both') return step.text;
  return [wTurn(step.handles.length > 1 ? wThese(step.handles.length) : step.handles[0].name, step.kind === 'open', me.place === 'panel')]
    .concat(step.text.split('\n').slice(1).filter(line => !wCalledOut.test(line))).join('\n');
};
const meOf = trace => (trace.people || []).find(p => p.me);
const setPlace = async (place, ready) => {
  try {
    await ask('POST', '/api/place', { place, ready });
    await fetchTrace();  // with a helper the step is another one
    draw();
  } catch (e) { if (e.offline) online(false); say(e.message, true); }
};

/** Sends what was tapped, once; the next step comes with the answer. */
const answerStep = (word, more) => {
  const step = S.trace.step;
  if (Queue.of(TRACE).length) return;
  S.saidStep = step.step;
  Queue.add(TRACE, { do: 'answer', answer: word, step: step.step, ...more }, wAnswers[word],
    answer => {
      if (answer.answer && answer.answer.type === 'error') { say(wRefused + answer.answer.message, true); return; }
      nextStep(answer);
      say(wAnswered(wAnswers[word], step.point ? step.point.name : ''), false, sentences(textFor(meOf(S.trace), S.trace.step))[0].textContent);
    }, refused => { S.saidStep = 0; say(wRefused + refused.message, true); refresh(); });
  draw();
};
const nextStep = answer => {
  if (!answer.answer || answer.answer.type !== 'step') return;
  const moved = isMove(S.trace.step), people = S.trace.people.map(p => (moved && p.place === 'rooms' ? { ...p, ready: false } : p));  // as the server does
  takeTrace({ ...S.trace, people, step: answer.answer });
  draw();
};
/** A request that is no answer to the step. */
const traceDo = async (body, said) => {
  try {
    const answer = await ask('POST', TRACE, { ...body, key: newKey() });
    const got = answer.answer || {};
    if (got.type === 'error') { say(wRefused + got.message, true); return null; }
    if (said) say(typeof said === 'function' ? said(got) : said);
    if (got.type === 'step') { S.saidStep = S.trace.step.step; S.asking = null; await fetchTrace(); }
    draw();
    return got;
  } catch (e) {
    if (e.offline) online(false);
    say(e.message, true);
    return null;
  }
};

const plateOf = handle => {
  const known = S.view && S.view.handles.find(h => h.ref === handle.ref);
  const panel = known && S.view.panels.length > 1 && S.view.panels.find(p => p.cells.some(c => S.view.handles[c.handle] === known));
  return el('div.handleplate', el('b.num', known ? known.short : handle.name), panel ? el('span.small', panel.name) : null);
};
const offList = step => step.off && step.off.length ? el('p.offnow', el('b', wOffNow + ': '), step.off.map(h => h.name).join(', ')) : null;
const progressOf = p => el('div.progress', el('progress', { max: p.total || 1, value: p.settled, 'aria-label': wLeft(p.settled, p.total, 0) }), el('span', wLeft(p.settled, p.total, p.minutes_left)));

/** What the person is to read: the caution, the handles, the question. */
const stepBody = (step, me) => {
  const body = sentences(me ? textFor(me, step) : step.text), moves = isMove(step);
  if (body[0]) body[0].className = 'ask';
  return [el('p.over', wKindsOfStep[step.kind] || step.kind), moves && step.handles.length ? el('div.plates', { 'aria-hidden': 'true' }, step.handles.map(plateOf)) : null,
    el('div', { class: 'steptext ' + step.kind, id: 'step', tabindex: '-1' }, body)];
};
const answerButtons = step => {
  const known = step.answers || [], waiting = Queue.of(TRACE);
  if (!known.length) return null;
  if (waiting.length && S.offline) return el('p.bar.kept', { role: 'status' }, wWaits(waiting[0].said));
  const one = word => bigButton('answer ' + word, 'a-' + word, () => (word === 'skip' && step.handles.length > 1 ? openAsk('skip') : answerStep(word)),
    wAnswers[word] || word, word === 'skip' ? wSkipHint[step.kind] : wAnswersHint[word], { 'aria-disabled': waiting.length ? 'true' : null });
  const big = known.filter(w => w === 'done' || w === 'dead' || w === 'live'), rest = known.filter(w => !big.includes(w));
  return el('div.bar.answers', { role: 'group', 'aria-label': wKindsOfStep[step.kind] }, el('div.bigs', big.map(one)), rest.length ? el('div.bigs', rest.map(one)) : null);
};
const openAsk = what => { S.asking = what; S.told = null; byId('view').scrollTop = 0; draw(); const to = byId('asking'); if (to) to.focus(); };

// ---- two people ----

const partners = (me, trace = S.trace) => (trace.people || []).filter(p => !p.me && p.place !== 'away' && p.place !== 'both' && p.place !== me.place);
const nameOf = (me, other) => (other && other.name && other.name !== wAnyone ? `${other.name}, ${wPlaces[other.place]}` : wSomebody[me.place === 'panel' ? 'rooms' : 'panel']);
const readyRow = (me, other) => el('div.readies',
  el('p', { class: 'other ' + (other && other.ready ? 'yes' : 'no') }, other ? (other.ready ? wIsReady : wIsNotReady)(nameOf(me, other)) : wNoPartner(me.place)));
const readyButton = me => el('div.bar', bigButton('answer ready ' + (me.ready ? 'yes' : ''), 'ready', () => setPlace(me.place, !me.ready), wReady, me.place === 'panel' ? wReadyPanel : wReadyHelp, { 'aria-pressed': String(!!me.ready) }));

const pairStep = (me, step) => {
  const other = partners(me)[0], name = nameOf(me, other), body = stepBody(step, me), row = readyRow(me, other);
  const quiet = title => el('div.quiet', el('p.waitfor', title), body), card = (...all) => el('div.card', ...all);
  const mine = me.ready ? button(wNotReady, () => setPlace(me.place, false), { id: 'notready' }) : readyButton(me);
  if (step.kind === 'done') return card(body);
  if (canAct(S.trace)) return [card(body, isMove(step) || !other ? row : null), answerButtons(step)];
  if (!isMove(step)) return [card(el('p.waitfor', wHandsOff), offList(step), quiet(other ? wLooksNow(name) : wNextIs), other ? null : row), mine];
  if (me.place === 'panel') return [card(row, el('p.waitfor', other ? wWaitReady(name) : ''), quiet(wNextIs)), mine];
  return me.ready ? card(el('p.waitfor', wWaitOther(name)), quiet(wMovesNow(name)), row, mine) : [card(quiet(wNextIs), row), mine];
};

const placeChoice = step => [el('h1', wWhereAreYou), step.off && step.off.length ? [offList(step), el('p', wOffSince)] : null, el('div.stack',
  [['both', wAlone], ['rooms', wInRooms], ['panel', wAtPanel]].map(([place, text]) => button(text, () => { S.placing = false; setPlace(place, place === 'panel'); }, { id: 'pl-' + place, class: 'answer' }))),
el('p.hint', wNoHurry)];

// ---- what else can be told ----

const pickHandle = () => S.view ? S.view.handles.filter(h => /^breaker/.test(h.ref)) : [];
const roomsKnown = () => (S.view ? S.view.rooms : []);
const roomOfStep = step => { const p = step.point && S.view && S.view.points.find(x => x.id === step.point.id); return p ? S.view.rooms[p.room].id : roomsKnown().length ? S.lastRoom || roomsKnown()[0].id : ''; };
const floorsKnown = () => (S.view ? S.view.floors : []);
const checkbox = (id, name, cls, run) => { const box = el('input', { type: 'checkbox', id, on: { change: () => run(box.checked) } }); return [box, el('label', { for: id, class: cls }, box, ' ' + name)]; };
/** The rooms of a floor to be checked, and the floor itself, which checks them all. */
const roomChecks = (floor, at, chosen) => {
  const rooms = floor.rooms.map(i => {
    const [box, label] = checkbox('mr-' + i, roomsKnown()[i].name, 'of', on => { S.typed['mr-' + i] = on; told(); }), kept = S.typed['mr-' + i];
    box.checked = kept === undefined ? chosen.includes(roomsKnown()[i].id) : kept;
    return [box, label, i];
  });
  const [all, head] = checkbox('mf-' + at, wAllOf(floor.name), 'floor', on => rooms.forEach(([box, , i]) => { box.checked = S.typed['mr-' + i] = on; }));
  const told = () => { all.checked = rooms.every(([box]) => box.checked); };
  told();
  return rooms.length ? [head, rooms.map(([, label]) => label)] : null;
};
const openManner = async () => { const m = await traceDo({ do: 'manner' }); if (m) { S.trace.manner = m; openAsk('manner'); } };
const openRooms = async () => { await openManner(); const to = byId('m-rooms'); if (to) to.scrollIntoView(); };
const ASKING = {
  skip: step => [el('h1', wWhichSkip), step.handles.map(h => button(h.name, () => { S.asking = null; answerStep('skip', { handle: h.ref }); }, { class: 'answer' }))],
  found: step => [el('h1', wFoundIt), field(wRoom, 'f-room', { options: roomsKnown().map(r => [r.id, r.name]), value: roomOfStep(step) }), field(wWhatFound, 'f-kind', { options: Object.entries(wKinds) }), field(wNameIt, 'f-name'), field(wPlaceIt, 'f-place'),
    button(wAddIt, async () => {
      const body = { do: 'found', room: typed('f-room'), kind: typed('f-kind') };
      if (typed('f-name')) body.name = typed('f-name');
      if (typed('f-place')) body.place = typed('f-place');
      if (await traceDo(body, wAdded(body.name || wKinds[body.kind]))) { forget('f-name', 'f-place'); S.asking = null; S.stale = true; draw(); }
    }, { class: 'answer' })],
  stays: () => [el('h1', wStaysOff), field(wWhichBreaker, 's-breaker', { options: pickHandle().map(h => [h.ref.slice(8), h.name]) }),
    button(wSave, () => traceDo({ do: 'stays_off', breaker: typed('s-breaker') }, wWasSkip), { class: 'answer' })],
  wrong: () => [el('h1', wWrongLook), !S.told ? el('p.wait', wLoading) : !S.told.looks.length ? el('p', wNoLooks)
    : [el('p', wWrongHelp), list(S.told.looks.slice(0, 60), look => button(look.text, () => traceDo({ do: 'withdraw', observation: look.observation }, wTakenBack), { class: 'wide' }), { class: 'plain' })]],
  manner: () => {
    const m = S.trace.manner || {}, options = [[1, '1'], [2, '2'], [3, '3'], [4, '4'], [6, '6'], ['any', wAny]];
    return [el('h1', wManner), m.text ? el('p', m.text) : null, field(wAtOnce, 'm-once', { options, value: String(m.at_once || 1) }), field(wLamps, 'm-lamps', { type: 'number', min: 0, max: 50, inputmode: 'numeric', value: String(m.lamps || 0) }),
      field(wMethod, 'm-method', { options: Object.entries(wMethods), value: m.method }), field(wOnlyPlan, 'm-plan', { options: Object.entries(wOnlyPlans), value: m.only_plan ? 'yes' : 'no' }),
      el('fieldset.checks', { id: 'm-rooms' }, el('legend', wRooms), floorsKnown().map((floor, at) => roomChecks(floor, at, m.rooms || []))),
      button(wSave, async () => {
        const once = typed('m-once'), body = { do: 'manner', at_once: once === 'any' ? 'any' : Number(once), lamps: Number(typed('m-lamps')) || 0, only_plan: typed('m-plan') === 'yes', method: typed('m-method'),
          rooms: roomsKnown().filter((r, i) => byId('mr-' + i).checked).map(r => r.id) };
        if (await traceDo(body, wSavedNow)) { forget('m-once', 'm-lamps', 'm-plan', 'm-method', ...roomsKnown().map((r, i) => 'mr-' + i)); S.asking = null; draw(); }
      }, { class: 'answer done save' })];
  },
  stop: step => [el('h1', wStop), el('p', wStopHelp), step.off && step.off.length ? [offList(step), el('p', wStopOff)] : el('p', wStopOn),
    button(wStopNow, () => { S.asking = null; setPlace('away', false); }, { class: 'answer', id: 'stopnow' })],
  summary: () => [el('h1', wSummary), S.told ? el('div.summary', sentences(S.told.text)) : el('p.wait', wLoading)],
};
const openTold = async (what, body) => {
  openAsk(what);
  S.told = await traceDo(body);
  draw();
};

/** Where only some rooms were asked about, which: 'nothing left' is said of them. */
const onlyRooms = manner => (manner && manner.rooms && manner.rooms.length && S.view ? el('p', wOnlyRooms(S.view.rooms.filter(r => manner.rooms.includes(r.id)).map(r => r.name).join(', '))) : null);

function viewTrace() {
  const trace = S.trace;
  if (!trace) return [el('h1', wTitles.trace), el('p.wait', wLoading)];
  const me = meOf(trace), step = trace.step;
  if (!me || me.place === 'away' || S.placing) return placeChoice(step);
  if (!S.view && !viewTrace.asked) { viewTrace.asked = true; fetchHouse().then(draw); }
  if (S.asking && ASKING[S.asking]) {
    const asked = ASKING[S.asking](step).flat(9).filter(Boolean), save = asked.find(node => node.matches('.save'));
    const cancel = button(wCancel, () => { S.asking = null; draw(); }, { id: 'cancel' });
    return [el('div.asking', { id: 'asking', tabindex: '-1' }, asked.filter(node => node !== save), save ? null : cancel), save ? el('div.bar', cancel, el('div.grow', save)) : null];
  }
  const alone = me.place === 'both', atStart = step.kind === 'caution' && step.reason === 'start', asks = [
    ['found', wFoundIt, () => openAsk('found')], ['stays', wStaysOff, () => openAsk('stays')], ['wrong', wWrongLook, () => openTold('wrong', { do: 'looks' })],
    ['stop', wStop, () => openAsk('stop')], ['manner', wManner, openManner], ['retry', wRetry, () => traceDo({ do: 'retry_skipped' }, wRecorded)], ['summary', wSummary, () => openTold('summary', { do: 'summary' })]];
  return [el('h1.unseen', wTitles.trace),
    el('div.topline', el('span.grow', wPlaces[me.place]), button(wChange, () => { S.placing = true; draw(); }, { id: 'place' })),
    progressOf(step.progress),
    alone ? [el('div.card', stepBody(step)), answerButtons(step)] : pairStep(me, step),
    alone && !/Off now/.test(step.text) ? offList(step) : null,
    step.kind === 'done' ? el('div.stack', onlyRooms(trace.manner), button(wMoreRooms, openRooms, { id: 'morerooms' }), link('panel', wSeeResult)) : null,
    atStart ? el('div.under', button(wChooseRooms, openRooms, { id: 'chooserooms' })) : el('div.under', button(wUndo, () => traceDo({ do: 'undo' }, wUndone), { id: 'undo' }),
      step.answers.length ? button(wWhy, async () => { const got = await traceDo({ do: 'why' }); if (got) { S.whyOf = step.step; S.whyText = got.text; draw(); } }, { id: 'askwhy' }) : null),
    S.whyOf === step.step ? el('p', { id: 'why', role: 'status' }, S.whyText) : null,
    folded(wMore, 'tracemore', () => el('div.stack', asks.map(([id, text, run]) => button(text, run, { id: 'm-' + id, class: 'wide' }))))];
}
