// What the scenarios share: houses, the program, browsers, and what to hold against what is seen. Ends only what it started.

import { execFileSync, spawn } from 'node:child_process';
import fs from 'node:fs';
import http from 'node:http';
import path from 'node:path';
import { createRequire } from 'node:module';

const require = createRequire(import.meta.url);
const { chromium } = require('playwright-core');
const kAxe = fs.readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');
const kSample = path.resolve(import.meta.dirname || path.dirname(new URL(import.meta.url).pathname), '../../sample-house');
const kPhone = { width: 390, height: 844 };

/** One scenario's tools: `build` is the folder with the programs, `folder` an empty one for houses and pictures. */
export class Tools {
  constructor(build, folder, name) { Object.assign(this, { build, folder, name, ends: [], failures: [], pages: [] }); }

  check(holds, what) { if (!holds) { this.failures.push(what); console.log('FAILED: ' + what); } }
  equal(is, wanted, what) { this.check(JSON.stringify(is) === JSON.stringify(wanted), `${what}: is ${JSON.stringify(is)}, wanted ${JSON.stringify(wanted)}`); }

  // ---- houses ----

  run(...words) { return execFileSync(path.join(this.build, 'ohmstead'), words, { cwd: this.folder, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] }); }
  /** The sample house as it was written down, or traced and with a kept plan. */
  sample(name, traced = false) {
    if (traced) return this.traced(name);
    this.run('new', name, '--name', 'Hillside');
    this.run('-f', name, 'enter', path.join(kSample, 'house.txt'));
    return name;
  }
  /** Tracing takes a while: done once for a build of the program, before the first scenario, then copied. */
  traced(name) {
    const is = fs.statSync(path.join(this.build, 'ohmstead')), kept = path.join(this.build, 'browser', `traced-${is.mtimeMs}-${is.size}.house`);
    if (!fs.existsSync(kept)) {
      this.sample('traced.house');
      execFileSync(path.join(this.build, 'sample-house/replay'), [path.join(this.build, 'ohmstead'), 'traced.house', path.join(kSample, 'truth.csv')], { cwd: this.folder, stdio: 'ignore' });
      this.run('-f', 'traced.house', 'wish', 'oxygen concentrator nameplate, life safety; freezer off at most 8 h; refrigerator off at most 4 h; furnace; router; well pump');
      this.run('-f', 'traced.house', 'plan', '--keep');
      fs.renameSync(path.join(this.folder, 'traced.house'), kept);
    }
    if (name) fs.copyFileSync(kept, path.join(this.folder, name));
    return name;
  }
  entered(name, text, title = 'Test') {
    this.run('new', name, '--name', title);
    fs.writeFileSync(path.join(this.folder, name + '.txt'), text);
    this.run('-f', name, 'enter', name + '.txt');
    return name;
  }
  record(name) {
    this.run('-f', name, 'export', '-o', name + '.json');
    const text = fs.readFileSync(path.join(this.folder, name + '.json'), 'utf8');
    fs.unlinkSync(path.join(this.folder, name + '.json'));
    return JSON.parse(text);
  }
  handOver(name, ...options) {
    this.run('-f', name, 'hand-over', '-o', name + '.html', ...options);
    return path.join(this.folder, name + '.html');
  }

  // ---- the server ----

  /** Serves a house on a free port of this computer: {url, port, code(role), stop()}. */
  async serve(house) {
    const child = spawn(path.join(this.build, 'ohmstead'), ['-f', house, 'serve', '--port', '0', '--json'], { cwd: this.folder, stdio: ['pipe', 'pipe', 'pipe'] });
    const events = [], waiting = [];
    let rest = '';
    child.stdout.on('data', bytes => {
      rest += bytes;
      const rows = rest.split('\n');
      rest = rows.pop();
      for (const row of rows) {
        const event = JSON.parse(row), at = waiting.findIndex(w => w.is === event.event);
        if (at >= 0) waiting.splice(at, 1)[0].go(event); else events.push(event);
      }
    });
    child.stderr.on('data', bytes => { this.lastWords = String(bytes); });
    const next = is => {
      const at = events.findIndex(e => e.event === is);
      if (at >= 0) return Promise.resolve(events.splice(at, 1)[0]);
      return new Promise((go, no) => {
        waiting.push({ is, go });
        child.once('exit', () => no(new Error('the server ended: ' + this.lastWords)));
      });
    };
    const serving = await next('serving');
    const first = await next('code');
    let unused = first;
    const server = {
      url: serving.url.replace(/\/$/, ''), port: serving.port, pid: child.pid,
      code: async role => {
        if (unused && unused.role === role) { const code = unused; unused = null; return code; }
        unused = null;
        child.stdin.write(`n ${role}\n`);
        return next('code');
      },
      stop: () => new Promise(done => { if (child.exitCode !== null) return done(); child.once('exit', done); child.kill('SIGTERM'); }),
    };
    this.ends.push(() => server.stop());
    return server;
  }
  /** A bare request, with any header there is: {status, text}. */
  request(server, method, where, headers = {}, body = '') {
    return new Promise((done, no) => {
      const asked = http.request({ host: '127.0.0.1', port: server.port, method, path: where, headers, agent: false }, answer => {
        let text = '';
        answer.on('data', bytes => { text += bytes; });
        answer.on('end', () => done({ status: answer.statusCode, text, headers: answer.headers }));
      });
      asked.on('error', no);
      asked.end(body);
    });
  }

  // ---- browsers ----

  async browser() {
    if (!this.chrome) {
      const as_root = process.getuid && process.getuid() === 0;
      this.chrome = await chromium.launch({ executablePath: process.env.OHMSTEAD_CHROMIUM || '/usr/bin/chromium', args: [...(as_root ? ['--no-sandbox'] : []), '--host-resolver-rules=MAP *.test 127.0.0.1', '--disable-dev-shm-usage'] });
      this.ends.push(() => this.chrome.close());
    }
    return this.chrome;
  }
  /** A phone of its own: nothing shared with others. Errors of the page's script count as failures. */
  async phone(options = {}) {
    const context = await (await this.browser()).newContext({ viewport: kPhone, reducedMotion: 'reduce', hasTouch: true, ...options });
    context.setDefaultTimeout(20000);
    const page = await context.newPage();
    this.pages.push(page);
    page.on('pageerror', error => this.check(false, `the page's script: ${error.message}`));
    page.on('console', message => { if (/Content Security Policy|Refused to/.test(message.text())) this.check(false, message.text()); });
    return page;
  }
  /** Opens the house on a new phone as the scanned code does, and waits until it is in. */
  async join(server, role, name, options = {}) {
    const page = await this.phone(options), code = await server.code(role);
    await page.goto(server.url);
    await page.fill('#j-code', code.digits);
    await page.fill('#j-name', name);
    await page.click('#join');
    await page.waitForSelector('#tab-outage');
    return page;
  }
  async open(page, hash, wait) {
    await page.evaluate(to => { location.hash = to; }, hash);
    if (wait) await page.waitForSelector(wait);
  }
  async picture(page, name) { await page.screenshot({ path: path.join(this.folder, `${name}.png`) }); }
  /** axe finds nothing, nothing is wider than the screen. */
  async sound(page, what) {
    await page.evaluate(kAxe);
    const found = await page.evaluate(() => axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] }));
    for (const bad of found.violations) this.check(false, `${what}: ${bad.id}: ${bad.help}: ${bad.nodes.map(n => n.html.slice(0, 120)).join(' | ').slice(0, 400)}`);
    this.check(await this.over(page) <= 0, `${what}: ${await this.over(page)} px wider than the screen`);
  }
  /** By how much something is wider than the screen, or than the part of it that scrolls. */
  async over(page) {
    return page.evaluate(() => Math.max(...['html', '#view', '#bar', '#tabs'].map(where => document.querySelector(where)).filter(Boolean).map(box => box.scrollWidth - box.clientWidth)));
  }
  async texts(page, where) { return page.$$eval(where, all => all.map(one => one.textContent)); }

  /** What the pages showed when something failed. */
  async lastPictures() {
    for (const [i, page] of this.pages.entries()) if (!page.isClosed()) await this.picture(page, `failed-${i}`).catch(() => {});
  }
  async end() { for (const one of this.ends.reverse()) { try { await one(); } catch (error) { console.log(String(error)); } } }
}

/** What a person would see in the sample house, from its truth: {live(pointId, offRefs)}. */
export class Eyes {
  constructor(record) {
    this.record = record;
    const panels = new Map(record.panel.map(p => [p.id, p]));
    const number = b => String(b.space) + (b.half === 'whole' ? '' : b.half) + (b.poles > 1 ? '-' + (b.space + 2 * (b.poles - 1)) : '');
    this.breakers = new Map(record.breaker.map(b => [`${panels.get(b.panel).name} ${number(b)}`, b]));
    this.panels = panels;
    const rooms = new Map(record.room.map(r => [r.id, r.name]));
    this.points = new Map(record.point.map(p => [`${rooms.get(p.room)},${p.name}`, p.id]));
    this.feeds = new Map();
    for (const row of fs.readFileSync(path.join(kSample, 'truth.csv'), 'utf8').trim().split('\n').slice(1)) {
      const [room, point, , panel, breaker, , atStart] = row.split(',');
      const id = this.points.get(`${room},${point}`);
      if (!id) throw new Error(`the truth names ${room}, ${point}, which is not in the house`);
      if (!this.feeds.has(id)) this.feeds.set(id, { by: [], atStart: Number(atStart) });
      if (panel) this.feeds.get(id).by.push(this.breakers.get(`${panel} ${breaker}`));
    }
    this.woken = new Set();
  }
  /** Is it live with these handles off? `wake`: it was asked to look again, so what only had to be reset works from now on. */
  live(id, off, wake = false) {
    const feed = this.feeds.get(id), refs = new Set(off), ties = new Set(this.record.breaker.filter(b => refs.has('breaker:' + b.id) && b.tie).map(b => b.tie));
    if (wake && feed.atStart === 1) this.woken.add(id);
    if (feed.atStart === 2 || (feed.atStart === 1 && !this.woken.has(id)) || !feed.by.length) return false;
    const closed = breaker => {
      if (refs.has('breaker:' + breaker.id) || (breaker.tie && ties.has(breaker.tie))) return false;
      const panel = this.panels.get(breaker.panel);
      if (refs.has('main:' + panel.id)) return false;
      return !panel.feeder || closed(this.record.breaker.find(b => b.id === panel.feeder));
    };
    return feed.by.every(closed);
  }
}
