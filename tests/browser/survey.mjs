// The sample house's ground floor written down at phone size, by taps: each point one tap, and all of it in the house file.

export async function scenario(t) {
  t.run('new', 'home.house', '--name', 'Taps');
  const server = await t.serve('home.house'), page = await t.join(server, 'change', 'Ann');
  await page.click('#tab-write');
  const floor = [['Living room', { receptacle: 6 }], ['Dining room', { receptacle: 3, light: 1 }], ['Kitchen', { light: 3, receptacle: 3, 'GFCI-receptacle': 2, dishwasher: 1, refrigerator: 1, range: 1 }],
    ['Entry', { light: 2, receptacle: 1 }], ['Middle bath', { light: 1, fan: 1 }]];
  let taps = 0;
  for (const [room, things] of floor) {
    await page.fill('#n-room', room);
    await page.click('#addroom');
    await page.waitForSelector(`h1:text-is("${room}")`);
    const more = page.locator('#s-moretaps');
    if (Object.keys(things).some(k => !['receptacle', 'light', 'GFCI-receptacle', 'fan'].includes(k)) && !(await page.locator('#d-moretaps').getAttribute('open') !== null)) await more.click();
    for (const [thing, count] of Object.entries(things))
      for (let i = 0; i < count; i++) { await page.click(`#t-${thing}`); taps++; }
    await page.waitForFunction(() => !document.querySelector('#written .tag'));
    if (room === 'Kitchen') await t.picture(page, 'kitchen');
    await page.click('#other');
  }
  const record = t.record('home.house');
  const count = (room, kind) => record.point.filter(p => p.room === record.room.find(r => r.name === room).id && (!kind || p.kind === kind)).length;
  for (const [room, things] of floor) t.equal(count(room), Object.values(things).reduce((a, b) => a + b), `points of ${room}`);
  t.equal(record.point.length, taps, 'one tap a point');

  // a second tap says where; undo takes the last one back, and only that
  await page.click('.tile:has-text("Entry")');
  await page.click('#written button >> nth=0');
  await page.fill('#np-place', 'by the door');
  await page.click('#np-save');
  await page.waitForSelector('#written :text("by the door")');
  t.equal(t.record('home.house').point.filter(p => p.place === 'by the door').length, 1, 'the place is written down');
  await page.click('#t-light');
  await page.waitForFunction(wanted => document.querySelectorAll('#written button').length === wanted, 4);
  await page.click('#undo');
  await page.waitForFunction(wanted => document.querySelectorAll('#written button').length === wanted, 3);
  t.equal(t.record('home.house').point.length, taps, 'undo took the last tap back');
  await page.click('#other');

  // a panel: spaces and amps by taps
  await page.click('#s-newpanel');
  await page.selectOption('#n-spaces', '12');
  await page.click('#d-newpanel button');
  await page.click('.tile:has-text("Main")');
  await page.waitForSelector('#space');
  await page.fill('#b-label', 'kitchen');
  await page.click('#amps-20');
  await page.waitForFunction(() => document.querySelector('#space').textContent === '3');
  await page.click('#amps-15');
  await page.waitForFunction(() => document.querySelector('#space').textContent === '5');
  await page.click('label[for=b-poles-1]');
  await page.click('#amps-30');
  await page.waitForFunction(() => document.querySelector('#space').textContent === '9');
  await t.picture(page, 'panel');
  await page.waitForTimeout(300);
  const breakers = t.record('home.house').breaker.map(b => [b.space, b.poles, b.amps, b.old_label]);
  t.equal(breakers, [[1, 1, 20, 'kitchen'], [3, 1, 15, ''], [5, 2, 30, '']], 'breakers');
}
