// The outage board, and the plan as a picture of its legs.

const OUTAGE = '/api/outage';
/** Where several could carry the house, one is asked about: the first, until somebody says otherwise. */
const spareSources = () => ($view ? $view.sources.slice(1) : []);
const fetchOutage = async () => {
  if (!$view) await fetchHouse();
  if (!$source && spareSources().length > 1) $source = spareSources()[0].id;
  takeOutage(await ask(`${OUTAGE}?source=${$source}`));
};
const stepOf = board => board.lines.slice(board.step_at);
/** A new step is seen from its top, so that nobody taps DONE below a step that is out of sight; who is typing stays where they are. */
const takeOutage = board => {
  const text = of => JSON.stringify(stepOf(of));
  if ($outage && route()[0] === 'outage' && focused().tagName !== 'INPUT' && text($outage) !== text(board)) toTop();
  $outage = board;
};

const tellOutage = (body, said) => {
  send(OUTAGE, { ...body, source: $source }, said, answer => { $open.delete('happened'); $open.delete('did'); takeOutage(answer); say(wRecorded); draw(); }, refused => { tellRefused(refused); refresh(); });
  draw();
};
const tellEvent = (what, thing, at) => tellOutage({ do: 'tell', what, ...(thing && { thing }), ...(at && { at }) }, wEvents[what] || thing || what);
/** Asks again before what cannot be meant by a slip of the thumb. */
const sure = (text, run, id) => $asking === id
  ? el('.bigs', button(wSure(text), () => { $asking = null; run(); }, `#${id}-yes.answer`), button(wCancel, closeAsk, `#${id}-no`))
  : button(text, () => { $asking = id; draw(); const yes = byId(id + '-yes'); if (yes) yes.focus(); }, `#${id}.wide`);

const outageAnswers = ({ step, revision }) => {
  const waiting = queuedFor(OUTAGE), words = wOutageBy[step.kind] || [];
  if (waiting.length && $offline) return waitsNote(waiting);
  const one = answer => {
    const text = words[['done', 'no', 'no_effect'].indexOf(answer)] || wOutageAnswers[answer];
    return bigButton(`#o-${answer}.answer.${answer}`, () => waiting.length || tellOutage({ do: 'answer', answer, after: revision }, text), text, '', { 'aria-disabled': waiting.length > 0 && 'true' });
  };
  return el('.bar.answers', [step.answers.slice(0, 1), step.answers.slice(1)].map(some => el('.bigs', some.map(one))));
};
const fields = (...all) => all.map(([id, label, placeholder]) => field(label, id, { placeholder }));
const askMay = async () => {
  const thing = typed('may-thing');
  if (!thing) return;
  try { $may = (await ask(`/api/may?thing=${encode(thing)}&at=${encode(typed('may-at'))}`)).lines; } catch (e) { $may = [{ kind: 'caution', text: e.message }]; }
  draw();
  say('', false, $may[0].text);
};
const tellField = (what, title, props) => {
  const id = 'ev-' + what;
  return form(() => {
    const text = typed(id);
    if (text) { forget(id); tellEvent(what, text); }
  }, field(title, id, props), sendButton(`#${id}go`, wTell));
};
const tellDid = way => {
  const thing = typed('did-thing'), at = typed('did-at');
  if (thing) { forget('did-thing', 'did-at'); tellEvent(way, thing, at); }
};
const didForm = () => [fields(['did-thing', wWhat2, wMayHint], ['did-at', wWhere2, wAtHint]),
  el('.bigs', ['on', 'off'].map(way => button(wDidIt[way], () => tellDid(way), `#did-${way}.answer`))), tellField('moved', wMovedHandle, { placeholder: wMovedHint })];

const wallSheet = ({ outage, cautions }) => bare(wTitles.outage, paragraph(link('plan', wPlanLink)), outage ? el('.sheet', over(wInFileOutage), lines(outage.lines)) : paragraph(wNoSource), cautions.map(caution));
const drawnFigures = ({ drawn_watts, limit_watts, fuel }) => {
  const text = wOfLimit(drawn_watts, limit_watts);
  return el('.figures', paragraph(text), el('meter', { min: 0, max: limit_watts || 1, value: drawn_watts, [LABEL]: text }), fuel && fuel.hours_high > 0 && paragraph(wFuelLeft(fuel.hours_low.toFixed(1), fuel.hours_high.toFixed(1))));
};
function viewOutage() {
  if (!$served) return wallSheet($view);
  const pick = spareSources().length > 1 && choice(wSource, 'source', spareSources().map(s => [s.id, s.name]), $source, id => { $source = id; refresh(); });
  if (!$outage) return [waiting(wTitles.outage), pick];
  const board = $outage, status = board.lines.slice(0, board.step_at), able = may('trace'), none = board.phase === 'none', isAsked = line => line.kind === 'answer';
  const step = stepOf(board), asked = lines(step.filter(isAsked).slice(0, 1)), rest = lines(step.filter(line => line !== step.find(isAsked)));  // what to do stands first
  asked.forEach(line => line.classList.add('ask'));
  const answers = board.step.answers.length > 0;
  return [el(none ? 'h1' : 'h1.unseen', wTitles.outage),
    none && pick,
    none && able && sure(wStartOutage, () => tellEvent('gone'), 'ev-gone'),
    lines(status.filter(isDanger)),
    el('.card', over(wNow), el('#step.steptext', asked, rest), !able && answers && hint(wOnlyLook)), able && answers && outageAnswers(board),
    !none && [drawnFigures(board), section(wStatus, lines(status.filter(line => !isDanger(line))))],
    section(wMay, form(askMay, fields(['may-thing', wWhat2, wMayHint], ['may-at', wWhere2, wAtHint]), sendButton('#mayask.wide', wAsk), $may && el('.plate', lines($may)))),
    able && !none && [folded(wDid, 'did', didForm),
      folded(wHappened, 'happened', () => [el('.stack', entries(wEvents).filter(([event]) => event !== 'gone').map(([event, text]) => sure(text, () => tellEvent(event), 'ev-' + event))),
        tellField('gives', wGives, { inputmode: 'numeric' }), tellField('note', wNote, { maxlength: 500 })]),
      board.log && board.log.length && folded(wLog, 'log', () => lines(board.log)),
      el('.under', button(wUndo, () => tellOutage({ do: 'undo' }, wUndo), '#undo'))],
    paragraph(link('plan', wPlanLink)), sheetsLink()];
}

// ---- the plan ----

const legColumn = ({ leg, limit, running, start_extra, together, on_demand }) => {
  const total = max(limit, running + start_extra, 1), free = limit - running;
  const block = (watts, cls, ...text) => el('.block.' + cls, { style: { 'min-height': 28 * watts / total + 'rem' } }, text);
  return el('.leg', el('h2', /^\d+$/.test(leg) ? `${wLeg} ${leg}` : leg), less(wOfLimit(running, limit)),
    el('.blocks', free > 0 && block(free, 'free', small(wFree(free))), reversed(together).map(({ name, watts, half }) => block(watts, 'run', el('span', name + (half ? ' \u00bd' : '')), small(`${watts} W`)))),
    start_extra > 0 && less(wStartUp(start_extra)),
    on_demand.length && [el('h3', wOnDemand), list(on_demand, load => `${load.name}, ${load.watts} W`)]);
};
function viewPlan() {
  const { plan } = $view;
  return plan ? [backLink(), ...bare(wTitles.plan, el('.legs', plan.columns.map(legColumn)), lines(plan.lines))] : bare(wTitles.plan, paragraph(wNoPlan));
}
