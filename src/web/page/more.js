// Joining, and how this page looks.

const joinWith = async how => {
  try {
    $joinError = $secret = '';
    const name = typed('j-name') || recall('name') || '', me = await ask('/api/pair', { ...how, name: name || wAnyone });
    remember('name', name);
    say(wWelcome(me.name === wAnyone ? '' : me.name));
    await enter();
  } catch (e) { $joinError = e.message; draw(); const box = byId('j-code'); if (box) box.focus(); }
};
function viewPair() {
  return bare(wTitles.pair, !$secret && paragraph(wPairHelp), $viewFailed && alarm($viewFailed),
    form(() => joinWith($secret ? { secret: $secret } : { code: typed('j-code').replace(/\D/g, '') }),
      !$secret && field(wCode, 'j-code', { inputmode: 'numeric', autocomplete: 'one-time-code', maxlength: 20, class: 'code', 'aria-describedby': 'j-error' }), field(wYourName, 'j-name', { maxlength: 60, autocomplete: 'nickname', value: recall('name') || '' }),
      el('p#j-error.line.k-danger', ALERT, $joinError), sendButton('#join.answer.done', wJoin)));
}
const LOOKS = { look: 'auto', hand: 'right' };
const lookOf = name => recall(name) || LOOKS[name];
function viewMore() {
  const looks = (name, title, options) => choice(title, name, entries(options), lookOf(name), value => { remember(name, value); dress(); draw(); });
  const { house, cautions } = $view || {}, wide = (text, run, id) => button(text, run, id + '.wide'), paper = byId('paper');
  return bare(wTitles.more, looks('look', wLook, wLooks), looks('hand', wHand, wHands),
    $me && section(wDevice, paragraph(`${$me.name || wAnyone}: ${wRole[$me.role]}${$me.read_only ? '. ' + wReadOnly : ''}`), wide(wAgain, () => { $me = null; draw(); }, '#again')),
    sheetsLink(),
    house && section(wHouse, paragraph(`${house.name}, ${wRevision(house.revision)}`), !house.private && paragraph(wPrivateLeft), cautions.map(caution)), $view && photosOf(),
    !$served && [paragraph(wInFile), paper && wide(wPlain, () => { root.classList.remove('live'); paper.scrollIntoView(); }, '#plain')]);
}
