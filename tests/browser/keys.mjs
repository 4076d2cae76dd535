// By keyboard alone: everything is reached in order, the focus is seen, nothing traps it, Escape closes.

export async function scenario(t) {
  const house = t.sample('home.house', true), page = await t.phone({ viewport: { width: 1000, height: 800 }, hasTouch: false });
  await page.goto('file://' + t.handOver(house));
  const focus = () => page.evaluate(() => ({ id: document.activeElement.id, text: document.activeElement.textContent.slice(0, 40), tag: document.activeElement.tagName }));
  const press = async (...keys) => { for (const key of keys) await page.keyboard.press(key); };
  const tabTo = async id => {
    for (let i = 0; i < 200; i++) { await press('Tab'); if ((await focus()).id === id) return true; }
    return false;
  };
  await press('Tab');
  t.equal((await focus()).text, 'To the content', 'the first stop leads past the head');
  t.check(await tabTo('q'), 'the search is reached');
  await page.keyboard.type('dish washer');
  await press('Enter');
  await page.waitForTimeout(150);
  t.check((await focus()).text.includes('dishwasher'), 'Enter leads to the first match: ' + (await focus()).text);
  await press('Enter');
  await page.waitForSelector('.plate');
  t.equal(await page.textContent('#view h1'), 'dishwasher', 'Enter opens it');
  t.equal((await focus()).id, 'view', 'the new view has the focus');
  await press('Escape');
  await page.waitForSelector('#q');
  t.check(true, 'Escape goes back');

  t.check(await tabTo('tab-panel'), 'the bar is reached');
  await press('Enter');
  await page.waitForSelector('.panelbox');
  const ref = await page.evaluate(() => 'h-' + ohmstead().view.handles.find(h => h.name === 'Main panel breaker 5').ref);
  t.check(await tabTo(ref), 'a handle is reached');
  const ring = await page.evaluate(() => { const style = getComputedStyle(document.activeElement); return parseFloat(style.outlineWidth) >= 2 && style.outlineStyle !== 'none'; });
  t.check(ring, 'the focus is seen');
  await press('Space');
  t.equal((await focus()).id, ref, 'the focus stays on the handle that was switched');
  t.equal(await page.getAttribute(`[id="${ref}"]`, 'aria-checked'), 'false', 'Space switches it');
  t.check(await tabTo('back'), 'all as usual is reached');
  await press('Enter');
  t.equal(await page.getAttribute(`[id="${ref}"]`, 'aria-checked'), 'true', 'Enter puts it back');

  // no trap: from any place the keyboard comes round to the head again
  await press('Tab');
  let round = false;
  for (let i = 0; i < 250 && !round; i++) { await press('Tab'); round = (await focus()).tag === 'BODY' || (await focus()).text === 'To the content'; }
  t.check(round, 'the keyboard comes round');

  // what is focused is never hidden behind a bar
  await t.open(page, 'find', '#q');
  for (let i = 0; i < 25; i++) {
    await press('Tab');
    const seen = await page.evaluate(() => {
      const at = document.activeElement.getBoundingClientRect();
      if (!at.width || document.activeElement === document.body) return true;
      const top = document.elementFromPoint(at.left + Math.min(at.width / 2, 40), at.top + Math.min(at.height / 2, 12));
      return !top || document.activeElement.contains(top) || top.contains(document.activeElement);
    });
    t.check(seen, 'focused and not covered: ' + (await focus()).text);
  }
  await page.fill('#q', '');
  await page.waitForSelector('#s-room0');
  await page.focus('#s-room0');
  await press('Enter');
  t.check(await page.evaluate(() => document.querySelector('#d-room0').open), 'Enter opens a room');
  await press('Escape');
  t.check(!(await page.evaluate(() => document.querySelector('#d-room0').open)), 'Escape closes it');
}
