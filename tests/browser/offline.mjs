// The Wi-Fi goes and comes back, and the phone sleeps: what was tapped is kept, sent once, and in order.

export async function scenario(t) {
  t.sample('home.house');
  const server = await t.serve('home.house'), page = await t.join(server, 'change', 'Ann'), context = page.context();
  const before = t.record('home.house').point.length;
  await page.click('#tab-write');
  await page.click('.tile:has-text("Loft")');
  await context.setOffline(true);
  for (let i = 0; i < 3; i++) await page.click('#t-light');
  await page.click('#t-receptacle');
  await page.waitForSelector('#net:not(:empty)');
  t.check((await page.textContent('#net')).includes('4 answers are kept on this phone'), await page.textContent('#net'));
  await t.picture(page, 'kept');
  await page.click('#undo');
  t.check((await page.textContent('#net')).includes('3 answers'), 'what was not sent is taken back without a word to anybody');
  t.equal(t.record('home.house').point.length, before, 'nothing is sent yet');
  // the page is closed meanwhile: it is kept all the same
  await context.setOffline(false);
  await page.waitForFunction(() => !JSON.parse(localStorage.getItem('ohmstead.queue')).length, null, { timeout: 30000 });
  t.equal(t.record('home.house').point.length, before + 3, 'sent once');

  // an answer whose reply was lost is not recorded twice
  let lost = 0;
  await page.route('**/api/survey', async route => {
    if (route.request().method() !== 'POST' || lost) return route.continue();
    lost++;
    await route.fetch();
    await route.abort('connectionreset');
  });
  await page.click('#t-light');
  await page.waitForFunction(() => !JSON.parse(localStorage.getItem('ohmstead.queue')).length, null, { timeout: 30000 });
  t.equal([lost, t.record('home.house').point.length], [1, before + 4], 'a reply was lost, and the tap is there once');
  await page.unroute('**/api/survey');

  // a tap whose reply was lost is on disk: taking it back takes it back there
  const emptied = (where, what) => where.waitForFunction(() => !JSON.parse(localStorage.getItem('ohmstead.queue')).length, null, { timeout: 30000 }).catch(() => t.check(false, what));
  let gone = false;
  await page.route('**/api/survey', async route => {
    if (route.request().method() !== 'POST' || gone === 'back') return route.continue();
    if (!gone) await route.fetch();
    gone = true;
    await route.abort('connectionreset');
  });
  await page.click('#t-light');
  await page.waitForSelector('#net:not(:empty)');
  await page.click('#undo');
  gone = 'back';
  await emptied(page, 'the tap and its taking back are sent');
  t.equal(t.record('home.house').point.length, before + 4, 'what was taken back is not in the record');
  await page.unroute('**/api/survey');

  // another computer at this address, as in a strange Wi-Fi, takes nothing and refuses nothing
  let strange = 0;
  await page.route('**/api/survey', route => (route.request().method() === 'POST' && strange++ < 2 ? route.fulfill({ status: strange === 1 ? 200 : 404, contentType: 'text/html', body: '<p>Sign in' }) : route.continue()));
  await page.click('#t-light');
  await page.waitForSelector('#net:not(:empty)');
  await emptied(page, 'it is sent to the house computer');
  t.equal(t.record('home.house').point.length, before + 5, 'the tap is in the record');
  await page.unroute('**/api/survey');

  // what another tab keeps is not lost by this one's keeping
  const tab = await context.newPage();
  await tab.goto(server.url + '/#write');
  await tab.click('.tile:has-text("Loft")');
  await context.setOffline(true);
  for (const one of [page, tab]) {
    await one.click('#t-light');
    await one.waitForSelector('#net:not(:empty)');
  }
  t.equal(await page.evaluate(() => JSON.parse(localStorage.getItem('ohmstead.queue')).length), 2, 'both are kept');
  await context.setOffline(false);
  await emptied(page, 'both tabs send');
  t.equal(t.record('home.house').point.length, before + 7, 'both are in the record');
  await tab.close();

  // tracing: one answer waits, and the next step comes with the connection
  await page.click('#tab-trace');
  await page.click('#pl-both');
  await page.waitForSelector('#a-done');
  const step = () => page.evaluate(() => ohmstead().trace.step.step), first = await step();
  await context.setOffline(true);
  await page.click('#a-done');
  await page.waitForSelector('.kept');
  t.equal(await page.$('#a-done'), null, 'nothing can be answered twice');
  await t.picture(page, 'answer-kept');
  await context.setOffline(false);
  await page.waitForFunction(was => ohmstead().trace.step.step !== was, first, { timeout: 30000 });

  // asleep: nothing is asked of the server; awake: what others did is there at once
  const sleep = async hidden => page.evaluate(is => {
    Object.defineProperty(document, 'hidden', { configurable: true, get: () => is });
    document.dispatchEvent(new Event('visibilitychange'));
  }, hidden);
  await sleep(true);
  const other = await t.join(server, 'trace', 'Bo');
  await other.click('#tab-trace');
  await other.click('#pl-both');
  await other.waitForSelector('#a-done');
  const asleep = await step();
  await other.click('#a-done');
  await other.waitForFunction(was => ohmstead().trace.step.step !== was, asleep);
  await page.waitForTimeout(300);
  t.equal(await step(), asleep, 'asleep it does not follow');
  await sleep(false);
  await page.waitForFunction(was => ohmstead().trace.step.step !== was, asleep, { timeout: 20000 });
  t.equal(await step(), await other.evaluate(() => ohmstead().trace.step.step), 'awake it stands where the other stands');

  // a tap that is kept outlives the page being loaded again
  await page.click('#tab-write');
  await page.route('**/api/survey', route => (route.request().method() === 'POST' ? route.abort('internetdisconnected') : route.continue()));
  await page.click('#t-light');
  await page.waitForSelector('#net:not(:empty)');
  await page.unroute('**/api/survey');
  await page.reload();
  await page.waitForFunction(() => !JSON.parse(localStorage.getItem('ohmstead.queue')).length, null, { timeout: 30000 });
  t.equal(t.record('home.house').point.length, before + 8, 'after loading again it is sent');
}
