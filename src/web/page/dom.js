// Elements made from values: text is always set as text, never as markup.

const { max, min } = Math, { entries } = Object, encode = encodeURIComponent, doc = document, root = doc.documentElement;

/**
 * el('p#name.over', {href, click}, child or text ...): '.over' is a div; the properties may be left out; what is null, false or '' is no child. A property that is a
 * function listens to the event of its name.
 */
const el = (tag, ...rest) => {
  const node = doc.createElement(tag.match(/^\w*/)[0] || 'div');
  for (const mark of tag.match(/[.#][^.#]+/g) || []) if (mark[0] === '#') node.id = mark.slice(1); else node.classList.add(mark.slice(1));
  return fill(node, rest[0] && rest[0].constructor === Object ? rest.shift() : {}, rest);
};
const svg = (tag, props, ...children) => fill(doc.createElementNS('http://www.w3.org/2000/svg', tag), props, children);

const fill = (node, props, children) => {
  for (const [name, value] of entries(props)) {
    if (value === undefined || value === null || value === false) continue;
    if (typeof value === 'function') node.addEventListener(name, value);
    else if (name === 'style') for (const key in value) node.style.setProperty(key, value[key]);
    else if (name === 'class') node.classList.add(...value.split(' ').filter(isThere));
    else if (name === 'value' || name === 'checked') node[name] = value;
    else node.setAttribute(name, value === true ? '' : value);
  }
  node.append(...children.flat(9).filter(isThere));
  return node;
};

/** A page's heading, what stands above it in small, what helps, what is less, and what takes the room that is left in its row: `has` is a child or a list of them. */
const heading = has => el('h1', has), over = has => el('p.over', has), hint = has => el('p.hint', has), less = has => el('p.small', has), small = has => el('span.small', has), grow = has => el('span.grow', has);
const isThere = child => child, LABEL = 'aria-label', TOLD = { role: 'status' }, ALERT = { role: 'alert' };

const byId = id => doc.getElementById(id);
const focused = () => doc.activeElement || doc.body;
const focusOn = node => node.focus({ preventScroll: true });
const toTop = () => { byId('view').scrollTop = 0; };
/** Goes to what is further down, for eyes and for readers. */
const jumpTo = id => { focusOn(byId(id)); byId(id).scrollIntoView(); };
/** button('Text', run, '#id.class', {more properties}) */
const button = (text, click, marks = '', props) => el('button' + marks, { type: 'button', click, ...props }, text);
const link = (to, ...children) => el('a', { href: '#' + to }, ...children);
/** A big button with a line below its word. */
const bigButton = (marks, run, text, below, props) => button([el('b', text), below && small(below)], run, marks, props);
/** What is sent by a button or the key Enter. */
const form = (run, ...children) => el('form', { submit: event => { event.preventDefault(); run(); } }, ...children);
const picks = (title, names, hash, at) => names.length > 1 && el('nav.pick', { [LABEL]: title }, names.map((name, i) => el('a', { href: `#${hash}/${i}`, 'aria-current': i === at && 'page' }, name)));
const backLink = () => button(wBack, () => (history.length > 1 ? history.back() : go('find')), '#goback.backlink');
const list = (items, of, marks = '') => el('ul' + marks, items.map(item => el('li', of ? of(item) : item)));
const section = (title, ...children) => el('section', el('h2', title), ...children);
const counted = (title, some, ...children) => section(`${title} (${some.length})`, ...children);
/** An h1 and what stands below it while there is nothing else. */
const bare = (title, ...children) => [heading(title), ...children];
const waiting = title => bare(title, el('p.wait', wLoading));
const paragraph = (...all) => el('p', all);
/** What is folded away is made when it is opened. */
const folded = (title, id, make) => {
  const open = $open.has(id), box = el('details', { id: 'd-' + id, open, toggle: () => {
    if (box.open === $open.has(id)) return;
    $open[box.open ? 'add' : 'delete'](id);
    if (box.open && !box.children[1]) fill(box, {}, [make()]);
  } }, el('summary', { id: 's-' + id }, title), open && make());
  return box;
};
/** A field with its label; what is typed outlives a new drawing of the view. */
const field = (label, id, { options, value, ...props } = {}) => {
  const keep = () => { $typed[id] = input.value; };
  const input = el(options ? 'select' : 'input', { id, autocomplete: 'off', input: keep, change: keep, ...props }, (options || []).map(([value, text]) => el('option', { value }, text)));
  const kept = $typed[id] === undefined ? value : $typed[id];
  if (kept !== undefined && kept !== null) input.value = kept;
  return el('.field', el('label', { for: id }, label), input);
};
const typed = id => (byId(id) ? byId(id).value : $typed[id] || '').trim();
const forget = (...ids) => ids.forEach(id => { delete $typed[id]; });
/** A group of radio buttons drawn as a bar. */
const choice = (title, name, options, now, run) => el('fieldset.choice', el('legend', title),
  options.map(([value, text], i) => {
    const id = `${name}-${i}`;
    return el('label', { for: id }, el('input', { type: 'radio', name, id, value, checked: value === now, change: () => run(value) }), el('span', text));
  }));

/** Lines as the server writes them: {kind, text, items}. */
const lines = all => (all || []).map(({ kind, text, items }) =>
  el('.line.k-' + kind, paragraph(kind === 'danger' && el('b.bang', '! '), text), items && items.length && list(items)));
const isDanger = line => line.kind === 'danger';
const caution = text => el('p.line.k-caution', text);

/** Sentences parted by line breaks; those that begin with "- " are a list. */
const sentences = text => {
  const out = [];
  for (const row of (text || '').split('\n')) {
    if (row.startsWith('- ')) {
      if (!out.length || out[out.length - 1].tagName !== 'UL') out.push(el('ul'));
      out[out.length - 1].append(el('li', row.slice(2)));
    } else if (row.trim()) out.push(paragraph(row));
  }
  return out;
};
