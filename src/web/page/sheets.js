// Sheets and labels, seen before they are printed: the list, the pages of one as pictures, and that it was printed.

const SHEETS = '/api/sheets', SHEET_MS = 28000;
const sheetAt = (path, item, page) => `${path}?item=${encode(item)}${page ? '&page=' + page : ''}`;

/** What was told of the sheets, by address. Drawing takes the house computer a moment: nothing else of the page waits for it. */
const sheetsTold = new Map();
let sheetsOf = null;
const sheetTold = (path, anew) => {
  const { revision } = $view.house;
  if (sheetsOf !== revision) { sheetsTold.clear(); sheetsOf = revision; }
  const one = sheetsTold.get(path) || {};
  if (!anew && sheetsTold.has(path)) return one;
  sheetsTold.set(path, one);
  ask(path, null, SHEET_MS).then(json => { one.is = json; one.failed = ''; }, e => { one.failed = e.message; })
    .then(() => { if (route()[0] === 'sheets' && revision === sheetsOf) draw(); });
  return one;
};
const alarm = text => el('p.line.k-danger', ALERT, text);
const sheetFailed = (path, one) => one.failed ? [alarm(one.failed), button(wTryAgain, () => { one.failed = ''; sheetTold(path, true); draw(); }, '#sheetagain')] : !one.is && el('p.wait', wDrawing);

const sheetRow = ({ item, title, words, state }) => {
  const text = grow([title, el('span.small.below', words)]), tag = wSheetTag[state];
  return ['refused', 'empty'].includes(state) ? el('.row', text) : el('a.row', { href: '#sheets/' + item }, text, tag && el(state === 'stale' ? 'span.tag.s2' : 'span.tag', tag));
};
const newTab = (id, href, ...children) => el('a' + id, { href, target: '_blank', rel: 'noopener' }, children);
/** What was printed is what is seen here: of this revision, which need not be the latest. */
const askPrinted = ({ item, revision, state }) => !may('trace') ? hint(wPrintedLook)
  : state !== 'current' && [paragraph(wPrintedAsk), button(wPrinted, ({ target }) => {
    target.disabled = true;
    send('/api/printed', { item, revision }, wPrinted, () => { sheetsTold.clear(); say(wRecorded); draw(); });
  }, '#printed.wide')];
const viewSheet = item => {
  const path = sheetAt(SHEETS, item), one = sheetTold(path), sheet = one.is;
  if (!sheet) return [backLink(), ...bare(wTitles.sheets, sheetFailed(path, one))];
  return [backLink(), heading(sheet.title), paragraph(sheet.words), el('p.pick', newTab('#pdf', sheetAt('/api/sheet.pdf', item), wOpenPdf)), hint(wPrintHint), askPrinted(sheet), sheet.notes.map(note => caution(note.replace(/^Note: /, ''))),
    sheet.pages.map((size, i) => {
      const page = wPageOf(i + 1, sheet.pages.length), href = sheetAt('/api/sheet', item, i + 1);
      return el('figure.sheetpage', el('figcaption', page), newTab('', href, el('img', { src: `${href}&r=${sheet.revision}`, alt: `${sheet.title}, ${page}`, loading: 'lazy', ...size })));
    })];
};
function viewSheets([item]) {
  if (!$served) return bare(wTitles.sheets, paragraph(wInFile));
  if (item) return viewSheet(item);
  const one = sheetTold(SHEETS, location.hash !== lastRoute), all = one.is;  // what was printed meanwhile is no news: asked anew
  return bare(wTitles.sheets, hint(wSheetsHelp), sheetFailed(SHEETS, one),
    all && [all.gone.map(caution), all.sheets.length ? list(all.sheets, sheetRow, '.rows') : paragraph(wNoSheets)]);
}
const sheetsLink = () => $served && paragraph(link('sheets', wSheetsLink));
