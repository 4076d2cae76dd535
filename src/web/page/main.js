// The frame: which view, the bars, and what happens first.

const VIEWS = { find: viewFind, thing: viewThing, handle: viewHandle, panel: viewPanel, floor: viewFloor, plan: viewPlan, trace: viewTrace, write: viewWrite,
  outage: viewOutage, sheets: viewSheets, more: viewMore, pair: viewPair };
const RANK = { look: 0, trace: 1, change: 2 };
const may = role => inHouse() && !$me.read_only && RANK[$me.role] >= RANK[role];
const tabs = () => ['find', 'panel', 'floor', may('trace') && 'trace', may('change') && 'write', 'outage'].filter(isThere);
const route = () => location.hash.slice(1).split('/').map(part => { try { return decodeURIComponent(part); } catch (e) { return part; } });
const go = to => { if (location.hash === '#' + to) draw(); else location.hash = to; };

// ---- what is said, and what went wrong ----

/** Shows and tells a sentence for a while; `more` is only told, for it is seen elsewhere. */
const say = (text, bad, more = '') => {
  const box = byId('said');
  if (!box) return;
  const empty = look => { box.textContent = ''; box.className = look; };
  clearTimeout(say.timer);
  empty(bad ? 'bad' : text ? '' : 'unseen');  // without a text it is only told
  setTimeout(() => box.replaceChildren(text, el('span.unseen', ' ' + more)), 30);  // a reader tells it anew even if it is the same
  say.timer = setTimeout(empty, bad ? 12000 : 4000, '');
};
const fault = what => {
  if (byId('fault')) return;
  doc.body.prepend(el('#fault', ALERT, paragraph(wFault), less('' + what),
    button(wReload, () => location.reload()), button(wClose, () => byId('fault').remove())));
};
onerror = fault;
onunhandledrejection = ({ reason }) => fault((reason && reason.message) || reason);

// ---- drawing ----

const NEEDS = { trace: 'trace', write: 'change' };
/** What is shown of a view: where the page may not, why; where the record is not there yet, that. */
const nodesOf = (name, rest) => {
  if (name === 'pair') return viewPair();
  if (NEEDS[name] && !may(NEEDS[name])) return bare(wTitles[name], paragraph(!$served ? wInFile : $me.read_only ? wReadOnly : wRoleNo[name]));
  if (!$view && !['trace', 'write', 'outage', 'more'].includes(name)) return [el('p.wait', $viewFailed || wLoading)];
  return VIEWS[name](rest);
};
let lastRoute = null, drawnOnce = false;
const draw = () => {
  const main = byId('view');
  if (!main) return;
  const [name, ...rest] = route(), shown = $served && !$me ? 'pair' : VIEWS[name] ? name : 'find';
  const here = location.hash, moved = here !== lastRoute, { id, selectionStart } = focused(), top = main.scrollTop;
  const nodes = nodesOf(shown, rest).flat(9).filter(isThere), isBar = node => node.classList.contains('bar');
  main.replaceChildren(...nodes.filter(node => !isBar(node)));
  byId('bar').replaceChildren(...nodes.filter(isBar));
  main.className = 'is-' + shown;
  lastRoute = here;
  const title = main.querySelector('h1'), again = id && byId(id);
  doc.title = `${(title ? title.textContent : wTitles[shown]).slice(0, 60)} - ${houseName()}`;
  drawBars();
  main.scrollTop = moved ? 0 : top;
  if (moved) {
    scrollTo(0, 0);
    if (drawnOnce && id !== 'q') focusOn(main);
  } else if (again && again !== focused()) {
    focusOn(again);
    if (typeof selectionStart === 'number') again.setSelectionRange(selectionStart, selectionStart);
  } else if (id && !again && title && id !== 'view') focusOn(main);
  drawnOnce = true;
};
const houseName = () => ($view && $view.house.name) || ($me && $me.house) || wApp;

const TAB_OF = { thing: 'find', handle: 'panel', plan: 'outage' };
const drawBars = () => {
  const nav = byId('tabs'), [now = ''] = route(), lit = TAB_OF[now] || now || 'find';
  if (!nav) return;
  nav.replaceChildren(...($served && !$me ? [] : tabs()).map(tab => el('a', { href: '#' + tab, id: 'tab-' + tab, 'aria-current': tab === lit && 'page' }, wTabs[tab])));
  byId('house').textContent = houseName();
  const count = $served ? queue().length : 0, bar = byId('net'), text = count && ($offline || $wasKept) ? wKept(count) : $offline ? wOffline : '';
  if (bar.textContent !== text) bar.textContent = text;
  byId('stamp').textContent = !$served && $view ? wSaved($view.house.revision, $view.house.changed_at.slice(0, 10)) : '';
};

const frame = () => {
  byId('app').replaceChildren(
    button(wSkip, () => byId('view').focus(), '.tocontent'),
    el('header#top', el('a#house', { href: '#find' }, wApp), el('span#stamp'), el('a#menu', { href: '#more' }, wMenu)),
    el('p#net', TOLD),
    el('p#said', TOLD),
    el('main', el('#view', { tabindex: '-1' }), el('#bar')),
    el('nav#tabs', { [LABEL]: wApp }));
  root.classList.add('live');
};

const atNight = matchMedia('(prefers-color-scheme: dark)');
const dress = () => {
  const look = lookOf('look');
  root.dataset.look = look === 'auto' ? atNight.matches ? 'night' : 'day' : look;
  root.dataset.hand = lookOf('hand');
};
atNight.onchange = dress;

// ---- what is fetched, when ----

const fetchHouse = async () => {
  try {
    const view = await ask('/api/house'), same = $view && $view.variables.length === view.variables.length;
    $view = view;
    $stale = false;
    $viewFailed = '';
    if (!same) $at = usualAt();
  } catch (e) { $viewFailed = e.message; }
};
/** Fetches again what the view that is open shows. */
const refresh = async () => {
  if (!inHouse() || refresh.busy) { refresh.again = refresh.busy; return; }
  refresh.busy = true;
  try {
    const [name] = route(), fetchIt = { trace: may('trace') && fetchTrace, write: may('change') && fetchSurvey, outage: fetchOutage }[name];
    if (fetchIt) await fetchIt();
    if (!$view || ($stale && !fetchIt)) await fetchHouse();
    if (focused().tagName !== 'SELECT') draw();  // a list that is open would close
  } catch (e) {
    if (e.offline) online(false);
    else if (!e.status) throw e;
    else if (e.status !== 401) say(e.message, true);
  } finally {
    refresh.busy = false;
    if (refresh.again) { refresh.again = false; refresh(); }
  }
};

const enter = async () => {
  try { $me = await ask('/api/me'); }
  catch (e) {
    if (e.offline) { $viewFailed = e.message; draw(); setTimeout(enter, 3000); return; }
  }
  draw();
  if (!$me) return;
  await refresh();
  waitForNews();
  flush();
};
const unpaired = () => { if ($me) { $me = null; draw(); } };

/** Is the secret of a scanned code in the address? It is taken out of it. */
const scanned = () => {
  const secret = /^#pair=([\w-]+)$/.exec(location.hash);
  if (!secret) return false;
  history.replaceState(null, '', location.pathname + '#find');
  $secret = secret[1];
  return true;
};
/** Who comes with a code for the first time says their name first. */
const begin = () => {
  if (($secret || scanned()) && recall('name')) joinWith({ secret: $secret });
  else enter();
};

const start = () => {
  const file = byId('house-view');
  $served = !file;
  dress();
  frame();
  onhashchange = () => { const isNew = $served && scanned(); draw(); if (isNew) begin(); else refresh(); };
  doc.onkeydown = event => { if (event.key === 'Escape') escape(); };
  if (!file) { begin(); return; }
  $view = JSON.parse(file.textContent);
  $at = usualAt();
  if (route()[0] && !VIEWS[route()[0]]) history.replaceState(null, '', location.pathname);
  draw();
  if ($view.photos.length) onload = draw;  // the pictures stand behind this script
};
/** Escape closes what was opened last, else goes back from a card. */
const escape = () => {
  const open = focused().closest('details[open]');
  if (open) { open.open = false; open.firstChild.focus(); }
  else if ($asking) closeAsk();
  else if (['thing', 'handle', 'plan', 'more', 'sheets'].includes(route()[0])) history.back();
};
window.ohmstead = () => ({ view: $view, now: $now, trace: $trace, outage: $outage });  // for the tests, and for who looks for a fault
start();
