// Sheets and labels, seen before they are printed: the list, and the pages of one as pictures.

const SHEETS = '/api/sheets', SHEET_MS = 28000;
const sheetAt = (path, item, page) => `${path}?item=${encodeURIComponent(item)}${page ? '&page=' + page : ''}`;

/** What was told of the sheets, by address. Drawing takes the house computer a moment: nothing else of the page waits for it. */
const Sheets = {
  told: new Map(), revision: null,
  get(path, anew) {
    if (this.revision !== S.view.house.revision) { this.told.clear(); this.revision = S.view.house.revision; }
    if (!anew && this.told.has(path)) return this.told.get(path);
    const one = this.told.get(path) || {}, revision = this.revision;
    this.told.set(path, one);
    ask('GET', path, null, SHEET_MS).then(json => { one.is = json; one.failed = ''; }, e => { one.failed = e.message; })
      .then(() => { if (route()[0] === 'sheets' && revision === this.revision) draw(); });
    return one;
  },
};
const sheetFailed = (path, one) => one.failed ? [el('p.line.k-danger', { role: 'alert' }, one.failed), button(wTryAgain, () => { one.failed = ''; Sheets.get(path, true); draw(); }, { id: 'sheetagain' })] : null;

const sheetRow = sheet => {
  const text = el('span.grow', sheet.title, el('span.small.below', sheet.words)), tag = wSheetTag[sheet.state];
  return ['refused', 'empty'].includes(sheet.state) ? el('div.row', text) : el('a.row', { href: '#sheets/' + sheet.item }, text, tag ? el('span.tag', { class: sheet.state === 'stale' ? 's2' : '' }, tag) : null);
};
const sheetPage = (sheet, i) => el('figure.sheetpage', el('figcaption', wPageOf(i + 1, sheet.pages.length)),
  el('a', { href: sheetAt('/api/sheet', sheet.item, i + 1), target: '_blank', rel: 'noopener' },
    el('img', { src: sheetAt('/api/sheet', sheet.item, i + 1) + '&r=' + sheet.revision, alt: `${sheet.title}, ${wPageOf(i + 1, sheet.pages.length)}`, loading: 'lazy', ...sheet.pages[i] })));

const viewSheet = item => {
  const path = sheetAt(SHEETS, item), one = Sheets.get(path), sheet = one.is;
  if (!sheet) return [backLink(), el('h1', wTitles.sheets), sheetFailed(path, one) || el('p.wait', wDrawing)];
  return [backLink(), el('h1', sheet.title), el('p', sheet.words), el('p.pick', el('a', { id: 'pdf', href: sheetAt('/api/sheet.pdf', item), target: '_blank', rel: 'noopener' }, wOpenPdf)),
    el('p.hint', wPrintHint), sheet.notes.map(note => el('p.line.k-caution', note.replace(/^Note: /, ''))), sheet.pages.map((_, i) => sheetPage(sheet, i))];
};
function viewSheets([item]) {
  if (!S.served) return [el('h1', wTitles.sheets), el('p', wInFile)];
  if (item) return viewSheet(item);
  const one = Sheets.get(SHEETS, location.hash !== lastRoute), list_ = one.is;  // what was printed meanwhile is no news: asked anew
  return [el('h1', wTitles.sheets), el('p.hint', wSheetsHelp), sheetFailed(SHEETS, one),
    !list_ ? one.failed ? null : el('p.wait', wDrawing) : [list_.gone.map(text => el('p.line.k-caution', text)), list_.sheets.length ? list(list_.sheets, sheetRow, { class: 'rows' }) : el('p', wNoSheets)]];
}
const sheetsLink = () => S.served ? el('p', link('sheets', wSheetsLink)) : null;
