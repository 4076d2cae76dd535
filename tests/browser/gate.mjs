// Who is let in, and who is not: a wrong code, a role that may not, a forged Host, a write from another site.

export async function scenario(t) {
  t.sample('home.house');
  const server = await t.serve('home.house');
  const before = t.run('-f', 'home.house', 'export', '-o', '-');

  const page = await t.phone();
  await page.goto(server.url);
  await page.fill('#j-code', '00000000');
  await page.click('#join');
  await page.waitForSelector('#j-error:not(:empty)');
  t.check((await page.textContent('#j-error')).length > 10, 'a wrong code is refused with a sentence');
  t.equal(await page.$('#tab-find'), null, 'nothing of the house is shown before pairing');
  await t.picture(page, 'refused');
  const code = await server.code('look');
  await page.goto(code.url);
  await page.waitForFunction(() => !document.querySelector('#j-code'));
  t.check(!page.url().includes(code.secret), 'the secret does not stay in the address');
  t.equal(await page.$('#j-code'), null, 'who scanned the code types none, only a name');
  await page.fill('#j-name', 'Kid');
  await page.click('#join');
  await page.waitForSelector('#tab-outage');

  t.equal(await t.texts(page, '#tabs a'), ['Find', 'Panel', 'Floor', 'Outage'], 'who may look is shown what may be looked at');
  await t.open(page, 'trace', '#view h1');
  t.check((await page.textContent('#view')).includes('may only look'), 'and told why not more');
  const post = (where, body, headers = {}) => page.evaluate(async ([to, text, more]) => (await fetch(to, { method: 'POST', headers: { 'Content-Type': 'application/json', 'X-Ohmstead': '1', ...more }, body: text })).status, [where, JSON.stringify(body), headers]);
  t.equal(await post('/api/trace', { do: 'undo', key: 'abcdefgh1' }), 403, 'a look may not trace');
  t.equal(await post('/api/survey', { do: 'room', name: 'x', key: 'abcdefgh2' }), 403, 'a look may not change');
  const tracer = await t.join(server, 'trace', 'Ann');
  t.equal(await tracer.evaluate(async () => (await fetch('/api/survey', { method: 'POST', headers: { 'Content-Type': 'application/json', 'X-Ohmstead': '1' }, body: '{"do":"room","name":"x","key":"abcdefgh3"}' })).status), 403, 'a tracer may not change');

  // a phone that may look is let in to trace with another code
  await page.goto((await server.code('trace')).url);
  await page.waitForSelector('#tab-trace');
  t.equal(await page.evaluate(async () => (await (await fetch('/api/me')).json()).name), 'Kid', 'under the name it had');

  // a forged Host, as after a name was rebound to this address
  const [cookie] = (await page.context().cookies()).map(c => `${c.name}=${c.value}`);
  const host = `127.0.0.1:${server.port}`;
  t.equal((await t.request(server, 'GET', '/api/me', { Host: host, Cookie: cookie })).status, 200, 'its own Host');
  t.equal((await t.request(server, 'GET', '/api/me', { Host: `evil.test:${server.port}`, Cookie: cookie })).status, 421, 'a forged Host');
  const rebound = await t.phone();
  const answer = await rebound.goto(`http://evil.test:${server.port}/`).catch(error => ({ status: () => String(error) }));
  t.equal(answer.status(), 421, 'a rebound name in a browser');

  // another site writes: it reaches nothing, with the visitor's cookie or without
  const json = { 'Content-Type': 'application/json', 'X-Ohmstead': '1', Host: host, Cookie: cookie };
  t.equal((await t.request(server, 'POST', '/api/place', { ...json, Origin: 'http://evil.test' }, '{"place":"rooms","ready":true}')).status, 403, 'a foreign Origin');
  t.equal((await t.request(server, 'POST', '/api/place', json, '{"place":"rooms","ready":true}')).status, 403, 'no Origin');
  t.equal((await t.request(server, 'POST', '/api/place', { ...json, Origin: server.url, 'X-Ohmstead': '' }, '{}')).status, 403, 'without the own header');
  const site = await page.context().newPage();
  await site.route('http://other.test/', route => route.fulfill({ contentType: 'text/html', body: `<form method=post enctype=text/plain action="${server.url}/api/survey"><input name='{"do":"room","name":"evil","x":"' value='"}'></form>` }));
  await site.goto('http://other.test/');
  const [written] = await Promise.all([site.waitForResponse(r => r.url().includes('/api/survey')), site.evaluate(() => document.forms[0].submit())]);
  t.check(written.status() >= 400, `a form of another site: ${written.status()}`);
  t.equal(t.run('-f', 'home.house', 'export', '-o', '-'), before, 'nothing was written');
}
