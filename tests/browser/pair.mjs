// Two phones trace together: one at the panel, one in the rooms. No handle moves before the other is ready, and each sees what the other does.

import { Eyes } from './tools.mjs';

export async function scenario(t) {
  t.sample('home.house');
  const eyes = new Eyes(t.record('home.house')), server = await t.serve('home.house');
  const ann = await t.join(server, 'trace', 'Ann'), bo = await t.join(server, 'trace', 'Bo');
  for (const page of [ann, bo]) await page.click('#tab-trace');
  await ann.click('#pl-panel');
  await bo.click('#pl-rooms');
  await ann.waitForSelector('#ready, #a-done');

  const step = page => page.evaluate(() => ohmstead().trace.step);
  const same = async (was, page) => page.waitForFunction(before => ohmstead().trace.step.step !== before, was);
  /** The step, once both phones show it. */
  const agreed = async () => {
    for (let tries = 0; tries < 400; tries++) {
      const [a, b] = [await step(ann), await step(bo)];
      if (a.step === b.step) return b;
      await bo.waitForTimeout(50);
    }
    throw new Error('the two phones show different steps');
  };
  let moves = 0, looks = 0, pictured = false;
  for (let i = 0; i < 60 && moves < 6; i++) {
    const now = await agreed();
    if (!now.answers.length) break;
    if (now.kind === 'open' || now.kind === 'close') {
      t.check(now.by_helper, 'the helper at the panel moves the handles');
      await bo.waitForSelector('#ready');
      t.equal(await ann.$('#a-done'), null, 'at the panel nothing may be moved before the rooms are ready');
      t.equal(await bo.$('#a-done'), null, 'in the rooms no handle is moved');
      if (!pictured) { t.equal(await ann.$eval('#view', v => v.scrollTop), 0, 'a new step is seen from its top'); await t.picture(ann, 'panel-waits'); await t.picture(bo, 'rooms-not-ready'); }
      await bo.click('#ready');
      await ann.waitForSelector('#a-done');
      t.check((await ann.textContent('#step')).startsWith('Turn'), 'the panel is told to turn: ' + await ann.textContent('#step'));
      if (!pictured) { await t.picture(ann, 'panel-moves'); await t.picture(bo, 'rooms-wait'); pictured = true; }
      await ann.click('#a-done');
      moves++;
    } else if (now.kind === 'caution') await bo.click('#a-done');
    else {
      await ann.waitForSelector('.waitfor');
      t.equal(await ann.$('#a-live'), null, 'at the panel nothing is looked at');
      const live = eyes.live((now.point || {}).id, now.off.map(h => h.ref), now.kind === 'ask_dead');
      await bo.click(now.answers.includes('dead') ? (live ? '#a-live' : '#a-dead') : '#a-done');
      looks++;
    }
    await same(now.step, bo);
    await same(now.step, ann);
  }
  t.check(moves === 6 && looks > 6, `moves ${moves}, looks ${looks}`);
  t.check((await bo.textContent('#view')).includes('at the panel') || (await bo.textContent('#view')).includes('in the rooms'), 'each sees where they are');
}
