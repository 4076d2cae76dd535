// The outage board, and the plan as a picture of its legs.

const OUTAGE = '/api/outage';
const fetchOutage = async () => { takeOutage(await ask('GET', OUTAGE)); };
const stepText = board => JSON.stringify(board.lines.slice(board.step_at));
/** A new step is seen from its top, so that nobody taps DONE below a step that is out of sight; who is typing stays where they are. */
const takeOutage = board => {
  const was = S.outage;
  S.outage = board;
  if (was && route()[0] === 'outage' && document.activeElement.tagName !== 'INPUT' && stepText(was) !== stepText(board)) byId('view').scrollTop = 0;
};

const tellOutage = (body, said) => {
  Queue.add(OUTAGE, body, said, answer => { S.open.delete('happened'); S.open.delete('did'); takeOutage(answer); say(wRecorded); draw(); }, refused => { say(wRefused + refused.message, true); refresh(); });
  draw();
};
const tellEvent = (what, thing, at) => {
  const body = { do: 'tell', what };
  if (thing) body.thing = thing;
  if (at) body.at = at;
  tellOutage(body, wEvents[what] || thing || what);
};
/** Asks again before what cannot be meant by a slip of the thumb. */
const sure = (text, run, id) => S.asking === id
  ? el('div.bigs', button(wSure(text), () => { S.asking = null; run(); }, { id: id + '-yes', class: 'answer' }), button(wCancel, () => { S.asking = null; draw(); }, { id: id + '-no' }))
  : button(text, () => { S.asking = id; draw(); const yes = byId(id + '-yes'); if (yes) yes.focus(); }, { id, class: 'wide' });

const outageAnswers = board => {
  const step = board.step, waiting = Queue.of(OUTAGE), order = ['done', 'no', 'no_effect'];
  if (waiting.length && S.offline) return el('p.bar.kept', { role: 'status' }, wWaits(waiting[0].said));
  const words = (wOutageBy[step.kind] || []), text = a => words[order.indexOf(a)] || wOutageAnswers[a];
  const one = a => bigButton('answer ' + a, 'o-' + a, () => waiting.length || tellOutage({ do: 'answer', answer: a, after: board.revision }, text(a)), text(a), '', { 'aria-disabled': waiting.length ? 'true' : null });
  return el('div.bar.answers', [step.answers.slice(0, 1), step.answers.slice(1)].map(some => el('div.bigs', some.map(one))));
};
const mayForm = () => form(async () => {
  const thing = typed('may-thing');
  if (!thing) return;
  try { S.may = await ask('GET', `/api/may?thing=${encodeURIComponent(thing)}&at=${encodeURIComponent(typed('may-at'))}`); } catch (e) { S.may = { lines: [{ kind: 'caution', text: e.message }] }; }
  draw();
  say('', false, S.may.lines[0].text);
}, field(wWhat2, 'may-thing', { placeholder: wMayHint }), field(wWhere2, 'may-at', { placeholder: wAtHint }), el('button.wide', { id: 'mayask' }, wAsk), S.may ? el('div.plate', lines(S.may.lines)) : null);
const tellField = (what, title, props) => form(() => {
  const id = 'ev-' + what, text = typed(id);
  if (text) { forget(id); tellEvent(what, text); }
}, field(title, 'ev-' + what, props), el('button', { id: `ev-${what}go` }, wTell));
const didForm = () => el('div', field(wWhat2, 'did-thing', { placeholder: wMayHint }), field(wWhere2, 'did-at', { placeholder: wAtHint }),
  el('div.bigs', ['on', 'off'].map(way => button(way === 'on' ? wDidOn : wDidOff, () => { if (typed('did-thing')) { tellEvent(way, typed('did-thing'), typed('did-at')); forget('did-thing', 'did-at'); draw(); } }, { id: 'did-' + way, class: 'answer' }))),
  tellField('moved', wMovedHandle, { placeholder: wMovedHint }));

function viewOutage() {
  if (!S.served) {
    const sheet = S.view.outage;
    return [el('h1', wTitles.outage), el('p', link('plan', wPlanLink)), sheet ? el('div.sheet', el('p.over', wInFileOutage), lines(sheet.lines)) : el('p', wNoSource), S.view.cautions.map(c => el('p.line.k-caution', c))];
  }
  const board = S.outage;
  if (!board) return [el('h1', wTitles.outage), el('p.wait', wLoading)];
  const status = board.lines.slice(0, board.step_at), able = may('trace'), none = board.phase === 'none', fuel = board.fuel && board.fuel.hours_high > 0 ? board.fuel : null;
  const stepLines = lines(board.lines.slice(board.step_at)), asked = stepLines.find(line => line.classList.contains('k-answer'));
  if (asked) { asked.classList.add('ask'); stepLines.splice(stepLines.indexOf(asked), 1); stepLines.unshift(asked); }  // what to do stands first
  return [el('h1', wTitles.outage),
    none && able ? sure(wStartOutage, () => tellEvent('gone'), 'ev-gone') : null,
    lines(status.filter(line => line.kind === 'danger')),
    el('div.card', el('p.over', wNow), el('div.steptext', { id: 'step' }, stepLines), !able && board.step.answers.length ? el('p.hint', wOnlyLook) : null), able && board.step.answers.length ? outageAnswers(board) : null,
    none ? null : el('div.figures', el('p', wDrawn(board.drawn_watts, board.limit_watts)), el('meter', { min: 0, max: board.limit_watts || 1, value: board.drawn_watts, 'aria-label': wDrawn(board.drawn_watts, board.limit_watts) }), fuel ? el('p', wFuelLeft(fuel.hours_low.toFixed(1), fuel.hours_high.toFixed(1))) : null),
    none ? null : section(wStatus, lines(status.filter(line => line.kind !== 'danger'))),
    section(wMay, mayForm()),
    !able || none ? null : [folded(wDid, 'did', didForm),
      folded(wHappened, 'happened', () => [el('div.stack', Object.entries(wEvents).filter(([e]) => e !== 'gone').map(([event, text]) => sure(text, () => tellEvent(event), 'ev-' + event))),
        tellField('gives', wGives, { inputmode: 'numeric' }),
        tellField('note', wNote, { maxlength: 500 })]),
      board.log && board.log.length ? folded(wLog, 'log', () => lines(board.log)) : null,
      el('div.under', button(wUndo, () => tellOutage({ do: 'undo' }, wUndo), { id: 'undo' }))],
    el('p', link('plan', wPlanLink)), sheetsLink()];
}

// ---- the plan ----

const legColumn = column => {
  const total = Math.max(column.limit, column.running + column.start_extra, 1);
  const block = (load, cls) => el('div', { class: 'block ' + cls, style: { 'min-height': 28 * load.watts / total + 'rem' } }, el('span', load.name + (load.half ? ' \u00bd' : '')), el('span.small', `${load.watts} W`));
  const free = column.limit - column.running;
  return el('div.leg', el('h2', String(column.leg).match(/^\d+$/) ? `${wLeg} ${column.leg}` : column.leg), el('p.small', wOfLimit(column.running, column.limit)),
    el('div.blocks', free > 0 ? el('div.block.free', { style: { 'min-height': 28 * free / total + 'rem' } }, el('span.small', wFree(free))) : null, column.together.slice().reverse().map(load => block(load, 'run'))),
    column.start_extra ? el('p.small', wStartUp(column.start_extra)) : null,
    column.on_demand.length ? [el('h3', wOnDemand), list(column.on_demand, load => `${load.name}, ${load.watts} W`)] : null);
};
function viewPlan() {
  const plan = S.view.plan;
  if (!plan) return [el('h1', wTitles.plan), el('p', wNoPlan)];
  return [backLink(), el('h1', wTitles.plan), el('div.legs', plan.columns.map(legColumn)), lines(plan.lines)];
}
