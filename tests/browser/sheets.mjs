// Sheets and labels on the page before they are printed: the list with what is still true, pictures of the pages, the PDF. Looking writes nothing; what is said to be printed is kept once.

import fs from 'node:fs';
import path from 'node:path';

export async function scenario(t) {
  t.traced('home.house');
  t.run('-f', 'home.house', 'paper', 'wall', '-o', 'wall.pdf');
  t.run('-f', 'home.house', 'labels', 'strip', '-o', 'strip.pdf');
  fs.writeFileSync(path.join(t.folder, 'change.txt'), 'Attic: 1l\n');
  const before = fs.readFileSync(path.join(t.folder, 'home.house'));
  const server = await t.serve('home.house');
  for (const [width, look] of [[320, 'dark'], [390, 'light'], [390, 'dark'], [320, 'light']]) {
    const page = await t.join(server, 'look', 'Ann', { viewport: { width, height: 844 }, colorScheme: look }), name = what => `${what} ${width} ${look}`;
    await t.open(page, 'panel', '.panelbox');
    await page.click('#view a[href="#sheets"]');
    await page.waitForSelector('.rows .row', { timeout: 25000 });
    const rows = await t.texts(page, '.rows .row');
    t.check(rows.length >= 12, name(`every sheet is in the list: ${rows.length}`));
    t.check(rows.some(row => /^Sheet for the wallPrinted .*still true\.TRUE$/.test(row)), name('a print that is still true says so: ' + rows.join(' | ')));
    t.check(rows.some(row => /^Floor planNot printed yet\.$/.test(row)), name('what was never printed says so'));
    await t.sound(page, name('list'));
    await t.picture(page, `list-${width}-${look}`);
    await page.click('.rows a[href="#sheets/directory-panel-main"]');
    await page.waitForSelector('.sheetpage img', { timeout: 25000 });
    await page.waitForFunction(() => document.querySelector('.sheetpage img').complete);
    const size = await page.$eval('.sheetpage img', img => [img.naturalWidth, img.naturalHeight, img.clientWidth, img.clientHeight, Number(img.getAttribute('width')), img.src]);
    t.check(size[0] > 500 && size[1] > 500, name(`the picture is there: ${size}`));
    t.equal(size[4], size[0], name('its size was known before'));
    t.check(size[2] > width * 0.8 && size[2] <= width && Math.abs(size[3] / size[2] - size[1] / size[0]) < 0.03, name(`it is as wide as the phone and not distorted: ${size}`));
    const bytes = await page.evaluate(async src => (await (await fetch(src)).arrayBuffer()).byteLength, size[5]);
    t.check(bytes > 10000, name(`a picture of ${bytes} bytes`));
    const pdf = await page.evaluate(async src => { const answer = await fetch(src); return [answer.status, answer.headers.get('content-type'), (await answer.text()).slice(0, 5)]; }, await page.getAttribute('#pdf', 'href'));
    t.equal(pdf, [200, 'application/pdf', '%PDF-'], name('the PDF'));
    await t.sound(page, name('sheet'));
    await t.picture(page, `sheet-${width}-${look}`);
    await page.mouse.wheel(0, 700);
    await page.waitForTimeout(150);
    await t.picture(page, `page-${width}-${look}`);
    await page.click('#goback');
    await page.waitForSelector('.rows .row');
    await page.context().close();
  }
  t.check(before.equals(fs.readFileSync(path.join(t.folder, 'home.house'))), 'looking writes nothing into the house file');

  // a sheet that is printed while the list is open shows when the list is opened again; an unknown one is refused with a sentence
  const page = await t.join(server, 'look', 'Bob');
  await t.open(page, 'sheets/paper-nothing', '#sheetagain');
  t.check((await page.textContent('#view')).includes('There is no such sheet'), 'an unknown name is refused with a sentence');
  await t.open(page, 'sheets', '.rows .row');
  t.run('-f', 'home.house', 'paper', 'floor-plan', '-o', 'floor.pdf');
  await t.open(page, 'outage', '#view a[href="#sheets"]');
  await page.click('#view a[href="#sheets"]');
  await page.waitForFunction(() => [...document.querySelectorAll('.row')].some(row => /^Floor planPrinted/.test(row.textContent)), null, { timeout: 25000 });

  // who may only look is told that nothing is kept; who may more says that it was printed, and the list, the command and other phones know
  await t.open(page, 'sheets/directory-panel-main', '.sheetpage img');
  t.check((await page.textContent('#view')).includes('This phone may only look') && !(await page.$('#printed')), 'a phone that may only look has no such button');
  const printer = await t.join(server, 'trace', 'Cid'), listed = () => JSON.parse(t.run('-f', 'home.house', 'print', '--list', '--json')).sheets;
  await t.open(printer, 'sheets/directory-panel-main', '#printed');
  t.equal(listed().find(one => one.item === 'directory-panel-main').state, 'never', 'before it is said');
  await t.sound(printer, 'printed?');
  await t.picture(printer, 'printed-ask');
  await printer.click('#printed');
  await printer.waitForFunction(() => /Printed \d{4}-\d\d-\d\d, still true\./.test(document.querySelector('#view').textContent), null, { timeout: 25000 });
  t.check(!(await printer.$('#printed')), 'it is asked no more');
  await t.picture(printer, 'printed-kept');
  t.equal(listed().find(one => one.item === 'directory-panel-main').state, 'current', 'the command knows');
  t.equal(t.record('home.house').printed.filter(one => one.item.startsWith('directory:')).length, 1, 'one row');
  await t.open(printer, 'sheets', '.rows .row');
  await printer.waitForFunction(() => [...document.querySelectorAll('.row')].some(row => /^Directory of Panel MainPrinted .*still true/.test(row.textContent)), null, { timeout: 25000 });
  await printer.context().close();
  await t.open(page, 'sheets', '.rows .row');

  // what changes makes a print untrue
  t.run('-f', 'home.house', 'enter', 'change.txt');
  await page.waitForFunction(() => [...document.querySelectorAll('.row')].some(row => /^Floor plan.*no longer true: print it again\.PRINT AGAIN$/.test(row.textContent)), null, { timeout: 25000 });
  await t.picture(page, 'stale');
}
