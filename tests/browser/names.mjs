// Names from strangers: markup, quotes, right-to-left, as long as a name may be (200 bytes), a note of 5,000 characters. They are shown as the text they are, everywhere.

import fs from 'node:fs';
import path from 'node:path';

const kNames = ['<img src=x onerror="window.broken=1">', '"quotes" \'and\' </script><script>window.broken=1</script>', '\u202etxet esrever\u202c \u05d0\u05d1\u05d2', '&lt;b&gt; ${1+1} {{x}}', 'x'.repeat(190) + ' the end'];

export async function scenario(t) {
  t.entered('plain.house', 'Kitchen: 4r 2l, freezer 100 W\nHall: 1l\nPanel Main in Hall 8 spaces, 100 A main: 1 20 kitchen; 3 15 hall\nKitchen receptacle 1 <- 1 by J.\nKitchen receptacle 2 <- 1 by J.\nKitchen light 1 <- 3 by J.\n');
  const record = t.record('plain.house');
  kNames.forEach((name, i) => { if (record.point[i]) record.point[i].name = name; });
  record.room[0].name = kNames[0];
  record.room[1].name = kNames[1];
  record.panel[0].name = kNames[1];
  record.breaker[0].old_label = kNames[0];
  record.load[0].name = kNames[3];
  record.dwelling.name = kNames[1];
  record.note.push({ ...(record.note[0] || {}), id: '9p0sp7q1mvrz', about: 'point:' + record.point[0].id, text: '<b>' + 'y'.repeat(4990) + ' end', is_private: false, who: '', at: '' });
  fs.writeFileSync(path.join(t.folder, 'hostile.json'), JSON.stringify(record));
  let house = 'hostile.house', names = kNames;
  try { t.run('import', 'hostile.json', house); }
  catch (error) { t.check(false, 'the hostile record is taken: ' + error.stderr); return; }

  const visit = async (page, where) => {
    for (const hash of ['find', 'panel', 'floor', 'outage', 'more']) {
      await t.open(page, hash, '#view h1');
      await page.waitForTimeout(100);
      t.equal(await page.evaluate(() => window.broken), undefined, `${where} ${hash}: no name is run`);
      t.equal(await page.evaluate(() => document.querySelectorAll('#app img, #app script, #app b b').length), 0, `${where} ${hash}: no name is markup`);
      const over = await t.over(page);
      t.check(over <= 0, `${where} ${hash}: ${over} px too wide`);
      await t.picture(page, `${where}-${hash}`);
    }
    const points = await page.evaluate(() => ohmstead().view.points.map(p => p.id));
    for (const [i, id] of points.entries()) {
      await t.open(page, 'thing/' + id, '.plate');
      if (!names[i]) continue;
      const title = await page.textContent('#view h1');
      t.check(title.includes(names[i].slice(0, 40)), `${where}: the name as it is: ${title.slice(0, 80)}`);
      t.check(title.length >= names[i].length, `${where}: all of it: ${title.length}`);
    }
    t.equal(await page.evaluate(() => window.broken), undefined, `${where}: no name is run`);
  };
  const page = await t.phone();
  await page.goto('file://' + t.handOver(house));
  await visit(page, 'file');
  const server = await t.serve(house), served = await t.join(server, 'change', '<i>Ann</i>');
  await visit(served, 'served');
  await served.click('#tab-trace');
  await served.click('#pl-both');
  await served.waitForSelector('#a-done');
  for (let i = 0; i < 6 && await served.$('#a-done'); i++) { await served.click('#a-done'); await served.waitForTimeout(150); }
  await t.picture(served, 'trace');
  t.equal(await served.evaluate(() => window.broken), undefined, 'tracing runs no name');
}
