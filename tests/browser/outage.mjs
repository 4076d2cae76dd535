// The outage board: from the lights going out to the first things running, "May I ...?", a slip taken back; another phone looks on.

export async function scenario(t) {
  t.sample('home.house', true);
  const server = await t.serve('home.house'), page = await t.join(server, 'trace', 'Ann'), family = await t.join(server, 'look', 'Kid');
  for (const one of [page, family]) await one.click('#tab-outage');
  await page.click('#ev-gone');
  await page.click('#ev-gone-yes');
  await page.waitForSelector('#o-done');
  const says = () => page.textContent('#step');
  t.check((await says()).includes('outdoors'), 'first the generator goes outdoors: ' + await says());
  t.check((await page.textContent('#view')).includes('oxygen concentrator'), 'who depends on power is named');
  await family.waitForFunction(() => document.querySelector('#step').textContent.includes('outdoors'));
  t.equal(await family.$('#o-done'), null, 'who may only look answers nothing');
  await page.setViewportSize({ width: 320, height: 844 });
  const bottom = where => page.locator(where).evaluate(node => node.getBoundingClientRect().bottom), top = where => page.locator(where).evaluate(node => node.getBoundingClientRect().top);
  const poison = '.k-caution:has-text("Never run a generator")';
  t.check(await bottom(poison) <= await top('.answers'), 'on a narrow phone too the caution is seen whole, with DONE below it');
  await t.picture(page, 'outdoors-320');
  await page.setViewportSize({ width: 390, height: 844 });
  await t.picture(page, 'outdoors');
  await t.picture(family, 'family');
  const terminal = JSON.parse(t.run('-f', 'home.house', 'outage', '--json'));
  const words = terminal.lines.slice(terminal.step_at).map(line => line.text);
  for (const text of words) t.check((await says()).includes(text), 'the words of the terminal: ' + text);

  let steps = 0;
  for (; steps < 40; steps++) {
    const board = await page.evaluate(() => ohmstead().outage);
    if (!board.step.answers.length || board.on.length >= 2) break;
    await page.click('#o-done');
    await page.waitForFunction(was => ohmstead().outage.revision !== was, board.revision);
  }
  const running = await page.evaluate(() => ohmstead().outage.on.map(one => one.name || one.guest));
  t.check(running.length >= 2, `running after ${steps} steps: ${running}`);
  await t.picture(page, 'running');
  const before = await page.evaluate(() => ohmstead().outage);
  await page.click('#undo');
  await page.waitForFunction(was => ohmstead().outage.revision !== was, before.revision);
  t.check((await page.evaluate(() => ohmstead().outage.on)).length < before.on.length, 'undo took the last thing back');

  await page.fill('#may-thing', 'kettle 1500 W');
  await page.fill('#may-at', 'Kitchen receptacle 1');
  await page.click('#mayask');
  await page.waitForSelector('form .plate');
  t.check((await page.textContent('form .plate')).length > 10, 'May I ...? is answered');
  await page.click('#s-happened');
  await page.fill('#ev-note', 'neighbor has <b>gas</b>');
  await page.click('#ev-notego');
  await page.waitForFunction(() => (ohmstead().outage.log || []).some(line => JSON.stringify(line).includes('<b>gas</b>')));

  // several sources: the person says which is to carry the house
  t.entered('two.house', 'Kitchen: 2r, refrigerator\nPanel Main 8 spaces 100A: 1 20 kitchen; 3 20 fridge\nGenerator Gen 3500/4500 W 120/240, 30 A inlet, 30 A cord, gasoline, 11 L tank\nBattery Bat 5/7.5 kW, 10 kWh\nTransfer T in Kitchen, 2 positions, from Gen: 1 20 L1 <- Main 1\nTransfer U in Kitchen, 2 positions, from Bat: 1 20 L1 <- Main 3\n');
  const both = await t.serve('two.house'), bo = await t.join(both, 'trace', 'Bo');
  await bo.click('#tab-outage');
  await bo.waitForSelector('label[for=source-1]');
  t.check(await bo.isChecked('#source-0'), 'the first, until somebody says otherwise');
  await t.sound(bo, 'two sources');
  await bo.click('label[for=source-1]');
  await bo.waitForFunction(() => document.querySelector('#source-1').checked);
  await bo.click('#ev-gone');
  await bo.click('#ev-gone-yes');
  await bo.waitForFunction(() => ohmstead().outage.phase !== 'none');
  t.equal(await bo.$('#source-0'), null, 'under way, it is settled');
  const { source, outage_event } = t.record('two.house');
  t.equal(outage_event.map(event => source.find(one => one.id === event.source)?.name), ['Bat'], 'it is that which was chosen');
}
