// The file that is handed over, from the disk: with scripts and without, in airplane mode; what-if in the panel.

import fs from 'node:fs';

export async function scenario(t) {
  const file = t.handOver(t.sample('home.house', true)), address = 'file://' + file;
  t.check(fs.statSync(file).size < 1e6, 'under 1 MB');

  const plain = await t.phone({ javaScriptEnabled: false, offline: true });
  await plain.goto(address);
  t.check(await plain.isVisible('#paper h1'), 'without scripts the plain page is there');
  const words = await plain.textContent('#paper');
  for (const wanted of ['Hillside', 'dishwasher', 'oxygen concentrator', '16b']) t.check(words.includes(wanted), `the plain page names ${wanted}`);
  await t.picture(plain, 'plain');

  const page = await t.phone({ offline: true }), asked = [];
  page.on('request', request => { if (!request.url().startsWith('file:')) asked.push(request.url()); });
  await page.goto(address);
  t.check(!(await page.isVisible('#paper')), 'with scripts the page takes over');
  t.equal(await t.texts(page, '#tabs a'), ['Find', 'Panel', 'Floor', 'Outage'], 'the saved file shows what it can do');

  const view = JSON.parse(await page.textContent('#house-view'));
  const handle = name => '#h-' + view.handles.find(h => h.name === name).ref.replace(':', '\\:');
  await t.open(page, 'panel', '.panelbox');
  await page.click(handle('Main panel breaker 5'));
  t.equal(await page.getAttribute(handle('Main panel breaker 5'), 'aria-checked'), 'false', 'the handle is shown off');
  const off = () => page.$$eval('.part.s1 .row .grow', all => all.length);
  t.equal(await off(), 5, 'things on breaker 5');
  await page.click(handle('Main panel breaker 16b'));
  t.equal(await off(), 7, 'things on breakers 5 and 16b');
  await t.picture(page, 'what-if');
  await page.click('#back');
  t.equal(await page.getAttribute(handle('Main panel breaker 5'), 'aria-checked'), 'true', 'all as usual');
  await page.click(handle('Main panel breaker 9'));
  t.equal(await page.getAttribute(handle('Main panel breaker 11'), 'aria-checked'), 'false', 'the tied handle goes with it');
  await page.click('#back');
  await page.click(handle('Main panel main breaker'));
  const dead = await off();
  t.check(dead > 100, `the main takes everything down: ${dead}`);
  await page.click('#back');

  // on the generator: the street dead, positions on backup; what is on no position is dead
  await page.click(`label[for=src${view.sources[0].variable}-1]`);
  await page.click(`label[for=src${view.sources[1].variable}-0]`);
  const freezer = view.points.findIndex(p => p.full === 'Storage freezer'), position = view.handles.find(h => h.name === 'Transfer position 7');
  const named = async () => t.texts(page, '.part.s1 .row .grow');
  t.check((await named()).includes('freezer'), 'the freezer is dead while its position stands on the utility');
  await page.click(`label[for=pos${position.variable}-2]`);
  t.check(!(await named()).includes('freezer'), 'and works on backup');
  t.equal(await page.evaluate(i => ohmstead().now.state[i], freezer), 0, 'by its diagram too');
  await t.picture(page, 'on-backup');
  await page.click('#back');

  await t.open(page, 'floor/2', '.plan');
  t.equal((await t.texts(page, '.plan .name')).includes('NE bedroom'), true, 'rooms on the floor plan');
  await page.click('.plan .pt');
  await page.waitForSelector('.plate');
  await t.open(page, 'plan', '.legs');
  t.equal((await page.$$('.leg')).length, 2, 'two legs');
  await t.open(page, 'outage', '#view h1');
  t.check((await page.textContent('#view')).includes('oxygen concentrator'), "the wall sheet's words");
  await t.open(page, 'more', '#plain');
  await page.click('#plain');
  t.check(await page.isVisible('#paper h1'), 'the plain page can be had');
  t.equal(asked, [], 'nothing is fetched');

  // a photo of the panel, also where the file is opened at the panel at once
  await page.screenshot({ path: t.folder + '/shot.jpg', type: 'jpeg' });
  t.run('-f', 'home.house', 'photo', 'add', 'shot.jpg', '--about', 'main panel');
  const shown = await t.phone({ offline: true });
  await shown.goto('file://' + t.handOver('home.house') + '#panel');
  await shown.waitForLoadState();
  t.check(await shown.evaluate(() => { const photo = document.querySelector('#app figure img'); return photo && photo.naturalWidth > 0; }), 'the photo of the panel is seen');
}
