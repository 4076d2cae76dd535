// The ground floor of the sample house traced at phone size, alone, answered from its truth: what is concluded is the truth.

import { Eyes } from './tools.mjs';

export async function scenario(t) {
  t.sample('home.house');
  const record = t.record('home.house'), eyes = new Eyes(record);
  const server = await t.serve('home.house'), page = await t.join(server, 'trace', 'Ann');
  await page.click('#tab-trace');
  await page.click('#pl-both');
  await page.waitForSelector('#a-done');
  await t.picture(page, 'first');
  await page.evaluate(() => { window.said = []; new MutationObserver(() => window.said.push(document.querySelector('#said').textContent)).observe(document.querySelector('#said'), { childList: true }); });

  // only two rooms of the ground floor, several off at a time
  await page.click('#chooserooms');
  await page.getByLabel('Upper: all of it', { exact: true }).check();
  t.check(await page.getByLabel('NW bedroom', { exact: true }).isChecked(), 'a floor checks its rooms');
  await page.getByLabel('Upper: all of it', { exact: true }).uncheck();
  await page.selectOption('#m-once', '4');
  for (const room of ['Dining room', 'Entry']) await page.getByLabel(room, { exact: true }).check();
  await page.click('button.save');
  await page.waitForSelector('#a-done');

  const step = () => page.evaluate(() => ohmstead().trace.step);
  let now = await step(), steps = 0, undone = false;
  for (; now.kind !== 'done' && steps < 300; steps++) {
    let word = 'done';
    if (now.answers.includes('dead')) word = eyes.live(now.point.id, now.off.map(h => h.ref), now.kind === 'ask_dead') ? 'live' : 'dead';
    else if (!now.answers.includes('done')) word = now.answers[0];
    if (now.kind === 'look' && steps === 6) await t.picture(page, 'look');
    for (const word of now.answers) t.check(await page.$eval('#a-' + word, b => { const r = b.getBoundingClientRect(); return r.left >= 0 && r.right <= innerWidth && r.bottom <= innerHeight; }), `${word} of a ${now.kind} step is on the screen`);
    await page.click('#a-' + word);
    await page.waitForFunction(before => ohmstead().trace.step.step !== before, now.step);
    if (word === 'live' && !undone) {
      undone = true;
      const after = (await step()).step;
      await page.click('#undo');
      await page.waitForFunction(before => ohmstead().trace.step.step !== before, after);
      t.equal(t.record('home.house').observation.filter(o => o.withdrawn).length, 1, 'an answer taken back is marked in the record');
    }
    now = await step();
  }
  await t.picture(page, 'done');
  const said = await page.evaluate(() => window.said);
  t.check(said.some(text => text.includes('taken back')) && !said.some(text => text.includes('other phone')), 'alone, nobody else is said to have answered, not after an undo either');
  t.check((await page.textContent('#view')).includes('Only these were asked about: Entry, Dining room'), 'nothing left is said of the chosen rooms');
  t.equal(now.kind, 'done', `after ${steps} steps`);
  const wanted = ['Dining room', 'Entry'].map(name => record.room.find(r => r.name === name).id);
  const view = await page.evaluate(async () => (await fetch('/api/house')).json());
  let proved = 0;
  for (const point of record.point.filter(p => wanted.includes(p.room))) {
    const seen = view.points.find(p => p.id === point.id), feed = eyes.feeds.get(point.id);
    if (seen.standing !== 'proved') continue;
    proved++;
    const ties = new Set(feed.by.map(b => b.tie).filter(Boolean));
    const right = feed.by.map(b => 'breaker:' + b.id).concat(record.breaker.filter(b => ties.has(b.tie)).map(b => 'breaker:' + b.id));
    t.check(seen.way.some(h => right.includes(view.handles[h].ref)), `${seen.full} hangs on its own breaker`);
  }
  t.check(proved >= 8, `proved: ${proved}`);
  t.equal(now.off, [], 'everything is on again');
}
