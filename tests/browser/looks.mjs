// Every view at phone size by day and by night, and with letters of double size: axe finds nothing, nothing is wider than the screen.

export const kViews = view => ['find', `thing/${view.points.find(p => p.name === 'dishwasher').id}`, `handle/${view.handles.find(h => h.name === 'Main panel breaker 5').ref}`, 'panel', 'floor/1', 'plan', 'outage', 'more'];

export async function scenario(t) { return look(t, [[320, 'light'], [390, 'dark']]); }

export async function look(t, ways) {
  const file = t.handOver(t.sample('home.house', true));
  for (const [width, look] of ways) {
    const page = await t.phone({ viewport: { width, height: width > 1000 ? 800 : 844 }, colorScheme: look });
    await page.goto('file://' + file);
    const view = await page.evaluate(() => ohmstead().view);
    for (const hash of kViews(view)) {
      await t.open(page, hash, '#view h1');
      if (hash === 'panel') await page.click('.cell:not(.none):not(.wide) >> nth=4');
      if (hash === 'find') await page.fill('#q', 'kitchen');
      await page.waitForTimeout(120);
      await t.sound(page, `${hash.split('/')[0]} ${width} ${look}`);
      await t.picture(page, `${hash.split('/')[0]}-${width}-${look}`);
    }
    if (width === 320) {
      await page.evaluate(() => { document.documentElement.style.fontSize = '200%'; });
      for (const hash of kViews(view)) {
        await t.open(page, hash, '#view h1');
        await page.waitForTimeout(60);
        const over = await t.over(page);
        t.check(over <= 0, `${hash} with large letters: ${over} px too wide`);
      }
      await t.picture(page, 'large');
    }
    await page.context().close();
  }
}
