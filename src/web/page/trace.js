// Tracing with the phone in hand: one thing at a time, alone or by two.

const TRACE = '/api/trace';

/** Replies may overtake one another: what was asked for before the last that was taken is old. */
let lastAsked = 0, lastTaken = 0;
const fetchTrace = async () => {
  const no = ++lastAsked, trace = await ask(TRACE);
  if (no > lastTaken) { lastTaken = no; takeTrace(trace); }
};
const takeTrace = trace => {
  const was = $trace, me = meOf(trace), { step } = trace, old = was ? was.step.step : step.step, could = was && canAct(was);
  $trace = trace;
  if (old === step.step && could === canAct(trace)) return;
  if (old !== step.step) {
    if ($asking === 'skip') $asking = null;
    $open.delete('tracemore');
    toTop();
  }
  if (!was || !me || $saidStep === old) return;
  if (canAct(trace)) {  // it is this person's turn: told, and felt in the hand
    say(wYourTurn, false, askedOf(me, step));
    if (navigator.vibrate) navigator.vibrate(120);
  } else if (old !== step.step) say(wElsewhere);
};
const askedOf = (me, step) => sentences(textFor(me, step))[0].textContent;
const isMove = step => step.kind === 'open' || step.kind === 'close';
/** May this person do something now? */
const canAct = trace => {
  const me = meOf(trace), { step } = trace;
  return me && step.answers.length && (me.place === 'both' || isStart(step) || (isMove(step) ? me.place === 'panel' && partners(me, trace).some(p => p.ready) : me.place === 'rooms'));
};
const isStart = step => step.kind === 'caution' && step.reason === 'start';
/** The step in the words for this person: what the helper is called to do is told to the helper as a thing to do. */
const textFor = (me, step) => {
  if (!step.by_helper || me.place === 'both') return step.text;
  return [wTurn(step.handles.length > 1 ? wThese(step.handles.length) : step.handles[0].name, step.kind === 'open', me.place === 'panel')]
    .concat(step.text.split('\n').slice(1).filter(line => !wCalledOut.test(line))).join('\n');
};
const meOf = trace => (trace.people || []).find(p => p.me);
const setPlace = async (place, ready) => {
  try {
    await own(async () => { await ask('/api/place', { place, ready }); await fetchTrace(); });  // with a helper the step is another one
    draw();
  } catch (e) { tellFailed(e); }
};
/** What this person does here is not told as if others had answered. */
const own = async run => {
  const before = $saidStep;
  $saidStep = $trace.step.step;
  try { return await run(); } finally { $saidStep = before; }
};

/** Sends what was tapped, once; the next step comes with the answer. */
const answerStep = (word, more) => {
  const { step } = $trace;
  if (queuedFor(TRACE).length) return;
  $saidStep = step.step;
  send(TRACE, { do: 'answer', answer: word, step: step.step, ...more }, wAnswers[word], ({ answer }) => {
    if (answer.type === 'error') { tellRefused(answer); return; }
    nextStep(answer);
    say(wAnswered(wAnswers[word], step.point && step.point.name), false, askedOf(meOf($trace), $trace.step));
  }, refused => { $saidStep = 0; tellRefused(refused); refresh(); });
  draw();
};
const nextStep = answer => {
  if (answer.type !== 'step') return;
  const moved = isMove($trace.step), people = $trace.people.map(p => (moved && p.place === 'rooms' ? { ...p, ready: false } : p));  // as the server does
  lastTaken = ++lastAsked;
  takeTrace({ ...$trace, people, step: answer });
  draw();
};
/** A request that is no answer to the step. */
const traceDo = async (body, said) => {
  try {
    const got = await own(async () => {
      const { answer } = await ask(TRACE, { ...body, key: newKey() });
      if (answer.type === 'step') { $asking = null; await fetchTrace(); }
      return answer;
    });
    if (got.type === 'error') { tellRefused(got); return null; }
    if (said) say(said);
    draw();
    return got;
  } catch (e) { tellFailed(e); return null; }
};

const plateOf = ({ ref, name }) => {
  const { handles, panels } = $view || { handles: [], panels: [] }, known = handles.find(h => h.ref === ref), panel = panels.length > 1 && panels.find(p => p.cells.some(c => handles[c.handle] === known));
  return el('.handleplate', el('b.num', known ? known.short : name), panel && known && small(panel.name));
};
const offList = ({ off }) => off && off.length && el('p.offnow', el('b', wOffNow + ': '), off.map(h => h.name).join(', '));
const progressOf = ({ settled, total, minutes_left }) => el('.progress', el('progress', { max: total || 1, value: settled, [LABEL]: wLeft(settled, total) }), el('span', wLeft(settled, total, minutes_left)));

/** What the person is to read: the caution, the handles, the question. */
const stepBody = (step, me) => {
  const body = sentences(me ? textFor(me, step) : step.text);
  if (body[0]) body[0].className = 'ask';
  return [over(wKindsOfStep[step.kind]), isMove(step) && step.handles.length && el('.plates', { 'aria-hidden': 'true' }, step.handles.map(plateOf)),
    el('#step.steptext.' + step.kind, { tabindex: '-1' }, body)];
};
const waitsNote = waiting => el('p.bar.kept', TOLD, wWaits(waiting[0].said));
const answerButtons = step => {
  const known = step.answers, waiting = queuedFor(TRACE), isBig = word => ['done', 'dead', 'live'].includes(word);
  if (!known.length) return null;
  if (waiting.length && $offline) return waitsNote(waiting);
  const one = word => bigButton(`#a-${word}.answer.${word}`, () => (word === 'skip' && step.handles.length > 1 ? openAsk('skip') : answerStep(word)),
    wAnswers[word], word === 'skip' ? wSkipHint[step.kind] : wAnswersHint[word], { 'aria-disabled': waiting.length > 0 && 'true' });
  return el('.bar.answers', { role: 'group', [LABEL]: wKindsOfStep[step.kind] }, [known.filter(isBig), known.filter(word => !isBig(word))].map(some => some.length && el('.bigs', some.map(one))));
};
const openAsk = what => { $asking = what; $told = null; toTop(); draw(); const to = byId('asking'); if (to) to.focus(); };
const closeAsk = () => { $asking = null; draw(); };

// ---- two people ----

const partners = (me, trace = $trace) => trace.people.filter(p => !p.me && ['panel', 'rooms'].includes(p.place) && p.place !== me.place);
const nameOf = (me, other) => (other && other.name && other.name !== wAnyone ? `${other.name}, ${wPlaces[other.place]}` : wSomebody[me.place === 'panel' ? 'rooms' : 'panel']);
const readyRow = (me, other) => el('.readies', el('p.other' + (other && other.ready ? '.yes' : ''), other ? (other.ready ? wIsReady : wIsNotReady)(nameOf(me, other)) : wNoPartner[me.place]));

const pairStep = (me, step) => {
  const other = partners(me)[0], name = nameOf(me, other), body = stepBody(step, me), row = readyRow(me, other), { place, ready } = me;
  const say = text => el('p.waitfor', text), quiet = title => el('.quiet', say(title), body), card = (...all) => el('.card', ...all);
  const toggle = () => setPlace(place, !ready);
  const own = ready ? button(wNotReady[place], toggle, '#notready') : el('.bar', bigButton('#ready.answer.ready', toggle, wReady, wReadyHelp[place]));
  if (step.kind === 'done') return card(body);
  if (canAct($trace)) return [card(body, (isMove(step) || !other) && row), answerButtons(step)];
  if (!isMove(step)) return [card(say(wHandsOff), offList(step), quiet(other ? wLooksNow(name) : wNextIs), !other && row), own];
  if (place === 'panel') return [card(row, other && say(wWaitReady(name)), quiet(wNextIs)), own];
  return ready ? card(say(wWaitOther(name)), quiet(wMovesNow(name)), row, own) : [card(quiet(wNextIs), row), own];
};

const isOff = step => step.off && step.off.length > 0;
const placeChoice = step => [heading(wWhereAreYou), isOff(step) && [offList(step), paragraph(wOffSince)], el('.stack',
  entries(wPlacesToBe).map(([place, text]) => button(text, () => { $placing = false; setPlace(place, place === 'panel'); }, `#pl-${place}.answer`))), hint(wNoHurry)];

// ---- what else can be told ----

const roomsKnown = () => ($view ? $view.rooms : []);
const roomOfStep = ({ point }) => { const p = point && $view && $view.points.find(x => x.id === point.id), room = p ? roomAt(p.room) : roomsKnown()[0]; return room && room.id; };
const checkbox = (id, name, cls, checked, run) => { const box = el('input', { type: 'checkbox', id, checked, change: () => run(box.checked) }); return [box, el('label.' + cls, { for: id }, box, ' ' + name)]; };
/** The rooms of a floor to be checked, and the floor itself, which checks them all. */
const roomChecks = (floor, at, chosen) => {
  const rooms = floor.rooms.map(i => {
    const id = 'mr-' + i, was = $typed[id], { name, id: room } = roomAt(i);
    return checkbox(id, name, 'of', was === undefined ? chosen.includes(room) : was, on => { $typed[id] = on; told(); });
  });
  const [all, head] = checkbox('mf-' + at, wAllOf(floor.name), 'floor', false, on => rooms.forEach(([box]) => { box.checked = $typed[box.id] = on; }));
  const told = () => { all.checked = rooms.every(([box]) => box.checked); };
  told();
  return rooms.length && [head, rooms.map(([, label]) => label)];
};
const openManner = async () => { const m = await traceDo({ do: 'manner' }); if (m) { $trace.manner = m; openAsk('manner'); } };
const openRooms = async () => { await openManner(); const to = byId('m-rooms'); if (to) to.scrollIntoView(); };
const saveManner = async () => {
  const once = typed('m-once'), rooms = roomsKnown().filter((r, i) => byId('mr-' + i).checked).map(r => r.id);
  const done = await traceDo({ do: 'manner', at_once: once === 'any' ? once : Number(once), lamps: Number(typed('m-lamps')), only_plan: typed('m-plan') === 'yes', method: typed('m-method'), rooms }, wSavedNow);
  if (done) { forget('m-once', 'm-lamps', 'm-plan', 'm-method', ...roomsKnown().map((r, i) => 'mr-' + i)); closeAsk(); }
};
const saveFound = async () => {
  const body = { do: 'found', room: typed('f-room'), kind: typed('f-kind') }, name = typed('f-name'), place = typed('f-place');
  if (name) body.name = name;
  if (place) body.place = place;
  if (await traceDo(body, wAdded(name || wKinds[body.kind]))) { forget('f-name', 'f-place'); $stale = true; closeAsk(); }
};
const same = words => words.map(word => [word, word]);
const breakers = () => ($view ? $view.handles.filter(h => /^breaker/.test(h.ref)) : []);
const ASKING = {
  skip: step => bare(wWhichSkip, step.handles.map(h => button(h.name, () => { $asking = null; answerStep('skip', { handle: h.ref }); }, '.answer'))),
  found: step => bare(wFoundIt, field(wRoom, 'f-room', { options: roomsKnown().map(r => [r.id, r.name]), value: roomOfStep(step) }), field(wWhatFound, 'f-kind', { options: entries(wKinds) }), field(wNameIt, 'f-name'), field(wPlaceIt, 'f-place'),
    button(wAddIt, saveFound, '.answer')),
  stays: () => bare(wStaysOff, field(wWhichBreaker, 's-breaker', { options: breakers().map(h => [h.ref.slice(8), h.name]) }),
    button(wSave, () => traceDo({ do: 'stays_off', breaker: typed('s-breaker') }, wWasSkip), '.answer')),
  wrong: () => !$told ? waiting(wWrongLook) : bare(wWrongLook, !$told.looks.length ? paragraph(wNoLooks)
    : [paragraph(wWrongHelp), list($told.looks.slice(0, 60), look => button(look.text, () => traceDo({ do: 'withdraw', observation: look.observation }, wTakenBack), '.wide'), '.plain')]),
  manner: () => {
    const { text, at_once, lamps, method, only_plan, rooms = [] } = $trace.manner || {};
    return bare(wManner, text && paragraph(text), field(wAtOnce, 'm-once', { options: [...same([1, 2, 3, 4, 6]), ['any', wAny]], value: at_once || 1 }), field(wLamps, 'm-lamps', { type: 'number', min: 0, max: 50, inputmode: 'numeric', value: lamps || 0 }),
      field(wMethod, 'm-method', { options: entries(wMethods), value: method }), field(wOnlyPlan, 'm-plan', { options: entries(wOnlyPlans), value: only_plan ? 'yes' : 'no' }),
      el('fieldset#m-rooms.checks', el('legend', wRooms), ($view ? $view.floors : []).map((floor, at) => roomChecks(floor, at, rooms))),
      button(wSave, saveManner, '.answer.done.save'));
  },
  stop: step => bare(wStop, paragraph(wStopHelp), isOff(step) ? [offList(step), paragraph(wStopOff)] : paragraph(wStopOn),
    button(wStopNow, () => { $asking = null; setPlace('away', false); }, '#stopnow.answer')),
  summary: () => $told ? bare(wSummary, el('.summary', sentences($told.text))) : waiting(wSummary),
};
const openTold = async what => {
  openAsk(what);
  $told = await traceDo({ do: what === 'wrong' ? 'looks' : what });
  draw();
};

/** Where only some rooms were asked about, which: 'nothing left' is said of them. */
const onlyRooms = manner => manner && manner.rooms && manner.rooms.length && $view && paragraph(wOnlyRooms($view.rooms.filter(r => manner.rooms.includes(r.id)).map(r => r.name).join(', ')));
const askWhy = async () => { const { step } = $trace, got = await traceDo({ do: 'why' }); if (got) { $whyOf = step.step; $whyText = got.text; draw(); } };
const askingPage = step => {
  const asked = ASKING[$asking](step).flat(9).filter(isThere), save = asked.find(node => node.matches('.save')), cancel = button(wCancel, closeAsk, '#cancel');
  return [el('#asking.asking', { tabindex: '-1' }, asked.filter(node => node !== save), !save && cancel), save && el('.bar', cancel, el('.grow', save))];
};

function viewTrace() {
  if (!$trace) return waiting(wTitles.trace);
  const me = meOf($trace), { step, manner } = $trace;
  if (!me || me.place === 'away' || $placing) return placeChoice(step);
  if (!$view && !viewTrace.asked) { viewTrace.asked = true; fetchHouse().then(draw); }
  if (ASKING[$asking]) return askingPage(step);
  const alone = me.place === 'both', asks = [['found', wFoundIt], ['stays', wStaysOff], ['wrong', wWrongLook, openTold], ['stop', wStop], ['manner', wManner, openManner],
    ['retry', wRetry, () => traceDo({ do: 'retry_skipped' }, wRecorded)], ['summary', wSummary, openTold]];
  return [el('h1.unseen', wTitles.trace),
    el('.topline', grow(wPlaces[me.place]), button(wChange, () => { $placing = true; draw(); }, '#place')),
    progressOf(step.progress),
    alone ? [el('.card', stepBody(step)), answerButtons(step), !/Off now/.test(step.text) && offList(step)] : pairStep(me, step),
    step.kind === 'done' && el('.stack', onlyRooms(manner), button(wMoreRooms, openRooms, '#morerooms'), link('panel', wSeeResult)),
    el('.under', isStart(step) ? button(wChooseRooms, openRooms, '#chooserooms') : [button(wUndo, () => traceDo({ do: 'undo' }, wUndone), '#undo'), step.answers.length && button(wWhy, askWhy, '#askwhy')]),
    $whyOf === step.step && el('p#why', TOLD, $whyText),
    folded(wMore, 'tracemore', () => el('.stack', asks.map(([id, text, run = openAsk]) => button(text, () => run(id), `#m-${id}.wide`))))];
}
