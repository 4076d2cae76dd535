// Elements made from values: text is always set as text, never as markup.

/** el('p.over', {id, on: {click}}, child or text ...): the properties may be left out; so is what is null or false. */
const el = (tag, ...rest) => {
  const [name, ...classes] = tag.split('.'), node = document.createElement(name);
  if (classes.length) node.className = classes.join(' ');
  return fill(node, isProps(rest[0]) ? rest.shift() : null, rest);
};
const svg = (tag, props, ...children) => fill(document.createElementNS('http://www.w3.org/2000/svg', tag), props, children);
const isProps = x => x && typeof x === 'object' && !Array.isArray(x) && !(x instanceof Node);

const fill = (node, props, children) => {
  for (const [name, value] of Object.entries(props || {})) {
    if (value === null || value === undefined || value === false) continue;
    if (name === 'on') for (const [event, run] of Object.entries(value)) node.addEventListener(event, run);
    else if (name === 'style') for (const [key, to] of Object.entries(value)) node.style.setProperty(key, to);
    else if (name === 'value') node.value = value;
    else if (name === 'class' && node.className && typeof node.className === 'string') node.className += ' ' + value;
    else node.setAttribute(name, value === true ? '' : value);
  }
  for (const child of children.flat(9)) if (child || child === 0) node.append(child);
  return node;
};

const byId = id => document.getElementById(id);
const button = (text, run, props) => el('button', { type: 'button', ...props, on: { click: run } }, text);
const link = (to, ...children) => el('a', { href: '#' + to }, ...children);
/** A big button with a line below its word. */
const bigButton = (cls, id, run, text, below, props) => button([el('b', text), below ? el('span.small', below) : null], run, { id, class: cls, ...props });
/** What is sent by a button or the key Enter. */
const form = (run, ...children) => el('form', { on: { submit: event => { event.preventDefault(); run(); } } }, ...children);
const picks = (title, names, hash, at) => names.length > 1 ? el('nav.pick', { 'aria-label': title }, names.map((name, i) => el('a', { href: `#${hash}/${i}`, 'aria-current': i === at ? 'page' : null }, name))) : null;
const backLink = () => button(wBack, () => (history.length > 1 ? history.back() : go('find')), { class: 'backlink', id: 'goback' });
const list = (items, of, props) => el('ul', props, items.map(item => el('li', of ? of(item) : item)));
const section = (title, ...children) => el('section', el('h2', title), ...children);
/** What is folded away is made when it is opened. */
const folded = (title, id, make) => {
  const open = S.open.has(id), box = el('details', { id: 'd-' + id, open }, el('summary', { id: 's-' + id }, title), open ? make() : null);
  box.addEventListener('toggle', () => {
    if (box.open === S.open.has(id)) return;
    S.open[box.open ? 'add' : 'delete'](id);
    if (box.open && !box.children[1]) fill(box, null, [make()]);
  });
  return box;
};
/** A field with its label; what is typed outlives a new drawing of the view. */
const field = (label, id, props) => {
  const input = el(props && props.options ? 'select' : 'input', { id, autocomplete: 'off', ...props, options: null, value: null },
    ((props && props.options) || []).map(([value, text]) => el('option', { value }, text)));
  const kept = S.typed[id] === undefined ? props && props.value : S.typed[id];
  if (kept !== undefined && kept !== null) input.value = kept;
  for (const event of ['input', 'change']) input.addEventListener(event, () => { S.typed[id] = input.value; });
  return el('div.field', el('label', { for: id }, label), input);
};
const typed = id => (byId(id) ? byId(id).value : S.typed[id] || '').trim();
const forget = (...ids) => ids.forEach(id => { delete S.typed[id]; });
/** A group of radio buttons drawn as a bar. */
const choice = (title, name, options, now, run, hidden) => el('fieldset.choice', el('legend', { class: hidden && 'unseen' }, title),
  options.map(([value, text], i) => {
    const id = `${name}-${i}`;
    const input = el('input', { type: 'radio', name, id, value, on: { change: () => run(value) } });
    input.checked = value === now;
    return el('label', { for: id }, input, el('span', text));
  }));

/** Lines as the server writes them: {kind, text, items}. */
const lines = (all, without) => (all || []).filter(line => line.kind !== without).map(line =>
  el('div', { class: 'line k-' + line.kind }, el('p', line.kind === 'danger' ? el('b.bang', '! ') : null, line.text),
    line.items && line.items.length ? list(line.items) : null));

/** Sentences parted by line breaks; those that begin with "- " are a list. */
const sentences = text => {
  const out = [];
  for (const row of String(text || '').split('\n')) {
    if (row.startsWith('- ')) {
      if (!out.length || out[out.length - 1].tagName !== 'UL') out.push(el('ul'));
      out[out.length - 1].append(el('li', row.slice(2)));
    } else if (row.trim()) out.push(el('p', row));
  }
  return out;
};
