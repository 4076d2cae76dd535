// Talking to the house computer: requests, waiting for news, and a queue that outlives a lost connection and a closed page.

const KEEP = 'ohmstead.queue';
const WAIT_MS = 27000, ASK_MS = 12000;

/** Keeps small things on this phone; does without where it may not. */
const Store = {
  memory: {},
  get(name) { try { return S.served ? localStorage.getItem(name) : this.memory[name]; } catch (e) { return this.memory[name]; } },
  set(name, text) { this.memory[name] = text; try { if (S.served) localStorage.setItem(name, text); } catch (e) { /* private window */ } },
};

/** One request. Throws {offline} when nothing came back, {status, message} when it was refused. */
const ask = async (method, path, body, ms = ASK_MS, stop = null) => {
  const ender = new AbortController();
  const timer = setTimeout(() => ender.abort(), ms);
  if (stop) stop.push(() => ender.abort());
  let answer, text;
  try {
    answer = await fetch(path, { method, signal: ender.signal, cache: 'no-store', credentials: 'same-origin',
      headers: body ? { 'Content-Type': 'application/json', 'X-Ohmstead': '1' } : {}, body: body ? JSON.stringify(body) : undefined });
    text = await answer.text();
  } catch (e) {
    throw { offline: true, message: wUnreachable };
  } finally { clearTimeout(timer); }
  let json = null;
  try { json = JSON.parse(text); } catch (e) { /* not of the house computer */ }
  // At its address something else may answer, such as the sign-in page of another Wi-Fi: that refuses nothing, and takes nothing.
  if (!json || (!answer.ok && !json.error)) throw { offline: true, message: wUnreachable };
  online(true);
  if (!answer.ok) {
    if (answer.status === 401) unpaired();
    throw { status: answer.status, kind: json.error.kind, message: json.error.message };
  }
  return json;
};

const online = is => {
  if (S.offline === !is) return;
  S.offline = !is;
  if (is) Queue.flush();
  drawBars();
};

/** A text of 20 letters and digits, drawn anew for each thing a person does. */
const newKey = () => Array.from(crypto.getRandomValues(new Uint8Array(20)), b => 'abcdefghijkmnpqrstuvwxyz23456789'[b % 32]).join('');

/** A program's fault may have come after the answer was on disk: it is sent again, with its key, before it is given up. */
const MOST_FAULTS = 3;
const isForLater = (refused, one) => {
  if (refused.status === 500) one.faults = (one.faults || 0) + 1;
  return refused.offline || [401, 429, 503].includes(refused.status) || (refused.status === 500 && one.faults < MOST_FAULTS);
};

const Queue = {
  all: null, mine: new Set(), busy: false, timer: 0, wait: 1000, after: {},
  stored() { try { return JSON.parse(Store.get(KEEP) || '[]'); } catch (e) { return []; } },
  load() {
    if (!this.all) { this.all = this.stored(); this.all.forEach(one => this.mine.add(one.key)); }
    return this.all;
  },
  /** What another tab of this page keeps stays kept. */
  keep() { Store.set(KEEP, JSON.stringify(this.stored().filter(one => !this.mine.has(one.key)).concat(this.all))); drawBars(); },
  /** Sends it now or later, once, in order. `done` gets the answer, `failed` the refusal, if this page still lives by then. */
  add(path, body, said, done, failed) {
    const one = { key: newKey(), path, body, said };
    this.load().push(one);
    this.mine.add(one.key);
    this.after[one.key] = { done, failed };
    this.keep();
    this.flush();
    return one;
  },
  /** Takes back what was not sent yet; false if it is gone, or was tried: then it may be on disk though no reply came. */
  drop(one) {
    const at = this.load().findIndex(other => other.key === one.key);
    if (at < 0 || one.tried) return false;
    this.all.splice(at, 1);
    this.keep();
    return true;
  },
  of(path) { return this.load().filter(one => one.path === path); },
  async flush() {
    if (this.busy || !S.served || !this.load().length) return;
    this.busy = true;
    const had = this.all.length;
    let told = false;
    try {
      while (this.all.length) {
        const one = this.all[0], after = this.after[one.key] || {};
        let answer = null, refused = null;
        one.tried = true;
        try { answer = await ask('POST', one.path, { ...one.body, key: one.key }); }
        catch (e) {
          if (isForLater(e, one)) { this.later(e); return; }
          refused = e;
        }
        this.all.shift();
        if (refused) this.all = this.all.filter(other => other.undoes !== one.key);  // it would take back what was before it
        delete this.after[one.key];
        this.keep();
        this.wait = 1000;
        if (refused) { told = true; if (after.failed) after.failed(refused); else say(wRefused + refused.message, true); }
        else {
          if (one.path === SURVEY) surveyTaken(one, answer);
          if (after.done) after.done(answer);
        }
      }
      if (S.wasKept && had && !told) say(wSent);
      S.wasKept = false;
      refresh();
    } finally { this.busy = false; drawBars(); }
  },
  later(why) {
    if (why.offline) { S.offline = true; S.wasKept = true; }
    else if (why.status !== 401) say(why.message, true);
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.flush(), this.wait);
    this.wait = Math.min(this.wait * 2, 8000);
    draw();
  },
};

/** Waits for news for as long as the page is seen. */
const News = {
  stops: [], running: false,
  async run() {
    if (this.running || !S.served || !S.me || document.hidden) return;
    this.running = true;
    let pause = 500;
    while (S.me && !document.hidden) {
      try {
        const news = await ask('GET', `/api/wait?since=${S.change}`, null, WAIT_MS, this.stops);
        this.stops.length = 0;
        pause = 500;
        if (news.change !== S.change) {
          const first = S.change === 0;
          S.change = news.change;
          if (!first || news.revision !== (S.view || { house: {} }).house.revision) { S.stale = true; refresh(); }
        }
      } catch (e) {
        if (document.hidden) break;
        if (e.offline) online(false);
        if (e.status === 401) break;
        await new Promise(go => { this.go = go; setTimeout(go, e.status === 503 ? 3000 : pause); });
        pause = Math.min(pause * 2, 8000);
      }
    }
    this.running = false;
  },
  stop() { this.stops.splice(0).forEach(stop => stop()); },
  /** The phone woke up, or the connection is back. */
  wake() { if (this.go) this.go(); Queue.wait = 1000; Queue.flush(); this.run(); refresh(); },
};
document.addEventListener('visibilitychange', () => { if (document.hidden) News.stop(); else if (S.served && S.me) News.wake(); });
window.addEventListener('online', () => { if (S.served && S.me) News.wake(); });
window.addEventListener('pageshow', event => { if (event.persisted && S.served && S.me) News.wake(); });
