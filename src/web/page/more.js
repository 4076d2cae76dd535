// Joining, and how this page looks.

const joinWith = async how => {
  try {
    S.joinError = S.secret = '';
    const me = await ask('POST', '/api/pair', { ...how, name: typed('j-name') || Store.get('ohmstead.name') || wAnyone });
    Store.set('ohmstead.name', typed('j-name') || Store.get('ohmstead.name') || '');
    say(wWelcome(me.name === wAnyone ? '' : me.name));
    await enter();
  } catch (e) { S.joinError = e.message; draw(); const box = byId('j-code'); if (box) box.focus(); }
};
function viewPair() {
  return [el('h1', wTitles.pair), S.secret ? null : el('p', wPairHelp), S.viewFailed ? el('p.line.k-danger', { role: 'alert' }, S.viewFailed) : null,
    form(() => joinWith(S.secret ? { secret: S.secret } : { code: typed('j-code').replace(/\D/g, '') }),
      S.secret ? null : field(wCode, 'j-code', { inputmode: 'numeric', autocomplete: 'one-time-code', maxlength: 20, class: 'code', 'aria-describedby': 'j-error' }), field(wYourName, 'j-name', { maxlength: 60, autocomplete: 'nickname', value: Store.get('ohmstead.name') || '' }),
      el('p', { id: 'j-error', class: 'line k-danger', role: 'alert' }, S.joinError || ''), el('button', { id: 'join', class: 'answer done' }, wJoin))];
}
function viewMore() {
  const set = (name, value) => { Store.set('ohmstead.' + name, value); dress(); draw(); };
  return [el('h1', wTitles.more),
    choice(wLook, 'look', Object.entries(wLooks), Store.get('ohmstead.look') || 'auto', v => set('look', v)), choice(wHand, 'hand', Object.entries(wHands), Store.get('ohmstead.hand') || 'right', v => set('hand', v)),
    S.me ? section(wDevice, el('p', `${S.me.name || wAnyone}: ${wRole(S.me.role)}${S.me.read_only ? '. ' + wReadOnly : ''}`), button(wAgain, () => { S.me = null; draw(); }, { id: 'again', class: 'wide' })) : null,
    sheetsLink(),
    S.view ? section(wHouse, el('p', `${S.view.house.name}, ${wRevision(S.view.house.revision)}`), S.view.house.private ? null : el('p', wPrivateLeft), S.view.cautions.map(c => el('p.line.k-caution', c))) : null,
    S.served ? null : [el('p', wInFile), byId('paper') ? button(wPlain, () => { document.documentElement.classList.remove('live'); byId('paper').scrollIntoView(); }, { id: 'plain', class: 'wide' }) : null]];
}
