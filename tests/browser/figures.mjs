// node tests/browser/figures.mjs BUILD: prints how soon the saved file of the sample house can be used, and how long it takes from a
// touch of a handle to the changed picture, in headless Chromium slowed down four times. Figures to reach: 1000 ms, 100 ms. On a machine
// that does other things as well, the page's own time (of its main thread, four times as measured) says more than the clock.

import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { Tools } from './tools.mjs';

const build = path.resolve(process.argv[2] || 'build'), folder = path.join(build, 'browser', 'figures');
fs.rmSync(folder, { recursive: true, force: true });
fs.mkdirSync(folder, { recursive: true });
const t = new Tools(build, folder, 'figures');
const median = all => all.slice().sort((a, b) => a - b)[Math.floor(all.length / 2)];
const kSlower = 4;
try {
  const file = t.handOver(t.sample('home.house', true)), clock = { first: [], touch: [] }, own = { first: [], touch: [] };
  for (let run = 0; run < 10; run++) {
    const page = await t.phone({ offline: true }), cdp = await page.context().newCDPSession(page), slow = run % 2 === 0, to = slow ? clock : own;
    await cdp.send('Performance.enable', { timeDomain: 'threadTicks' });
    const thread = async () => (await cdp.send('Performance.getMetrics')).metrics.find(m => m.name === 'TaskDuration').value * 1000 * kSlower;
    if (slow) await cdp.send('Emulation.setCPUThrottlingRate', { rate: kSlower });
    await page.goto('file://' + file);
    // usable: the search field is there, and a frame after it was drawn has passed
    const passed = await page.evaluate(() => new Promise(go => requestAnimationFrame(() => setTimeout(() => go(document.querySelector('#q') ? performance.now() : Infinity)))));
    to.first.push(slow ? passed : await thread());
    await page.evaluate(() => { location.hash = 'panel'; });
    await page.waitForSelector('.panelbox');
    for (const id of await page.$$eval('.panelbox button', all => all.slice(0, 16).map(one => one.id))) {
      const before = await thread();
      const ms = await page.evaluate(which => new Promise(go => {
        const from = performance.now();
        document.getElementById(which).click();
        requestAnimationFrame(() => setTimeout(() => go(performance.now() - from)));
      }), id);
      to.touch.push(slow ? ms : await thread() - before);
    }
    await page.context().close();
  }
  const line = (what, all, reach) => `${what}: median ${median(all).toFixed(0)} ms, worst ${Math.max(...all).toFixed(0)} ms of ${all.length}${reach}`;
  console.log(`saved file: ${(fs.statSync(file).size / 1024).toFixed(0)} KB; load of this machine: ${os.loadavg()[0].toFixed(1)} on ${os.cpus().length} processors`);
  console.log(line('usable after, by the clock', clock.first, '; to reach: 1000 ms') + '\n' + line('  the page\'s own time', own.first, ''));
  console.log(line('what-if, touch to picture, by the clock', clock.touch, '; to reach: 100 ms') + '\n' + line('  the page\'s own time', own.touch, ''));
} finally { await t.end(); }
