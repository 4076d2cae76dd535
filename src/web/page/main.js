// The frame: which view, the bars, and what happens first.

const VIEWS = { find: viewFind, thing: viewThing, handle: viewHandle, panel: viewPanel, floor: viewFloor, plan: viewPlan, trace: viewTrace, write: viewWrite,
  outage: viewOutage, sheets: viewSheets, more: viewMore, pair: viewPair };
const RANK = { look: 0, trace: 1, change: 2 };
const may = role => S.served && S.me && !S.me.read_only && RANK[S.me.role] >= RANK[role];
const tabs = () => ['find', 'panel', 'floor', may('trace') && 'trace', may('change') && 'write', 'outage'].filter(Boolean);
const route = () => location.hash.slice(1).split('/').map(part => { try { return decodeURIComponent(part); } catch (e) { return part; } });
const go = to => { if (location.hash === '#' + to) draw(); else location.hash = to; };

// ---- what is said, and what went wrong ----

/** Shows and tells a sentence for a while; `more` is only told, for it is seen elsewhere. */
const say = (text, bad, more) => {
  const box = byId('said');
  if (!box) return;
  box.textContent = '';
  clearTimeout(say.timer);
  box.className = bad ? 'bad' : text ? '' : 'unseen';  // without a text it is only told
  setTimeout(() => box.replaceChildren(text, el('span.unseen', more ? ' ' + more : '')), 30);  // a reader tells it anew even if it is the same
  say.timer = setTimeout(() => { box.textContent = ''; box.className = ''; }, bad ? 12000 : 4000);
};
const fault = what => {
  if (byId('fault')) return;
  document.body.prepend(el('div', { id: 'fault', role: 'alert' }, el('p', wFault), el('p.small', String(what)),
    button(wReload, () => location.reload()), button(wClose, () => byId('fault').remove())));
};
window.addEventListener('error', event => fault(event.message));
window.addEventListener('unhandledrejection', event => fault((event.reason && event.reason.message) || event.reason));

// ---- drawing ----

let lastRoute = null;
const draw = () => {
  const main = byId('view');
  if (!main) return;
  const [name, ...rest] = route();
  const needs = { trace: 'trace', write: 'change' }[name];
  let shown = VIEWS[name] ? name : 'find';
  if (S.served && !S.me) shown = 'pair';
  const here = location.hash, moved = here !== lastRoute, focused = document.activeElement && document.activeElement.id, top = main.scrollTop;
  const caret = document.activeElement && document.activeElement.tagName === 'INPUT' && document.activeElement.type !== 'radio' ? document.activeElement.selectionStart : null;
  let nodes;
  if (shown !== 'pair' && needs && !may(needs)) nodes = [el('h1', wTitles[shown]), el('p', why(needs))];
  else if (shown !== 'pair' && !S.view && !['trace', 'write', 'outage', 'more'].includes(shown)) nodes = [el('p.wait', S.viewFailed || wLoading)];
  else nodes = VIEWS[shown](rest);
  nodes = nodes.flat(9).filter(Boolean);
  const isBar = node => node.classList.contains('bar');
  main.replaceChildren(...nodes.filter(node => !isBar(node)));
  byId('bar').replaceChildren(...nodes.filter(isBar));
  main.className = 'is-' + shown;
  lastRoute = here;
  document.title = `${(main.querySelector('h1') || { textContent: wTitles[shown] }).textContent.slice(0, 60)} - ${houseName()}`;
  drawBars();
  if (moved) {
    main.scrollTop = 0;
    window.scrollTo(0, 0);
    if (draw.once && focused !== 'q') main.focus({ preventScroll: true });
  } else {
    main.scrollTop = top;
    const again = focused && byId(focused);
    if (again && again !== document.activeElement) {
      again.focus({ preventScroll: true });
      if (caret !== null && again.setSelectionRange && again.type !== 'number') again.setSelectionRange(caret, caret);
    } else if (focused && !again && main.querySelector('h1') && focused !== 'view') main.focus({ preventScroll: true });
  }
  draw.once = true;
};
const why = role => !S.served ? wInFile : S.me && S.me.read_only ? wReadOnly : wRoleNo[role === 'change' ? 'write' : 'trace'];
const houseName = () => (S.view && S.view.house.name) || (S.me && (S.me.house.name || S.me.house)) || wApp;

const drawBars = () => {
  const nav = byId('tabs'), [now] = route();
  if (!nav) return;
  const of = { thing: 'find', handle: 'panel', plan: 'outage' };
  const lit = of[now] || now || 'find';
  nav.replaceChildren(...(S.served && !S.me ? [] : tabs()).map(tab => el('a', { href: '#' + tab, id: 'tab-' + tab, 'aria-current': tab === lit ? 'page' : null }, wTabs[tab])));
  byId('house').textContent = houseName();
  const kept = S.served ? Queue.load().length : 0, bar = byId('net');
  const text = S.offline ? (kept ? wKept(kept) : wOffline) : kept && S.wasKept ? wKept(kept) : '';
  if (bar.textContent !== text) bar.textContent = text;
  const stamp = byId('stamp');
  stamp.textContent = !S.served && S.view ? wSaved(S.view.house.revision, S.view.house.changed_at.slice(0, 10)) : '';
};

const frame = () => {
  byId('app').replaceChildren(
    el('button.tocontent', { type: 'button', on: { click: () => byId('view').focus() } }, wSkip),
    el('header', { id: 'top' }, el('a', { href: '#find', id: 'house' }, wApp), el('span', { id: 'stamp' }), link('more', wMenu)),
    el('p', { id: 'net', role: 'status' }),
    el('p', { id: 'said', role: 'status' }),
    el('main', el('div', { id: 'view', tabindex: '-1' }), el('div', { id: 'bar' })),
    el('nav', { id: 'tabs', 'aria-label': wApp }));
  document.documentElement.classList.add('live');
  const top = byId('top').lastChild;
  top.id = 'menu';
};

const dress = () => {
  const root = document.documentElement, look = Store.get('ohmstead.look') || 'auto';
  const dark = look === 'night' || (look === 'auto' && matchMedia('(prefers-color-scheme: dark)').matches);
  root.dataset.look = dark ? 'night' : 'day';
  root.dataset.hand = Store.get('ohmstead.hand') || 'right';
};
matchMedia('(prefers-color-scheme: dark)').addEventListener('change', dress);

// ---- what is fetched, when ----

const fetchHouse = async () => {
  try {
    const view = await ask('GET', '/api/house');
    const same = S.view && S.view.variables.length === view.variables.length;
    S.view = view;
    S.stale = false;
    S.viewFailed = '';
    if (!same) S.at = usualAt();
  } catch (e) { S.viewFailed = e.message; }
};
/** Fetches again what the view that is open shows. */
const refresh = async () => {
  if (!S.served || !S.me || refresh.busy) { refresh.again = refresh.busy; return; }
  refresh.busy = true;
  try {
    const [name] = route();
    if (name === 'trace' && may('trace')) await fetchTrace();
    else if (name === 'write' && may('change')) await fetchSurvey();
    else if (name === 'outage') await fetchOutage();
    if (!S.view || (S.stale && !['trace', 'write', 'outage'].includes(name))) await fetchHouse();
    if (document.activeElement.tagName !== 'SELECT') draw();  // a list that is open would close
  } catch (e) {
    if (e.offline) online(false);
    else if (e.status !== 401) { if (e.status) say(e.message, true); else throw e; }
  } finally {
    refresh.busy = false;
    if (refresh.again) { refresh.again = false; refresh(); }
  }
};

const enter = async () => {
  try { S.me = await ask('GET', '/api/me'); }
  catch (e) {
    if (e.offline) { S.viewFailed = e.message; draw(); setTimeout(enter, 3000); return; }
  }
  draw();
  if (!S.me) return;
  await refresh();
  News.run();
  Queue.flush();
};
const unpaired = () => { if (S.me) { S.me = null; draw(); } };

/** Is the secret of a scanned code in the address? It is taken out of it. */
const scanned = () => {
  const secret = /^#pair=([\w-]+)$/.exec(location.hash);
  if (!secret) return false;
  history.replaceState(null, '', location.pathname + '#find');
  S.secret = secret[1];
  return true;
};
/** Who comes with a code for the first time says their name first. */
const begin = () => {
  if (S.served && (S.secret || scanned()) && Store.get('ohmstead.name')) joinWith({ secret: S.secret });
  else enter();
};

const start = () => {
  const file = byId('house-view');
  S.served = !file;
  dress();
  frame();
  window.addEventListener('hashchange', () => { if (scanned()) { draw(); begin(); } else { draw(); refresh(); } });
  document.addEventListener('keydown', event => { if (event.key === 'Escape') escape(); });
  if (file) {
    S.view = JSON.parse(file.textContent);
    S.at = usualAt();
    if (route()[0] && !VIEWS[route()[0]]) history.replaceState(null, '', location.pathname);
    draw();
    return;
  }
  begin();
};
/** Escape closes what was opened last, else goes back from a card. */
const escape = () => {
  const open = document.activeElement && document.activeElement.closest('details[open]');
  if (open) { open.open = false; open.firstChild.focus(); return; }
  if (S.asking) { S.asking = null; draw(); return; }
  if (['thing', 'handle', 'plan', 'more', 'sheets'].includes(route()[0])) history.back();
};
window.ohmstead = S;  // for the tests, and for who looks for a fault
start();
