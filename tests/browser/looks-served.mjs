// The views that need the house computer, by day and by night: axe finds nothing, nothing is wider than the screen.

export async function scenario(t) {
  t.sample('home.house', true);
  t.run('-f', 'home.house', 'outage', '--gone');
  const server = await t.serve('home.house');
  for (const [width, look] of [[320, 'dark'], [390, 'light'], [1280, 'light']]) {
    const options = { viewport: { width, height: width > 1000 ? 800 : 844 }, colorScheme: look }, name = what => `${what} ${width} ${look}`;
    const stranger = await t.phone(options);
    await stranger.goto(server.url);
    await stranger.waitForSelector('#join');
    await t.sound(stranger, name('pair'));
    await t.picture(stranger, `pair-${width}-${look}`);
    const page = await t.join(server, 'change', 'Ann', options);
    const look_at = async (what, wait) => {
      if (wait) await page.waitForSelector(wait);
      await page.waitForTimeout(120);
      await t.sound(page, name(what));
      await t.picture(page, `${what}-${width}-${look}`);
    };
    await t.open(page, 'trace', '#pl-both');
    await look_at('place');
    await page.click('#pl-both');
    await look_at('step', '.steptext');
    await page.click('#s-tracemore');
    await look_at('more');
    await page.click('#m-manner');
    await look_at('manner', '#m-once');
    await page.click('#cancel');
    await t.open(page, 'write', '.tile');
    await look_at('rooms');
    await page.click('.tile:has-text("Kitchen")');
    await look_at('taps', '#t-receptacle');
    await t.open(page, 'outage', '#o-done');
    await look_at('board');
    await page.click('#s-happened');
    await page.click('#s-did');
    await look_at('told');
    await t.open(page, `thing/${await page.evaluate(async () => (ohmstead().view || await (await fetch('/api/house')).json()).points[5].id)}`, '.plate');
    await page.waitForFunction(() => !document.querySelector('.wait'));
    await look_at('thing');
    await t.open(page, 'find', '#q');
    await page.context().close();
  }
}
