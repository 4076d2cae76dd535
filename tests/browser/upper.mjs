// Two people trace the upper floor of the sample house with two small phones, one at the panel and one in the rooms. At every moment each of
// the two phones says what to do or what is waited for, and what is to be tapped is on the screen.

import { Eyes } from './tools.mjs';

const kMostSteps = 200;

/** What a person sees without scrolling: big buttons and whether each is in view, and the sentence that says to wait. */
const seen = page => page.evaluate(() => {
  const shown = node => { const box = node.getBoundingClientRect(); return box.width > 0 && box.left >= 0 && box.right <= innerWidth && box.top >= 0 && box.bottom <= innerHeight; };
  const first = node => { const box = node.getBoundingClientRect(), line = parseFloat(getComputedStyle(node).lineHeight) || 24; return box.top >= 0 && box.top + line <= innerHeight; };
  const { kind, step } = ohmstead().trace.step;
  return { kind, step,
    answers: [...document.querySelectorAll('.answers button, #ready')].map(b => ({ id: b.id, shown: shown(b) })),
    waits: [...document.querySelectorAll('.waitfor')].map(w => first(w) && w.textContent).filter(Boolean),
    ready: !!document.querySelector('#notready'), ask: [...document.querySelectorAll('.ask')].map(a => first(a) && a.textContent).filter(Boolean) };
});

export async function scenario(t) {
  t.sample('home.house');
  const eyes = new Eyes(t.record('home.house')), server = await t.serve('home.house');
  const ann = await t.join(server, 'trace', 'Ann', { viewport: { width: 320, height: 568 }, colorScheme: 'dark' }), bo = await t.join(server, 'trace', 'Bo');
  for (const page of [ann, bo]) await page.click('#tab-trace');
  await ann.click('#pl-panel');
  await bo.click('#pl-rooms');
  await bo.click('#chooserooms');
  await bo.getByLabel('Upper: all of it', { exact: true }).check();
  await bo.selectOption('#m-once', '4');
  await t.picture(bo, 'rooms');
  await bo.click('button.save');
  await bo.waitForSelector('#a-done');

  const pictured = new Set();
  /** Both phones, once they show the same step, and what is on them is sound. */
  const both = async () => {
    for (let tries = 0; tries < 400; tries++) {
      const [a, b] = [await seen(ann), await seen(bo)];
      if (a.step === b.step) return [a, b];
      await bo.waitForTimeout(40);
    }
    throw new Error('the two phones show different steps');
  };
  const clear = async (page, who, is) => {
    const what = `${who}, ${is.kind}`;
    t.check(is.answers.length > 0 || is.waits.length > 0 || is.kind === 'done', `${what}: neither something to tap nor something to wait for is in view`);
    t.check(is.answers.every(a => a.shown), `${what}: not in view: ${is.answers.filter(a => !a.shown).map(a => a.id)}`);
    t.check(is.answers.length === 0 || is.ask.length > 0, `${what}: what is asked is not in view`);
    const name = `${who}-${is.kind}-${is.answers.length ? is.answers[0].id : 'waits'}`;
    if (!pictured.has(name)) { pictured.add(name); await t.picture(page, name); if (who === 'panel') await t.sound(page, name); }
  };

  let steps = 0, moves = 0, looks = 0;
  for (; steps < kMostSteps; steps++) {
    const [a, b] = await both(), step = await bo.evaluate(() => ohmstead().trace.step);
    await clear(ann, 'panel', a);
    await clear(bo, 'rooms', b);
    if (!step.answers.length) break;
    if (step.kind === 'open' || step.kind === 'close') {
      await bo.click('#ready');
      await ann.waitForSelector('#a-done');
      await clear(ann, 'panel', await seen(ann));
      await bo.waitForSelector('.waitfor');
      await clear(bo, 'rooms', await seen(bo));
      await ann.click('#a-done');
      moves++;
    } else {
      const live = step.answers.includes('dead') && eyes.live((step.point || {}).id, step.off.map(h => h.ref), step.kind === 'ask_dead');
      await bo.click(step.answers.includes('dead') ? (live ? '#a-live' : '#a-dead') : '#a-done');
      looks++;
    }
    for (const page of [ann, bo]) await page.waitForFunction(before => ohmstead().trace.step.step !== before, step.step);
  }
  const last = await bo.evaluate(() => ohmstead().trace.step);
  t.equal(last.kind, 'done', `after ${moves} moves and ${looks} looks`);
  t.equal(last.off, [], 'nothing stays off');
  const record = eyes.record, view = await bo.evaluate(async () => (await fetch('/api/house')).json());
  const floor = record.floor.find(f => f.name === 'Upper').id, rooms = record.room.filter(r => r.floor === floor).map(r => r.id);
  let proved = 0;
  for (const point of record.point.filter(p => rooms.includes(p.room))) {
    const { standing, way, full } = view.points.find(p => p.id === point.id), { by } = eyes.feeds.get(point.id);
    t.check(standing !== 'open' || !by.length, `${full} is not settled`);
    if (standing === 'proved') proved++;
    if (standing === 'open') continue;
    const ties = new Set(by.map(b => b.tie).filter(Boolean)), right = record.breaker.filter(b => by.some(one => one.id === b.id) || ties.has(b.tie)).map(b => 'breaker:' + b.id);
    t.check(way.some(h => right.includes(view.handles[h].ref)), `${full} hangs on its own breaker`);
  }
  t.check(proved >= 20, `proved: ${proved}`);
}
