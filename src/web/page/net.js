// Talking to the house computer: requests, waiting for news, and a queue that outlives a lost connection and a closed page.

const KEEP = 'queue', WAIT_MS = 27000, ASK_MS = 12000;

/** Keeps small things on this phone; does without where it may not. */
const memory = {};
const recall = name => { try { if ($served) return localStorage.getItem('ohmstead.' + name); } catch (e) { /* private window */ } return memory[name]; };
const remember = (name, text) => { memory[name] = text; try { if ($served) localStorage.setItem('ohmstead.' + name, text); } catch (e) { /* private window */ } };

/** One request. Throws {offline} when nothing came back, {status, message} when it was refused. */
const ask = async (path, body, ms = ASK_MS, stop = []) => {
  const ender = new AbortController(), end = () => ender.abort(), timer = setTimeout(end, ms);
  stop.push(end);
  let answer, json;
  try {
    answer = await fetch(path, { signal: ender.signal, cache: 'no-store',
      ...(body && { method: 'POST', headers: { 'Content-Type': 'application/json', 'X-Ohmstead': '1' }, body: JSON.stringify(body) }) });
    json = JSON.parse(await answer.text());
  } catch (e) { /* nothing, or not of the house computer */ } finally { clearTimeout(timer); }
  // At its address something else may answer, such as the sign-in page of another Wi-Fi: that refuses nothing, and takes nothing.
  if (!json || (!answer.ok && !json.error)) throw { offline: true, message: wUnreachable };
  online(true);
  if (answer.ok) return json;
  if (answer.status === 401) unpaired();
  throw { status: answer.status, message: json.error.message };
};

const online = is => {
  if ($offline === !is) return;
  $offline = !is;
  if (is) flush();
  drawBars();
};
/** Tells what a request threw. */
const tellFailed = e => { if (e.offline) online(false); say(e.message, true); };
const tellRefused = e => say(wRefused + e.message, true);

/** A text of 20 letters and digits, drawn anew for each thing a person does. */
const newKey = () => Array.from(crypto.getRandomValues(new Uint8Array(20)), b => (b % 32).toString(32)).join('');

/** A program's fault may have come after the answer was on disk: it is sent again, with its key, before it is given up. */
const MOST_FAULTS = 3;
const isForLater = (refused, one) => {
  if (refused.status === 500) one.faults = (one.faults || 0) + 1;
  return refused.offline || [401, 429, 503].includes(refused.status) || (refused.status === 500 && one.faults < MOST_FAULTS);
};

// ---- the queue: {key, path, body, said}, in the order in which they were tapped ----

let queued = null, sending = false, pause = 1000, timer;
const mine = new Set(), after = {};
const stored = () => { try { return JSON.parse(recall(KEEP) || '[]'); } catch (e) { return []; } };
const queue = () => {
  if (!queued) { queued = stored(); queued.forEach(one => mine.add(one.key)); }
  return queued;
};
const queuedFor = path => queue().filter(one => one.path === path);
/** What another tab of this page keeps stays kept. */
const keepQueue = () => {
  const text = JSON.stringify(stored().filter(one => !mine.has(one.key)).concat(queued));
  if (text !== recall(KEEP)) remember(KEEP, text);
  drawBars();
};
/** Sends it now or later, once, in order. `done` gets the answer, `failed` the refusal, if this page still lives by then. */
const send = (path, body, said, done, failed) => {
  const one = { key: newKey(), path, body, said };
  queue().push(one);
  mine.add(one.key);
  after[one.key] = { done, failed };
  keepQueue();
  flush();
  return one;
};
/** Takes back what was not sent yet; false if it is gone, or was tried: then it may be on disk though no reply came. */
const dropQueued = one => {
  const at = queue().indexOf(one);
  if (at < 0 || one.tried) return false;
  queued.splice(at, 1);
  keepQueue();
  return true;
};
const flush = async () => {
  if (sending || !$served || !queue().length) return;
  sending = true;
  let told = false;
  try {
    while (queued.length) {
      const one = queued[0], { done, failed = tellRefused } = after[one.key] || {};
      let answer, refused;
      one.tried = true;
      try { answer = await ask(one.path, { ...one.body, key: one.key }); }
      catch (e) {
        if (isForLater(e, one)) { later(e); return; }
        refused = e;
      }
      queued.shift();
      if (refused) queued = queued.filter(other => other.undoes !== one.key);  // it would take back what was before it
      delete after[one.key];
      keepQueue();
      pause = 1000;
      if (refused) { told = true; failed(refused); continue; }
      if (one.path === SURVEY) surveyTaken(one, answer);
      if (done) done(answer);
    }
    if ($wasKept && !told) say(wSent);
    $wasKept = false;
    refresh();
  } finally { sending = false; setTimeout(keepQueue, 999); }  // another tab may have put back what it read before
};
const later = why => {
  if (why.offline) $offline = $wasKept = true;
  else if (why.status !== 401) say(why.message, true);
  clearTimeout(timer);
  timer = setTimeout(flush, pause);
  pause = min(pause * 2, 8000);
  draw();
};

// ---- news: waited for as long as the page is seen ----

const stops = [];
let waits = false, goOn = () => {};
const inHouse = () => $served && $me;
const takeNews = news => {
  if (news.change === $change) return;
  const first = !$change;
  $change = news.change;
  if (!first || !$view || news.revision !== $view.house.revision) { $stale = true; refresh(); }
};
const waitForNews = async () => {
  if (waits) return;
  waits = true;
  for (let rest = 500; inHouse() && !doc.hidden;) {
    try {
      takeNews(await ask(`/api/wait?since=${$change}`, null, WAIT_MS, stops));
      stops.length = 0;
      rest = 500;
    } catch (e) {
      if (doc.hidden || e.status === 401) break;
      if (e.offline) online(false);
      await new Promise(go => { goOn = go; setTimeout(go, e.status === 503 ? 3000 : rest); });
      rest = min(rest * 2, 8000);
    }
  }
  waits = false;
};
/** The phone woke up, or the connection is back. */
const wake = () => { if (inHouse()) { goOn(); pause = 1000; flush(); waitForNews(); refresh(); } };
doc.onvisibilitychange = () => { if (doc.hidden) stops.splice(0).forEach(stop => stop()); else wake(); };
ononline = wake;
onpageshow = event => { if (event.persisted) wake(); };
