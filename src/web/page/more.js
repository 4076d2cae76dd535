'use strict';
// Joining, and how this page looks.

const joinWith = async how => {
  try {
    S.joinError = '';
    const me = await ask('POST', '/api/pair', { ...how, name: typed('j-name') || Store.get('ohmstead.name') || W.anyone });
    Store.set('ohmstead.name', typed('j-name') || Store.get('ohmstead.name') || '');
    say(W.welcome(me.name || W.anyone));
    await enter();
  } catch (e) { S.joinError = e.message; draw(); const box = byId('j-code'); if (box) box.focus(); }
};
function viewPair() {
  return [el('h1', W.titles.pair), el('p', W.pairHelp), S.viewFailed ? el('p.line.k-danger', { role: 'alert' }, S.viewFailed) : null,
    el('form', { on: { submit: event => { event.preventDefault(); joinWith({ code: typed('j-code').replace(/\D/g, '') }); } } },
      field(W.code, 'j-code', { inputmode: 'numeric', autocomplete: 'one-time-code', maxlength: 20, class: 'code', 'aria-describedby': 'j-error' }), field(W.yourName, 'j-name', { maxlength: 60, autocomplete: 'nickname', value: Store.get('ohmstead.name') || '' }),
      el('p', { id: 'j-error', class: 'line k-danger', role: 'alert' }, S.joinError || ''), el('button', { id: 'join', class: 'answer done' }, W.join))];
}
function viewMore() {
  const set = (name, value) => { Store.set('ohmstead.' + name, value); dress(); draw(); };
  return [el('h1', W.titles.more),
    choice(W.look, 'look', Object.entries(W.looks), Store.get('ohmstead.look') || 'auto', v => set('look', v)), choice(W.hand, 'hand', Object.entries(W.hands), Store.get('ohmstead.hand') || 'right', v => set('hand', v)),
    S.me ? section(W.device, el('p', `${S.me.name || W.anyone}: ${W.role(S.me.role)}${S.me.read_only ? '. ' + W.readOnly : ''}`)) : null,
    S.view ? section(W.house, el('p', `${S.view.house.name}, ${W.revision(S.view.house.revision)}`), S.view.house.private ? null : el('p', W.privateLeft), S.view.cautions.map(c => el('p.line.k-caution', c))) : null,
    S.served ? null : [el('p', W.inFile), byId('paper') ? button(W.plain, () => { document.documentElement.classList.remove('live'); byId('paper').scrollIntoView(); }, { id: 'plain', class: 'wide' }) : null]];
}
